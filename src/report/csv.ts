import type { Sweep } from '../corner/sweep.ts';

/**
 * A sweep as CSV by RFC 4180: a header `name [unit]` (the name alone for a ratio), one line a row, each ended by CR LF.
 *
 * Numbers have all their digits and read back to the same bits; a quantity that is not defined is an empty cell.
 */
export function sweepCsv({ info, columns }: Sweep): string {
  const header = info.map(({ name, unit }) => (unit === '' ? name : `${name} [${unit}]`));
  const lines = [header.map(cell).join(',')];
  for (let i = 0; i < columns.travel.length; i++) {
    lines.push(info.map(({ name }) => String(columns[name][i] ?? '')).join(','));
  }
  return lines.map((line) => `${line}\r\n`).join('');
}

function cell(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

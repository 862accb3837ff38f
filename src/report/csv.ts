import type { Sweep } from '../corner/sweep.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Units } from '../units.ts';
import { shownUnit } from './in-units.ts';
import { lookFaults } from './looks.ts';

/**
 * A sweep as CSV by RFC 4180: a header `name [unit]` (the name alone for a ratio), one line a row, each ended by CR LF.
 *
 * Lengths are in mm, or in inches for `imperial`. Metric numbers have all their digits and read back to the same bits; a quantity that is not
 * defined is an empty cell. A name that a spreadsheet would take for a formula begins with an apostrophe.
 */
export function sweepCsv(sweep: Sweep, options: { readonly units?: Units } = {}): string {
  refuseOtherThan('sweep', sweep);
  refuse('options of sweepCsv', lookFaults(options, ['units']));
  const { info, columns } = sweep;
  const { units = 'metric' } = options;
  const shown = info.map(({ name, unit }) => ({ name, unit: shownUnit(unit, units) }));
  const header = shown.map(({ name, unit }) => (unit.name === '' ? name : `${name} [${unit.name}]`));
  const lines = [header.map(cell).join(',')];
  for (let i = 0; i < columns.travel.length; i++) {
    const cells = shown.map(({ name, unit }) => {
      const value = columns[name][i];
      return value === null ? '' : String(unit.of(value));
    });
    lines.push(cells.join(','));
  }
  return lines.map((line) => `${line}\r\n`).join('');
}

function cell(name: string): string {
  const text = /^[=+\-@\t\r]/.test(name) ? `'${name}` : name;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

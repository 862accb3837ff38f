import { sweepCsv } from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectSame } from '../support/tolerance.ts';
import { randomCorners, shapes, swept } from './corners.ts';

/** Cells of a CSV file by RFC 4180: quoted or plain, lines ended by CR LF. */
function parseCsv(text: string): string[][] {
  const lines: string[][] = [];
  let line: string[] = [];
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y;
  while (cell.lastIndex < text.length) {
    const match = cell.exec(text);
    if (match === null) throw new Error('no cell');
    const [, quoted, bare, end] = match;
    line.push(quoted === undefined ? bare : quoted.replaceAll('""', '"'));
    if (end === ',') continue;
    lines.push(line);
    line = [];
  }
  if (line.length > 0) throw new Error('the last line does not end');
  return lines;
}

describe('sweepCsv', () => {
  it.each(shapes)('reads back to the same numbers: %s', (_, input, options) => {
    const curves = swept(input, options);
    const [head, ...lines] = parseCsv(sweepCsv(curves));
    expect(head).toEqual(curves.info.map(({ name, unit }) => (unit === '' ? name : `${name} [${unit}]`)));
    expect(lines.length).toBe(curves.columns.travel.length);
    const rows = lines.map((line) => line.map((cell) => (cell === '' ? null : Number(cell))));
    curves.info.forEach(({ name }, k) => {
      const column = rows.map((row) => row[k]);
      // No bit may differ, but for the sign of a zero.
      expectSame(
        column,
        Array.from(curves.columns[name], (value) => (value === 0 ? 0 : value)),
      );
    });
  });

  it('leaves a cell empty where a quantity is not defined', () => {
    const [, input] = shapes.find(([name]) => name.startsWith('parallel level'))!;
    const curves = swept(input, { bump: 10, droop: 10, columns: ['camber', 'instantCentreY'] });
    expect(sweepCsv(curves)).toBe(
      'travel [mm],camber [deg],instantCentreY [mm]\r\n-10,0,\r\n-5,0,\r\n0,0,\r\n5,0,\r\n10,0,\r\n',
    );
  });

  it('has no name that a spreadsheet takes for a formula', () => {
    const curves = swept(randomCorners[0][1], { bump: 0, droop: 0, columns: [] });
    const travel = { ...curves.info[0], name: '=1+1', unit: '' };
    const named = {
      ...curves,
      info: [travel],
      columns: { ...curves.columns, '=1+1': curves.columns.travel },
    };
    expect(sweepCsv(named as unknown as typeof curves)).toBe("'=1+1\r\n0\r\n");
  });

  it('quotes a name that needs it', () => {
    const curves = swept(randomCorners[0][1], { bump: 0, droop: 0, columns: [] });
    const travel = { ...curves.info[0], name: 'travel', unit: 'mm, "up"' };
    expect(sweepCsv({ ...curves, info: [travel] })).toBe('"travel [mm, ""up""]"\r\n0\r\n');
  });
});

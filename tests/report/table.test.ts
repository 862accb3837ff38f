import { InputError, sweepTable } from 'jounce';
import { describe, expect, it } from 'vitest';
import { plain, shapes, swept } from './corners.ts';

describe('sweepTable', () => {
  it('shows spring columns first, then those of the wheel, rounded, with units and signs', () => {
    const table = sweepTable(swept(plain, { bump: 10, droop: 10 }));
    expect(table).toMatchInlineSnapshot(`
      "                             installation  |          half track  roll centre
             travel  shock length         ratio  |  camber      change       height
                 mm            mm             -  |     deg          mm           mm
      -----  ------  ------------  ------------  |  ------  ----------  -----------
      droop     -10         345.5         0.607  |   -0.37        -0.9         71.5
                 -5         342.5         0.608  |   -0.48        -0.4         64.7
       ride       0         339.5         0.609  |   -0.60         0.0         57.9
                 +5         336.4         0.610  |   -0.72         0.4         51.1
       bump     +10         333.3         0.612  |   -0.85         0.7         44.3

      travel, bump +; camber, top outboard +; half-track change, outboard +;
      roll-centre height above the ground of that pose.
      "
    `);
  });

  it('shows the columns asked for, in that order, and dashes where one is not defined', () => {
    const [, input] = shapes.find(([name]) => name.startsWith('parallel level'))!;
    const curves = swept(input, { bump: 10, droop: 5 });
    expect(sweepTable(curves, ['instantCentreY', 'travel', 'lowerArmAngle'])).toMatchInlineSnapshot(`
      "                instant  lower arm
             travel  centre y      angle
                 mm        mm        deg
      -----  ------  --------  ---------
      droop      -5         -      -0.82
       ride       0         -       0.00
                 +5         -       0.82
       bump     +10         -       1.64

      travel, bump +; instant centre of the upright, y.
      "
    `);
  });

  it.each(shapes)('has lines of columns that stand under each other: %s', (_, input, options) => {
    const curves = swept(input, options);
    const lines = sweepTable(curves).split('\n');
    const rule = lines.findIndex((line) => line.startsWith('---'));
    const rows = lines.slice(rule + 1, rule + 1 + curves.columns.travel.length);
    expect(rows.every((row) => row.length === lines[rule].length)).toBe(true);
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(80);
    expect(lines.join('\n')).not.toMatch(/-0(\.0+)?(?![\d.])|NaN|undefined/);
  });

  it('shows what a sweep of few columns has', () => {
    const table = sweepTable(swept(plain, { bump: 5, droop: 5, columns: ['camber'] }));
    expect(table).toContain('camber');
    expect(table).not.toContain('ratio');
  });

  it('names a column that the sweep does not have', () => {
    const curves = swept(plain, { columns: ['camber'] });
    expect(() => sweepTable(curves, ['camber', 'shockLength'])).toThrow(InputError);
    expect(() => sweepTable(curves, ['camber', 'shockLength'])).toThrow(
      'columns[1]: not in the sweep, got "shockLength" (allowed: travel, camber)',
    );
  });
});

/**
 * Holds the three sweeps that the benchmarks run against, to the 50-digit poses and to the careful closed form.
 */
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../support/tolerance.ts';
import { circleCorner } from './circle-intersection.ts';
import { fastSweep, fastSweepWithRatios, POSITION_COLUMNS, RATIO_COLUMNS } from './circle-sweep.ts';
import { textbookSweep } from './circle-textbook.ts';
import { fixtureCorners } from './corners.ts';
import { NEWTON_ROW, newtonSweep } from './newton-corner.ts';

const sweeps = fixtureCorners.flatMap(({ name, input, sweeps: all }) =>
  all.map(({ travelReference, poses }) => ({ name, input, travelReference, poses })),
);

/** Evenly spaced travels from the first to the last of a fixture. */
function grid(poses: readonly { readonly travel: number }[], rows: number): Float64Array {
  const first = poses[0].travel;
  const last = poses[poses.length - 1].travel;
  return Float64Array.from({ length: rows }, (_, i) => first + ((last - first) * i) / (rows - 1));
}

function worst(one: Float64Array, other: Float64Array): number {
  return one.reduce((most, value, i) => Math.max(most, Math.abs(value - other[i])), 0);
}

describe.each(sweeps)('$name over $travelReference', ({ input, travelReference, poses }) => {
  it('has the 50-digit poses', () => {
    const travels = Float64Array.from(poses, ({ travel }) => travel);
    const width = RATIO_COLUMNS.length;
    const expected = Float64Array.from(
      poses.flatMap((pose) => [
        ...pose.lowerOuter,
        ...pose.upperOuter,
        ...pose.wheelCentre,
        ...pose.contactPatch,
        ...pose.mount,
        pose.shockLength,
        pose.installationRatio,
        pose.installationRatioSlope,
      ]),
    );
    const found = new Float64Array(poses.length * width);
    expect(fastSweepWithRatios(input, travels, found, travelReference)).toBe(poses.length);
    expectWithin(worst(found, expected), 0, 1e-10);

    const positions = expected.filter((_, i) => i % width < POSITION_COLUMNS.length);
    const fast = new Float64Array(positions.length);
    expect(fastSweep(input, travels, fast, travelReference)).toBe(poses.length);
    expectWithin(worst(fast, positions), 0, 1e-10);
    const textbook = new Float64Array(positions.length);
    expect(textbookSweep(input, travels, textbook, travelReference)).toBe(poses.length);
    expectWithin(worst(textbook, positions), 0, 1e-10);
    const newton = new Float64Array(poses.length * NEWTON_ROW);
    expect(newtonSweep(input, travels, newton, travelReference)).toBe(poses.length);
    expectWithin(worst(newton, positions), 0, 1e-10);
  });

  it('is met to 1e-12 mm of travel by every row of a fine sweep, in any order', () => {
    const corner = circleCorner(input);
    const rising = grid(poses, 201);
    const shuffled = rising.map((_, i) => rising[(i * 64) % 201]);
    const width = RATIO_COLUMNS.length;
    const driven = RATIO_COLUMNS.indexOf(
      travelReference === 'contactPatch' ? 'contactPatchZ' : 'wheelCentreZ',
    );
    for (const travels of [rising, rising.slice().reverse(), shuffled]) {
      const rows = new Float64Array(travels.length * width);
      expect(fastSweepWithRatios(input, travels, rows, travelReference)).toBe(travels.length);
      const plain = new Float64Array(travels.length * POSITION_COLUMNS.length);
      expect(textbookSweep(input, travels, plain, travelReference)).toBe(travels.length);
      expect(
        worst(
          plain,
          rows.filter((_, i) => i % width < POSITION_COLUMNS.length),
        ),
      ).toBeLessThan(1e-10);
      const drawn = corner.atTravel(0, travelReference);
      const height =
        (travelReference === 'contactPatch' ? drawn?.contactPatch : drawn?.wheelCentre)?.[1] ?? Number.NaN;
      const missed = travels.map((z, i) => rows[i * width + driven] - height - z);
      expectWithin(worst(missed, new Float64Array(missed.length)), 0, 1e-12);
      travels.forEach((z, i) => {
        if (i % 10 !== 3) return;
        const pose = corner.atTravel(z, travelReference);
        if (pose === null) throw new Error(`no pose at ${z} mm`);
        const at = i * width;
        const same = (column: (typeof RATIO_COLUMNS)[number], value: number | null): void => {
          const here = rows[at + RATIO_COLUMNS.indexOf(column)];
          expectWithin(here, value ?? Number.NaN, 1e-10);
        };
        same('upperOuterY', pose.upperOuter[0]);
        same('mountY', pose.mount[0]);
        same('shockLength', pose.shockLength);
        same('installationRatio', pose.installationRatio);
        same('installationRatioSlope', pose.installationRatioSlope);
      });
    }
  });
});

describe('travel beyond the motion', () => {
  const { input } = fixtureCorners[0];
  const { bump } = circleCorner(input).deadPoints();
  const travels = Float64Array.of(0, 20, bump.travel + 5, 10);

  it('ends the sweeps at the row before', () => {
    expect(fastSweep(input, travels, new Float64Array(4 * POSITION_COLUMNS.length))).toBe(2);
    expect(textbookSweep(input, travels, new Float64Array(4 * POSITION_COLUMNS.length))).toBe(2);
    expect(newtonSweep(input, travels, new Float64Array(4 * NEWTON_ROW))).toBe(2);
  });
});

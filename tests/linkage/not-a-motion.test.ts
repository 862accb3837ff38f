/** What needs a motion refuses whatever is none. */
import { show } from 'jounce';
import { InputError, linkage, trace } from 'jounce/linkage';
import { equilibria, followEquilibrium } from 'jounce/statics';
import { couplerCurve, extremeValues, mechanicalAdvantage, transmissionAngle } from 'jounce/synthesis';
import { expect, it } from 'vitest';

const drawing = linkage({
  points: { O: [0, 0], A: [0, 40], B: [110, 80], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
});

const wanting: Readonly<Record<string, (motion: never) => unknown>> = {
  equilibria: (motion) => equilibria(motion, []),
  followEquilibrium: (motion) => followEquilibrium(motion, [], []),
  extremeValues: (motion) => extremeValues(motion, { x: 'A' }),
  couplerCurve: (motion) => couplerCurve(motion, 'A'),
  transmissionAngle: (motion) => transmissionAngle(motion, { coupler: ['A', 'B'], output: ['B', 'C'] }),
  mechanicalAdvantage: (motion) => mechanicalAdvantage(motion, { turn: 'rocker' }),
  'show with measures': (motion) => show(motion, { measures: [{ turn: 'rocker' }] }),
};

it.each(Object.entries(wanting))('%s takes a motion, and no drawing', (_, run) => {
  run(trace(drawing, { driver: { turn: 'crank' }, from: -0.2, to: 0.2 }) as never);
  expect(() => run(drawing as never)).toThrow(
    /^invalid motion\n {2}not a motion, .*; trace the drawing first$/,
  );
});

it.each([undefined, null, 3, [], {}, { path: {} }, { extremes: 1 }])('nor %j', (other) => {
  for (const run of Object.values(wanting)) expect(() => run(other as never)).toThrow(InputError);
});

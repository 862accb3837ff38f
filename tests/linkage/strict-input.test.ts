/** Input that names more than its kind has is refused, never dropped. */
import { type Drawing, drive, InputError, type Measure, trace, withLengths } from 'jounce/linkage';
import { forces, type Load } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';

const fourBar = deepFreeze({
  points: { A: [0, 0], B: [0, 100], C: [200, 150], D: [220, 0] },
  ground: ['A', 'D'],
  bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
} satisfies Drawing);
/** Two bars from the ground, of two degrees of freedom. */
const arm = deepFreeze({
  points: { O: [0, 0], A: [100, 0], B: [180, 30] },
  ground: ['O'],
  bodies: { one: ['O', 'A'], two: ['A', 'B'] },
} satisfies Drawing);
/** A parallelogram drawn flat: a change point. */
const flat = deepFreeze({
  points: { A: [0, 0], B: [100, 0], C: [300, 0], D: [200, 0] },
  ground: ['A', 'D'],
  bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
} satisfies Drawing);

/** What is said of wrong input, line by line. */
function said(call: () => unknown): string[] {
  try {
    call();
  } catch (error) {
    if (error instanceof InputError)
      return error.message
        .split('\n')
        .slice(1)
        .map((line) => line.trim());
    throw error;
  }
  return expect.fail('nothing was thrown');
}

const relativTo = 'unknown option (allowed: turn, relativeTo); did you mean relativeTo?';
const offst = 'unknown option (allowed: length, offset); did you mean offset?';
const oneMeasure = 'write one measure, or each as a measure of its own';

describe('a measure', () => {
  const measures: [string, object, string][] = [
    ['a misspelt frame', { turn: 'two', relativTo: 'one' }, `.relativTo: ${relativTo}`],
    ['a misspelt offset', { length: ['O', 'B'], offst: 50 }, `.offst: ${offst}`],
    [
      'a length of three points',
      { length: ['O', 'A', 'B'] },
      `.length: not two points, got ["O","A","B"] (allowed: ['A', 'B'])`,
    ],
    [
      'two kinds',
      { turn: 'two', x: 'A' },
      `: 2 measures in one (x, turn), got {"turn":"two","x":"A"}; ${oneMeasure}`,
    ],
    [
      'a former name',
      { turn: 'two', seenFrom: 'one' },
      '.seenFrom: renamed: "seenFrom" is now called "relativeTo"; write relativeTo',
    ],
  ];
  it.each(measures)('is refused wherever it is taken: %s', (_what, faulty, issue) => {
    const measure = faulty as Measure<'O' | 'A' | 'B', 'one' | 'two'>;
    const motion = trace(arm, { driver: { turn: 'one' }, hold: [{ turn: 'two' }] });
    expect(said(() => trace(arm, { driver: measure }))).toEqual([`driver${issue}`]);
    expect(said(() => trace(arm, { hold: [measure] }))).toEqual([`hold[0]${issue}`]);
    expect(said(() => drive(arm, [{ driver: measure, to: 1 }]))).toEqual([`[0].driver${issue}`]);
    expect(said(() => motion.read(measure))).toEqual([`measure${issue}`]);
    expect(said(() => forces(arm, [], { driver: measure }))).toEqual([`driver${issue}`]);
  });
});

describe('a joint', () => {
  const joints: [string, object, string][] = [
    [
      'a fixed coordinate of two',
      { fixedCoordinates: [{ x: 'C', y: 'C' }] },
      `fixedCoordinates[0]: 2 measures in one (x, y), got {"x":"C","y":"C"}; ${oneMeasure}`,
    ],
    [
      'a slider with more',
      { sliders: { s: { point: 'C', on: ['A', 'D'], offset: 2 } } },
      'sliders.s.offset: unknown option (allowed: point, on); correct the spelling, or take it out',
    ],
    [
      'a ratio with more',
      { ratios: { r: { of: [{ turn: 'crank' }, { turn: 'rocker' }], ratio: 2, radius: 1 } } },
      'ratios.r.radius: unknown option (allowed: of, ratio); correct the spelling, or take it out',
    ],
    [
      'a misspelt frame in a ratio',
      { ratios: { r: { of: [{ turn: 'crank', relativTo: 'rocker' }, { turn: 'rocker' }], ratio: 2 } } },
      `ratios.r.of[0].relativTo: ${relativTo}`,
    ],
    [
      'two measures in one of a ratio',
      { ratios: { r: { of: [{ turn: 'crank' }, { x: 'B', travel: 'C', along: ['A', 'D'] }], ratio: 2 } } },
      `ratios.r.of[1]: 2 measures in one (travel, x), got {"x":"B","travel":"C","along":["A","D"]}; ${oneMeasure}`,
    ],
    [
      'a pulley with more',
      { ropes: { r: ['A', { about: 'C', radius: 5, side: 'left', radus: 7 }, 'D'] } },
      'ropes.r[1].radus: unknown option (allowed: about, radius, side); did you mean radius?',
    ],
  ];
  it.each(joints)('is refused: %s', (_what, joint, issue) => {
    expect(said(() => trace({ ...fourBar, ...joint }))).toEqual([issue]);
  });
});

describe('a load', () => {
  const loads: [object, string][] = [
    [
      { at: 'B', force: [1, 0], relativTo: 'crank' },
      '[0].relativTo: unknown option (allowed: at, force, on); correct the spelling, or take it out',
    ],
    [
      { between: ['A', 'C'], push: 1, offst: 5 },
      '[0].offst: unknown option (allowed: between, push, offset); did you mean offset?',
    ],
    [
      { on: 'crank', moment: 1, at: 'B', force: [1, 1] },
      '[0]: 2 loads in one (moment, at), got {"on":"crank","moment":1,"at":"B","force":[1,1]}; write one load, or each as a load of its own',
    ],
  ];
  it.each(loads)('is refused: %o', (load, issue) => {
    expect(said(() => forces(fourBar as Drawing, [load as Load], { driver: { turn: 'crank' } }))).toEqual([
      issue,
    ]);
  });
});

describe('drive', () => {
  it('holds measures as trace does', () => {
    const held = drive(arm, [{ driver: { turn: 'one' }, to: 0.5 }], { hold: [{ turn: 'two' }] });
    const both = drive(arm, [
      { driver: { turn: 'one' }, to: 0.5 },
      { driver: { turn: 'two' }, to: 0 },
    ]);
    expect(held.end.status).toBe('reached');
    expect(held.drawing).toEqual(both.drawing);
  });

  it('takes a branch of a drawing at a change point', () => {
    const at = ([0, 1] as const).map((branch) => {
      const { drawing, end } = drive(flat, [{ driver: { turn: 'crank' }, to: 1 }], { branch });
      expect(end.status).toBe('reached');
      return drawing.points.C;
    });
    expect(Math.hypot(at[0][0] - at[1][0], at[0][1] - at[1][1])).toBeGreaterThan(10);
  });

  it('refuses other options', () => {
    const options = { holds: [{ turn: 'two' }] } as object;
    expect(said(() => drive(arm, [{ driver: { turn: 'one' }, to: 1 }], options))).toEqual([
      'holds: unknown option (allowed: hold, branch, tolerance); did you mean hold?',
    ]);
  });
});

describe('a schedule', () => {
  const faulty: [unknown, string][] = [
    [Number.NaN, 'NaN'],
    [0, '0'],
    [[0], '[0]'],
    [undefined, 'undefined'],
    [[0, 1, Number.POSITIVE_INFINITY], '[0,1,Infinity]'],
  ];
  it.each(faulty)('is refused that gives %o', (given, got) => {
    const drivers = [{ driver: { turn: 'crank' }, schedule: () => given as never }] as const;
    expect(said(() => trace(fourBar, { drivers }))).toEqual([
      `drivers[0].schedule: not three finite numbers at u = 0, got ${got} (allowed: [value, first derivative, second derivative])`,
    ]);
  });

  it('that jumps is told apart', () => {
    const schedule = (u: number) => [u < 0.5 ? 0 : 1, 0, 0] as const;
    const drivers = [{ driver: { turn: 'crank' }, schedule }] as const;
    expect(said(() => trace(fourBar, { drivers })).join()).toContain('do not fit each other near u = 0.5');
  });
});

describe('the fixed coordinate of withLengths', () => {
  const given: [unknown, string][] = [
    [undefined, "fixed: missing (allowed: { x: 'P' } or { y: 'P' })"],
    [
      { turn: 'crank' },
      `fixed: wrong kind of value, got {"turn":"crank"} (allowed: { x: 'P' } or { y: 'P' })`,
    ],
    [{ x: 'B', y: 'B' }, `fixed: 2 measures in one (x, y), got {"x":"B","y":"B"}; ${oneMeasure}`],
    [
      { x: 'E' },
      'fixed.x: unknown point, got "E" (allowed: A, B, C, D); correct the name or add the point to the drawing',
    ],
  ];
  it.each(given)('is checked under its own name: %o', (fixed, issue) => {
    expect(said(() => withLengths(fourBar, { coupler: 230 }, fixed as { x: 'B' }))).toEqual([issue]);
  });
});

describe('a drawing without a bar', () => {
  it.each([
    ['on a guide', { points: { P: [3, 4] }, fixedCoordinates: [{ x: 'P' }] }, 3],
    ['of another size', { points: { P: [3e9, 4e9] }, fixedCoordinates: [{ x: 'P' }] }, 3e9],
    [
      'on a line',
      {
        points: { A: [0, 0], B: [0, 1e-6], P: [1e-6, 0] },
        ground: ['A', 'B'],
        sliders: { s: { point: 'P', on: ['A', 'B'] } },
      },
      1e-6,
    ],
  ] as const)('moves a point %s', (_what, part, x) => {
    const drawing: Drawing = { ground: [], bodies: {}, ...part };
    const driver = { y: 'P' };
    const [, y] = drawing.points.P;
    const to = y + 5 * Math.min(x, 1);
    const { high, at } = trace(drawing, { driver, to });
    expect(high).toEqual({ at: to, status: 'reached' });
    expect(at(to).P).toEqual([x, to]);
    expect(trace(drawing, { driver }).high.status).toBe('unbounded');
  });

  it.each([1e200, 1e-200])('is refused with its true size: %d', (size) => {
    const points = Object.fromEntries(
      Object.entries(fourBar.points).map(([name, [x, y]]) => [name, [x * size, y * size]]),
    );
    const [line] = said(() => trace({ ...fourBar, points }));
    const got = Number(/got (\S+) from end to end of the longest bar/.exec(line)?.[1]);
    expect(Math.abs(got / (Math.hypot(200, 50) * size) - 1)).toBeLessThan(4 * Number.EPSILON);
  });
});

describe('a branch that is not there', () => {
  it('is said by the end of the motion', () => {
    const bent = { ...flat, points: { A: [0, 0], B: [0, 100], C: [200, 100], D: [200, 0] } } as const;
    const driver = { turn: 'crank' } as const;
    const chosen = trace(bent, { driver, branch: 7 });
    expect(chosen.high).toMatchObject({ status: 'bifurcation', choice: 'missing' });
    expect(chosen.high.branches?.length).toBeGreaterThan(1);
    expect(trace(bent, { driver }).high).not.toHaveProperty('choice');
  });

  it.each(['straight', 7] as const)('is refused in the drawn pose: %s', (branch) => {
    expect(said(() => trace(flat, { driver: { turn: 'crank' }, branch }))).toEqual([
      "branch: not a branch on which the driver moves from the drawn pose, a bifurcation (change point) of 2 branches (allowed: a number below 2, or { measure, sign }); 'straight' has no meaning there: it continues a motion that comes to a bifurcation",
    ]);
  });
});

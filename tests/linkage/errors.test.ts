/** Wrong input is told at once and whole: where, what, what would do, in the names of the drawing. */
import {
  type Drawing,
  drive,
  InputError,
  type Issue,
  linkage,
  type Measure,
  type Point,
  trace,
  withLengths,
} from 'jounce/linkage';
import { forces } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';

const fourBar = deepFreeze({
  points: { A: [0, 0], B: [0, 100], C: [200, 150], D: [220, 0] },
  ground: ['A', 'D'],
  bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
} satisfies Drawing);

/** The error that a call throws, which must be the library's. */
function thrown(call: () => unknown): InputError {
  try {
    call();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  return expect.fail('nothing was thrown');
}

const issuesOf = (drawing: unknown): readonly Issue[] =>
  thrown(() => trace(deepFreeze(drawing as Drawing))).issues;

/** What is said of one part of the four-bar that is drawn otherwise. */
const issuesWith = (changed: Partial<Record<keyof Drawing, unknown>>) =>
  issuesOf({ ...fourBar, ...structuredClone(changed) });

describe('a faulty drawing', () => {
  it('is told of the parts that it lacks, with what they look like', () => {
    expect(thrown(() => trace({ points: { A: [0, 0] } } as unknown as Drawing)).message).toBe(
      [
        'invalid drawing',
        "  ground: missing (allowed: ['A', ...])",
        "  bodies: missing (allowed: { name: ['A', 'B'], ... })",
      ].join('\n'),
    );
  });

  it('is told with everything that is wrong, in the order of the drawing', () => {
    const error = thrown(() =>
      trace(
        deepFreeze({
          points: { A: [0, 0], B: [0, 100], C: [200, 150], D: [220, 0], E: [7, 8] },
          ground: ['A', 'X'],
          bodies: { crank: ['A', 'B'], coupler: ['B', 'uper'], rocker: ['D', 'C', 'C'], lone: ['D'] },
        } as const),
      ),
    );
    expect(error.name).toBe('InputError');
    expect(error.message).toBe(
      [
        'invalid drawing',
        '  ground[1]: unknown point, got "X" (allowed: A, B, C, D, E); correct the name or add the point to the drawing',
        '  bodies.coupler[1]: unknown point, got "uper" (allowed: A, B, C, D, E); correct the name or add the point to the drawing',
        '  bodies.rocker[2]: point named twice, got "C"; take one out',
        '  bodies.lone: a body needs two points or more, got ["D"]; add the point where it is pinned, or take the body out',
        '  points.E: point on no body and not ground; add it to a body or to ground, or take it out',
      ].join('\n'),
    );
    expect(error.issues.map(({ path }) => path)).toEqual([
      'ground[1]',
      'bodies.coupler[1]',
      'bodies.rocker[2]',
      'bodies.lone',
      'points.E',
    ]);
  });

  it('may have a bar of no length', () => {
    const error = thrown(() => trace(deepFreeze({ ...fourBar, points: { ...fourBar.points, B: [0, 0] } })));
    expect(error.message).toBe(
      [
        'invalid drawing',
        '  bodies.crank: a bar of no length, got A, B at [0,0]; give the points different places, or make them one ' +
          'point: bodies that share a point are pinned there',
      ].join('\n'),
    );
  });

  it('may have a body whose points all coincide', () => {
    const points = { ...fourBar.points, B: [3, 4], C: [3, 4], P: [3, 4] };
    const bodies = { ...fourBar.bodies, coupler: ['B', 'C', 'P'] };
    expect(issuesWith({ points, bodies })).toMatchObject([
      { path: 'bodies.coupler', problem: 'all points of the body coincide', got: 'B, C, P at [3,4]' },
    ]);
  });

  const faulty: [string, unknown][] = [
    ['NaN', [0, Number.NaN]],
    ['an infinity', [Number.NEGATIVE_INFINITY, 0]],
    ['a text', ['0', 100]],
    ['one coordinate', [0]],
    ['three coordinates', [0, 100, 0]],
    ['what JSON makes of NaN', [null, 100]],
    ['null', null],
    ['a record', { x: 0, y: 100 }],
  ];

  it.each(faulty)('may have a point that is %s', (_what, B) => {
    const issues = issuesOf({ ...structuredClone(fourBar), points: { ...fourBar.points, B } });
    expect(issues).toMatchObject([
      { path: 'points.B', problem: 'not a point', allowed: 'two finite numbers [x, y]' },
    ]);
  });

  it.each(faulty)('is told as well after a right one of the same bodies: a point that is %s', (_what, B) => {
    trace(fourBar);
    expect(issuesOf({ ...fourBar, points: { ...fourBar.points, B } })).toMatchObject([
      { path: 'points.B', problem: 'not a point', allowed: 'two finite numbers [x, y]' },
    ]);
  });

  it('may name a point twice in a body', () => {
    expect(issuesWith({ bodies: { ...fourBar.bodies, coupler: ['B', 'C', 'B'] } })).toMatchObject([
      { path: 'bodies.coupler[2]', problem: 'point named twice', got: '"B"' },
    ]);
  });

  it('may have a stray point', () => {
    expect(issuesWith({ points: { ...fourBar.points, stray: [1, 1] } })).toMatchObject([
      { path: 'points.stray', problem: 'point on no body and not ground' },
    ]);
  });

  it('may be empty, or have nothing that could move', () => {
    for (const drawing of [
      { points: {}, ground: [], bodies: {} },
      { points: { A: [0, 0] }, ground: ['A'], bodies: {} },
      { points: { A: [0, 0], B: [1, 0] }, ground: ['A', 'B'], bodies: { frame: ['A', 'B'] } },
    ]) {
      expect(issuesOf(drawing).length).toBeGreaterThan(0);
    }
  });
});

describe('a linkage that one driver does not determine', () => {
  it('has too many degrees of freedom: says how many, and names what is loose', () => {
    const fiveBar = deepFreeze({
      points: {
        A: [0, 0],
        B: [0, 100],
        C: [100, 200],
        D: [200, 100],
        E: [220, 0],
        F: [300, 0],
        G: [300, 50],
      },
      ground: ['A', 'E', 'F', 'G'],
      bodies: { left: ['A', 'B'], over: ['B', 'C'], down: ['C', 'D'], right: ['E', 'D'], frame: ['F', 'G'] },
    } as const);
    const expected = [
      'invalid linkage',
      '  underdetermined: 2 degrees of freedom in the drawn pose, and one driver, got points that can move: B, C, D (allowed: one ' +
        'degree of freedom for the one driver); add a body or a ground point, or hold measures with `hold`; if the linkage lies flat, draw it ' +
        'in another pose',
    ].join('\n');
    expect(thrown(() => trace(fiveBar)).message).toBe(expected);
    expect(thrown(() => trace(fiveBar, { driver: { turn: 'left' } })).message).toBe(expected);
  });

  it('has no ground: says how many degrees of freedom there are', () => {
    expect(issuesWith({ ground: [] })).toMatchObject([
      {
        problem: 'underdetermined: 5 degrees of freedom in the drawn pose, and one driver',
        got: 'points that can move: A, B, C, D',
      },
    ]);
  });

  it('has a second mechanism beside it: only what moves is named', () => {
    const points = { ...fourBar.points, O: [500, 0], P: [500, 50] };
    const bodies = { ...fourBar.bodies, arm: ['O', 'P'] };
    expect(issuesWith({ points, bodies, ground: ['A', 'D', 'O'] })).toMatchObject([
      { got: 'points that can move: B, C, P' },
    ]);
  });

  it('lies flat, where a second way opens: is told to be drawn in another pose', () => {
    const [issue] = issuesWith({ points: { A: [0, 0], B: [100, 0], C: [300, 0], D: [500, 0] } });
    expect(issue.problem).toBe('underdetermined: 2 degrees of freedom in the drawn pose, and one driver');
    expect(issue.advice).toContain('if the linkage lies flat, draw it in another pose');
  });

  it('is a triangle: says what holds it', () => {
    const triangle = deepFreeze({
      points: { A: [0, 0], B: [100, 0], C: [40, 80] },
      ground: ['A', 'B'],
      bodies: { left: ['A', 'C'], right: ['B', 'C'] },
    } as const);
    expect(thrown(() => trace(triangle)).message).toBe(
      [
        'invalid linkage',
        '  overdetermined: nothing can move in the drawn pose, got 2 constraints (body left, body right) on 2 ' +
          'coordinates (allowed: one degree of freedom for the one driver); remove a body or a ground ' +
          'point',
      ].join('\n'),
    );
  });

  it('is held by a bar too many: names the bodies, and how many are redundant', () => {
    const points = { ...fourBar.points, E: [50, -50], F: [120, -40] };
    const bodies = { ...fourBar.bodies, stay: ['E', 'C'], stayToo: ['F', 'C'] };
    const [issue] = issuesWith({ points, bodies, ground: ['A', 'D', 'E', 'F'] });
    expect(issue.problem).toBe('overdetermined: nothing can move in the drawn pose');
    expect(issue.got).toBe(
      '5 constraints (body crank, body coupler, body rocker, body stay, body stayToo) on 4 coordinates, 1 of them ' +
        'redundant',
    );
  });
});

describe('a driver', () => {
  it.each([
    ['between two ground points', { length: ['A', 'D'] }],
    ['of a ground point', { x: 'A' }],
    ['along a bar', { length: ['B', 'C'] }],
    ['from a point to itself', { length: ['B', 'B'] }],
    ['out of the plane', { length: ['B', 'B'], offset: 5 }],
  ] as const)('that never moves, %s, is told so', (_what, driver) => {
    expect(thrown(() => trace(fourBar, { driver })).message).toBe(
      'invalid linkage\n  driver: never changes when the linkage moves; drive something that moves',
    );
  });

  it('that never moves, in a parallelogram: the turn of the coupler', () => {
    const points: Record<string, Point> = { A: [0, 0], B: [37, 101], C: [248, 112], D: [211, 11] };
    const parallelogram = deepFreeze({ ...fourBar, points });
    expect(thrown(() => trace(parallelogram, { driver: { turn: 'coupler' } })).message).toContain(
      'driver: never changes when the linkage moves',
    );
  });

  it('of unknown names is told with the known ones', () => {
    const message = (driver: unknown) => thrown(() => trace(fourBar, { driver: driver as never })).message;
    expect(message({ length: ['A', 'Q'] })).toBe(
      'invalid measure\n  driver.length[1]: unknown point, got "Q" (allowed: A, B, C, D); correct the name or add the ' +
        'point to the drawing',
    );
    expect(message({ turn: 'wheel' })).toBe(
      'invalid measure\n  driver.turn: unknown body, got "wheel" (allowed: crank, coupler, rocker); correct the name or ' +
        'add the body to the drawing',
    );
    expect(message({ angle: ['P', 'Q'] }).split('\n')).toHaveLength(3);
    expect(message({ speed: 3 })).toBe(
      'invalid trace options\n  driver: unknown measure, got {"speed":3} (allowed: { x }, { y }, { length: [a, b] }, ' +
        '{ angle: [a, b] }, { turn: body })',
    );
    expect(message({ length: ['A', 'B'], offset: Number.NaN })).toBe(
      'invalid measure\n  driver.offset: not a finite number, got NaN (allowed: a finite number)',
    );
    expect(message({ angle: ['A', 'A'] })).toContain('direction between two points in one place');
  });

  it('with a range that does not hold the drawn pose is told where that is', () => {
    const message = (from: number, to: number) =>
      thrown(() => trace(fourBar, { driver: { turn: 'crank' }, from, to })).message;
    expect(message(0.5, 1)).toBe(
      'invalid driver range\n  from: range without the drawn pose, got 0.5 (allowed: 0 or less)',
    );
    expect(message(-1, -0.5)).toBe(
      'invalid driver range\n  to: range without the drawn pose, got -0.5 (allowed: 0 or more)',
    );
    expect(message(1, -1).split('\n')).toHaveLength(3);
    expect(message(Number.NaN, 1)).toContain('from: range without the drawn pose, got NaN');
    const length = () => trace(fourBar, { driver: { x: 'C' }, from: 210, to: 220 });
    expect(thrown(length).issues).toMatchObject([{ path: 'from', got: '210', allowed: '200 or less' }]);
  });
});

describe('a motion', () => {
  it('throws outside its range, and names it', () => {
    const motion = trace(fourBar, { driver: { turn: 'crank' }, from: -1, to: 1 });
    const message =
      'invalid driver value\n  outside the motion, got 1.5 (allowed: -1 (reached) to 1 (reached))';
    expect(thrown(() => motion.at(1.5)).message).toBe(message);
    expect(thrown(() => motion.read({ x: 'C' })(1.5)).message).toBe(message);
    expect(thrown(() => motion.at(Number.NaN)).message).toContain('got NaN');
  });

  it('takes a value off an end by rounding as that end', () => {
    const motion = trace(fourBar, { driver: { turn: 'crank' }, from: -1, to: 1 });
    const read = motion.read({ x: 'C' });
    for (const end of [-1, 1]) {
      for (const off of [1, 4, 8]) {
        expect(motion.at(end * (1 + off * Number.EPSILON))).toEqual(motion.at(end));
        expect(read(end * (1 + off * Number.EPSILON))).toEqual(read(end));
      }
      thrown(() => motion.at(end * (1 + 1e-12)));
      thrown(() => read(end * (1 + 1e-12)));
    }
    // @ts-expect-error: no number
    expect(thrown(() => motion.at(null)).message).toContain('got null');
  });

  it('throws for a measure of unknown names, when it is asked for', () => {
    const motion = trace(fourBar);
    for (const ask of [motion.read, motion.extremes]) {
      // @ts-expect-error: no such point
      expect(thrown(() => ask({ x: 'Q' })).message).toBe(
        'invalid measure\n  measure.x: unknown point, got "Q" (allowed: A, B, C, D); correct the name or add the point ' +
          'to the drawing',
      );
    }
  });
});

describe('linkage', () => {
  it('returns the drawing itself, and throws every issue of a faulty one', () => {
    const plain: Drawing = fourBar;
    expect(linkage(plain)).toBe(plain);
    // @ts-expect-error: no such point
    const faulty = () => linkage({ ...fourBar, ground: ['A', 'X'], bodies: { crank: ['A'] } });
    expect(thrown(faulty).issues.map(({ path }) => path)).toEqual([
      'ground[1]',
      'bodies.crank',
      ...['points.B', 'points.C', 'points.D'],
    ]);
  });

  it('is what lengths and drivers are changed in: a faulty drawing is an InputError', () => {
    const loose = { ...fourBar, bodies: {} };
    expect(thrown(() => withLengths(loose, {}, { x: 'B' })).issues).toHaveLength(2);
    expect(thrown(() => drive(loose, [{ driver: { x: 'B' }, to: 1 }])).issues).toHaveLength(2);
  });
});

describe('an InputError', () => {
  it('is an Error that carries what its message says', () => {
    // @ts-expect-error: no such body
    const error = thrown(() => trace(fourBar, { driver: { turn: 'wheel' } }));
    expect(error).toBeInstanceOf(Error);
    expect(error.issues).toEqual([
      {
        code: 'unknownName',
        severity: 'error',
        path: 'driver.turn',
        values: { what: 'body', got: '"wheel"', allowed: ['crank', 'coupler', 'rocker'] },
        problem: 'unknown body',
        got: '"wheel"',
        allowed: 'crank, coupler, rocker',
        advice: 'correct the name or add the body to the drawing',
      },
    ]);
  });
});

it('a part of a drawing under a wrong name is told, not left out', () => {
  const { issues } = thrown(() => trace({ ...fourBar, angels: { level: ['coupler', 'crank'] } } as Drawing));
  expect(issues.map(({ path }) => path)).toEqual(['angels']);
});

describe('options', () => {
  const codesOf = (issues: readonly { readonly code?: string; readonly path: string }[]) =>
    issues.map(({ code, path }) => `${path}: ${code}`);
  const any = <T>(value: unknown) => value as T;

  it('of trace are checked before anything is computed', () => {
    const faulty = { driver: 'crank', hold: { turn: 'crank' }, tolerance: Number.NaN, form: 1 };
    expect(codesOf(thrown(() => trace(fourBar, any(faulty))).issues)).toEqual([
      'form: unknownOption',
      'driver: unknownMeasure',
      'hold: notAListOfMeasures',
      'tolerance: toleranceNotPositive',
    ]);
    for (const tolerance of [-1, 0, Number.POSITIVE_INFINITY, '1']) {
      expect(codesOf(thrown(() => trace(fourBar, any({ tolerance }))).issues)).toEqual([
        'tolerance: toleranceNotPositive',
      ]);
    }
    expect(
      codesOf(thrown(() => trace(fourBar, any({ hold: [null, { turn: 'crank' }, 'B'] }))).issues),
    ).toEqual(['hold[0]: unknownMeasure', 'hold[2]: unknownMeasure']);
    expect(codesOf(thrown(() => trace(fourBar, any(null))).issues)).toEqual([': notOptions']);
    for (const [branch, codes] of [
      ['left', ['branch: notABranch']],
      [
        [0, -1, 1.5],
        ['branch: notABranch', 'branch: notABranch'],
      ],
      [{ measure: 'rocker', sign: 0 }, ['branch.measure: unknownMeasure', 'branch.sign: notASign']],
      [{ turn: 'rocker', sign: 1 }, ['branch.turn: unknownOption', 'branch.measure: unknownMeasure']],
    ]) {
      expect(codesOf(thrown(() => trace(fourBar, any({ branch }))).issues)).toEqual(codes);
    }
  });

  it('of drive and forces too', () => {
    expect(
      codesOf(
        thrown(() => drive(fourBar, any([null, { driver: 'crank', to: 1, too: 2 }, { to: 1 }]))).issues,
      ),
    ).toEqual([
      '[0]: notADriver',
      '[1].too: unknownOption',
      '[1].driver: unknownMeasure',
      '[2].driver: unknownMeasure',
    ]);
    const faulty = { driver: 'crank', method: 'byHand' };
    expect(codesOf(thrown(() => forces(fourBar, [], any(faulty))).issues)).toEqual([
      'method: unknownOption',
      'driver: unknownMeasure',
    ]);
    expect(codesOf(thrown(() => forces(fourBar, [], any('byHand'))).issues)).toEqual([': notOptions']);
  });
});

describe('a name of an earlier version', () => {
  it('of a part of a drawing is told with what it is called now, and once', () => {
    const { message, issues } = thrown(() =>
      trace({ ...fourBar, held: [{ x: 'B' }], angles: { level: ['coupler'] } } as Drawing),
    );
    expect(message).toBe(
      [
        'invalid drawing',
        '  held: renamed: "held" is now called "fixedCoordinates"; write fixedCoordinates',
        '  angles: renamed: "angles" is now called "fixedAngles"; write fixedAngles',
      ].join('\n'),
    );
    expect(issues.map(({ path }) => path)).toEqual(['held', 'angles']);
  });

  it('of a measure is told, not left out', () => {
    const plain: Drawing = fourBar;
    const motion = trace(plain, { driver: { turn: 'crank' }, from: 0, to: 0.1 });
    const measure = { x: 'B', seenFrom: 'crank' } as Measure;
    expect(thrown(() => motion.read(measure)).message).toBe(
      'invalid measure\n  measure.seenFrom: renamed: "seenFrom" is now called "relativeTo"; write relativeTo',
    );
  });
});

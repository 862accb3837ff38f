/** The smallest fault injected into a motion, or into the function that draws it, violates a law, which names place and size. */
import {
  type CheckedDrawing,
  type FixedCoordinate,
  InputError,
  type Measure,
  type Point,
  trace,
} from 'jounce/linkage';
import {
  checkLaws,
  type LawOptions,
  LawViolation,
  laws,
  type TracedMotion,
  type TraceFunction,
} from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';

type LawName = keyof typeof laws;
const names = Object.keys(laws) as LawName[];

/** A four-bar away from its dead points, and how it is put to the laws. */
const fourBar: CheckedDrawing = deepFreeze({
  points: { O: [0, 0], A: [0, 40], B: [115, 75], T: [70, 95], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B', 'T'], rocker: ['C', 'B'] },
});
const SIZE = 120;
const options: LawOptions<CheckedDrawing> = { driver: { turn: 'crank' }, range: [-0.6, 0.6] };
const asDrawn = (drawing: CheckedDrawing) => drawing;

/** A part in 10^8 of a number. */
const SMALL = 1e-8;
/** The largest error that a small fault may cause, in the unit of the number. */
const STILL_SMALL = 1e3 * SMALL * SIZE;

/** What a law says, or null where it finds nothing. */
function violationOf<T>(check: () => T): LawViolation | null {
  try {
    check();
    return null;
  } catch (error) {
    if (error instanceof LawViolation) return error;
    throw error;
  }
}

const found = (law: LawName, given: Partial<LawOptions<CheckedDrawing>>, drawing = fourBar) =>
  violationOf(() => laws[law](asDrawn, drawing, { ...options, ...given }));

/** Expects a violation of a law: its own name, what, where in the range, how much, also in the message. */
function expectViolation(
  broken: LawViolation | null,
  law: LawName,
  what: RegExp,
  [least, most]: readonly [number, number],
): void {
  expect(broken?.law).toBe(law);
  expect(broken?.what).toMatch(what);
  const { at, driver } = broken?.where ?? { at: Number.NaN, driver: '' };
  expect(Math.abs(at)).toBeLessThanOrEqual(0.6);
  expect(broken?.error).toBeGreaterThan(least);
  expect(broken?.error).toBeLessThan(most);
  expect(broken?.error).toBeGreaterThan(broken?.tolerance ?? Number.NaN);
  expect(broken?.message.startsWith(`${law}: ${broken.what} is `)).toBe(true);
  const figure = (value: number | null | undefined) => String(Number(value?.toPrecision(2)));
  expect(broken?.message).toContain(
    `error ${figure(broken?.error)} (tolerance ${figure(broken?.tolerance)})`,
  );
  expect(broken?.message).toContain(` at driver value ${Number(at.toPrecision(6))} (${driver})`);
}

/** `trace` with its motion falsified. */
const falsified =
  (change: (motion: TracedMotion, drawing: CheckedDrawing) => Partial<TracedMotion>): TraceFunction =>
  (drawing, asked) => {
    const motion = trace(drawing, asked);
    return { ...motion, ...change(motion, drawing) };
  };

type Key = 'value' | 'first' | 'second';

/** Readings changed, null derivatives left alone. */
const reading = (change: (value: number, key: Key, measure: Measure) => number) =>
  falsified(({ read }) => ({
    read: (measure) => {
      const of = read(measure);
      return (at) => {
        const { value, first, second } = of(at);
        return {
          value: change(value, 'value', measure),
          first: first === null ? null : change(first, 'first', measure),
          second: second === null ? null : change(second, 'second', measure),
        };
      };
    },
  }));

const upsideDown = (places: Readonly<Record<string, Point>>): Record<string, Point> =>
  Object.fromEntries(Object.entries(places).map(([name, [x, y]]) => [name, [x, -y]]));

/** A point moved in every pose. */
const moving = (point: string, move: (at: Point, driver: number) => Point) =>
  falsified((motion) => ({
    at: (driver) => {
      const places = motion.at(driver);
      return { ...places, [point]: move(places[point], driver) };
    },
  }));

const isLength = (measure: Measure) => 'length' in measure;
const isTurnOf = (measure: Measure, body: string) => 'turn' in measure && measure.turn === body;

/** All lengths read too long by a small share, on a drawing of which something is so. */
const longerWhere = (is: (drawing: CheckedDrawing) => boolean): TraceFunction => {
  const long = reading((value, key, measure) =>
    key === 'value' && isLength(measure) ? value * (1 + SMALL) : value,
  );
  return (drawing, asked) => (is(drawing) ? long : trace)(drawing, asked);
};
/** The turn of the rocker with the other sign, on a drawing of which something is so. */
const otherSenseWhere = (is: (drawing: CheckedDrawing) => boolean): TraceFunction => {
  const other = reading((value, _, measure) => (isTurnOf(measure, 'rocker') ? -value : value));
  return (drawing, asked) => (is(drawing) ? other : trace)(drawing, asked);
};
/** The motion with the rocker left out of the drawing; the coupler's direction is held instead. */
const loose: TraceFunction = (drawing, asked) => {
  const { rocker: _, ...bodies } = drawing.bodies;
  const motion = trace({ ...drawing, bodies }, { ...asked, hold: [{ turn: 'coupler' }] });
  const read: TracedMotion['read'] = (measure) => {
    if (!isTurnOf(measure, 'rocker')) return motion.read(measure);
    const direction = motion.read({ angle: ['C', 'B'] });
    const drawn = direction(motion.drawn).value;
    return (at) => ({ ...direction(at), value: direction(at).value - drawn });
  };
  return { ...motion, read };
};
const looseWhere =
  (is: (drawing: CheckedDrawing) => boolean): TraceFunction =>
  (drawing, asked) =>
    (is(drawing) ? loose : trace)(drawing, asked);
/** Values of the whole linkage, rates of the one without the rocker. */
const looseRates: TraceFunction = (drawing, asked) => {
  const [whole, without] = [trace(drawing, asked), loose(drawing, asked)];
  const read: TracedMotion['read'] = (measure) => {
    const [right, wrong] = [whole.read(measure), without.read(measure)];
    return (at) => ({ ...wrong(at), value: right(at).value });
  };
  return { ...whole, read };
};
/** A trace that is right as long as the crank drives. */
const unlessDrivenByCrank =
  (wrong: TraceFunction): TraceFunction =>
  (drawing, asked) =>
    (asked?.driver !== undefined && isTurnOf(asked.driver, 'crank') ? trace : wrong)(drawing, asked);

const asIs = ({ points }: CheckedDrawing) => points.O[0] === 0 && points.A[0] === 0 && points.A[1] === 40;
const isMirrored = ({ points }: CheckedDrawing) => points.C[0] < points.O[0];
const isMoved = ({ points }: CheckedDrawing) => points.O[0] !== 0;
const isTurned = ({ points }: CheckedDrawing) => points.C[1] !== points.O[1];
const isScaled = ({ points: { O, C } }: CheckedDrawing) =>
  Math.abs(Math.hypot(C[0] - O[0], C[1] - O[1]) - 100) > 1;

describe('a fault injected into a motion', () => {
  it('is needed for a violation: without one all laws hold', () => {
    for (const law of names) expect(found(law, {})).toBeNull();
  });

  /** One number wrong by a part in 10^8 of itself, or of the size. */
  const numbers: [law: LawName, fault: string, trace: TraceFunction, what: RegExp][] = [
    [
      'closes',
      'a ground point that creeps',
      moving('C', ([x, y], t) => [x + SIZE * SMALL * t, y]),
      /of C from/,
    ],
    [
      'closes',
      'a driver that is passed by a little',
      falsified((motion) => ({ at: (t) => motion.at(t * (1 - SMALL)) })),
      /turn of crank/,
    ],
    [
      'keepsLengths',
      'a pin that is off',
      moving('B', ([x, y], t) => [x + SIZE * SMALL * t, y]),
      /B.* of body/,
    ],
    ['measuresAgree', 'lengths', longerWhere(() => true), /^length/],
    [
      'measuresAgree',
      'coordinates',
      reading((v, k, m) => (k === 'value' && 'y' in m ? v * (1 + SMALL) : v)),
      /^y of/,
    ],
    [
      'measuresAgree',
      'turns',
      reading((v, k, m) => (k === 'value' && isTurnOf(m, 'rocker') ? v + SMALL : v)),
      /^turn of rocker/,
    ],
    [
      'derivativesAgree',
      'first derivatives',
      reading((v, k) => (k === 'first' ? v * (1 + SMALL) : v)),
      /^first derivative/,
    ],
    [
      'derivativesAgree',
      'second derivatives',
      reading((v, k) => (k === 'second' ? v * (1 + SMALL) : v)),
      /^second derivative/,
    ],
    [
      'derivativesAgree',
      'one second derivative',
      reading((v, k, measure) => (k === 'second' && isTurnOf(measure, 'rocker') ? v * (1 + SMALL) : v)),
      /^second derivative/,
    ],
    [
      'virtualWork',
      'rates of lengths',
      reading((v, k, m) => (k === 'first' && isLength(m) ? v * (1 + SMALL) : v)),
      /^work of a load on length/,
    ],
    [
      'virtualWork',
      'rates by another driver',
      unlessDrivenByCrank(reading((v, k) => (k === 'first' ? v * (1 + SMALL) : v))),
      /^product of the rates \(/,
    ],
    ['mirror', 'lengths on the other side', longerWhere(isMirrored), /^length/],
    ['translate', 'lengths away from the origin', longerWhere(isMoved), /^length/],
    ['rotate', 'lengths where the ground is not level', longerWhere(isTurned), /^length/],
    ['scale', 'lengths in another unit', longerWhere(isScaled), /^length/],
    [
      'outAndBack',
      'a pin that is off where the linkage comes to',
      moving('A', ([x, y], t) => [x + SIZE * SMALL * t, y]),
      /^distance of|driven back/,
    ],
  ];
  it.each(numbers)('in one number violates %s: %s', (law, _, injected, what) => {
    expectViolation(found(law, { trace: injected }), law, what, [0, STILL_SMALL]);
  });

  /** A row left out of what is moved; where the law compares two motions, out of the second one. */
  const rows: [law: LawName, fault: string, trace: TraceFunction, what: RegExp][] = [
    [
      'closes',
      'a ground point, which then goes along',
      (drawing, asked) =>
        trace({ ...drawing, ground: ['O'] }, { ...asked, hold: [{ turn: 'coupler' }, { turn: 'rocker' }] }),
      /^distance of C from its place on the ground/,
    ],
    ['keepsLengths', 'a bar', loose, /^C-B of body rocker/],
    [
      'measuresAgree',
      'a bar, where measures are read',
      (drawing, asked) => ({
        ...trace(drawing, asked),
        read: loose(drawing, asked).read,
      }),
      /^length/,
    ],
    ['derivativesAgree', 'a bar, in the rates', looseRates, /^first derivative/],
    ['virtualWork', 'a bar, in the rates', looseRates, /^work of a load/],
    ['mirror', 'a bar, on the other side', looseWhere(isMirrored), /./],
    ['translate', 'a bar, away from the origin', looseWhere(isMoved), /./],
    ['rotate', 'a bar, where the ground is not level', looseWhere(isTurned), /./],
    ['scale', 'a bar, in another unit', looseWhere(isScaled), /./],
    ['outAndBack', 'a bar, on the way back', looseWhere((drawing) => !asIs(drawing)), /^distance of/],
  ];
  it.each(rows)('by a row left out violates %s: %s', (law, _, injected, what) => {
    expectViolation(found(law, { trace: injected }), law, what, [1e-3, SIZE * 100]);
  });

  /** One sign. */
  const signs: [law: LawName, fault: string, trace: TraceFunction, what: RegExp][] = [
    ['closes', 'of the driver', falsified((motion) => ({ at: (t) => motion.at(-t) })), /turn of crank/],
    [
      'keepsLengths',
      'of the side on which a point of a body lies',
      falsified((motion) => ({
        at: (t) => {
          const { A, B, T, ...others } = motion.at(t);
          const [dx, dy] = [B[0] - A[0], B[1] - A[1]];
          const aside = (2 * (dx * (T[1] - A[1]) - dy * (T[0] - A[0]))) / (dx * dx + dy * dy);
          return { A, B, T: [T[0] + aside * dy, T[1] - aside * dx], ...others };
        },
      })),
      /^side of T on A-B of body coupler/,
    ],
    ['measuresAgree', 'of a turn', otherSenseWhere(() => true), /^turn of rocker/],
    [
      'derivativesAgree',
      'of a first derivative',
      reading((v, k) => (k === 'first' ? -v : v)),
      /^first derivative/,
    ],
    [
      'derivativesAgree',
      'of a second derivative',
      reading((v, k) => (k === 'second' ? -v : v)),
      /^second derivative/,
    ],
    [
      'virtualWork',
      'of rates of lengths',
      reading((v, k, m) => (k === 'first' && isLength(m) ? -v : v)),
      /^work of a load on length/,
    ],
    ['mirror', 'of a turn, on the other side', otherSenseWhere(isMirrored), /turn of rocker/],
    ['translate', 'of a turn, away from the origin', otherSenseWhere(isMoved), /turn of rocker/],
    ['rotate', 'of a turn, where the ground is not level', otherSenseWhere(isTurned), /turn of rocker/],
    ['scale', 'of a turn, in another unit', otherSenseWhere(isScaled), /turn of rocker/],
    [
      'outAndBack',
      'of all heights where the linkage comes to',
      falsified((motion) => ({ at: (t) => upsideDown(motion.at(t)) })),
      /^distance of/,
    ],
  ];
  it.each(signs)('in one sign violates %s: %s', (law, _, injected, what) => {
    expectViolation(found(law, { trace: injected }), law, what, [1e-3, SIZE * 100]);
  });
});

/** A trace of a drawing with one part of it left out, and the degree of freedom that this adds held. */
const without =
  (leaveOut: (drawing: CheckedDrawing) => CheckedDrawing, held: Measure): TraceFunction =>
  (drawing, asked) =>
    trace(leaveOut(drawing), { ...asked, hold: [held] });

describe('a joint left out of the drawing that is moved violates keepsLengths', () => {
  const slide: CheckedDrawing = {
    points: { O: [0, 0], C: [0, 100], P: [80, 110], T: [160, 220] },
    ground: ['O', 'C'],
    bodies: { crank: ['C', 'P'], arm: ['O', 'T'] },
    sliders: { block: { point: 'P', on: ['O', 'T'] } },
  };
  const table: CheckedDrawing = {
    points: { A: [0, 0], B: [1, 2], C: [3, 2.5], D: [4, 2] },
    ground: ['A'],
    bodies: { crank: ['A', 'B'], plate: ['B', 'C', 'D'] },
    fixedAngles: { level: ['plate'] },
  };
  const ram: CheckedDrawing = {
    points: { O: [0, 0], A: [0, 40], R: [100, 60] },
    ground: ['O'],
    bodies: { crank: ['O', 'A'] },
    fixedCoordinates: [{ x: 'R' }],
    fixedAngles: { square: ['ram', 'crank'] },
    telescopes: { ram: ['A', 'R'] },
  };
  it.each<[what: string, drawing: CheckedDrawing, injected: TraceFunction, what: RegExp]>([
    [
      'a slider',
      slide,
      without(({ sliders: _, ...rest }) => rest, { turn: 'arm' }),
      /^way of P off the line O-T of slider block/,
    ],
    [
      'a fixed direction',
      table,
      without(({ fixedAngles: _, ...rest }) => rest, { length: ['A', 'D'] }),
      /^fixed angle level \(B-D\)/,
    ],
    [
      'an angle to a telescope',
      ram,
      without(({ fixedAngles: _, ...rest }) => rest, { y: 'R' }),
      /^fixed angle square \(A-R to O-A\)/,
    ],
    [
      'a fixed coordinate',
      ram,
      without(({ fixedCoordinates: _, ...rest }) => rest, { length: ['A', 'R'] }),
      /^fixed x of R/,
    ],
  ])('%s', (_, drawing, injected, what) => {
    const turn = { driver: { turn: 'crank' }, range: [-0.2, 0.2] } as const;
    expect(found('keepsLengths', turn, deepFreeze(drawing))).toBeNull();
    expectViolation(found('keepsLengths', { ...turn, trace: injected }, drawing), 'keepsLengths', what, [
      1e-3,
      SIZE,
    ]);
  });

  it('and so is a slider or an angle that is off by a part in 10^8', () => {
    for (const [drawing, point, what] of [
      [slide, 'P', /P/],
      [table, 'D', /D/],
      [ram, 'R', /R/],
    ] as const) {
      const creeping = moving(point, ([x, y], t) => [x + 100 * SMALL * t, y]);
      const given = { driver: { turn: 'crank' }, range: [-0.2, 0.2], trace: creeping } as const;
      expectViolation(found('keepsLengths', given, drawing), 'keepsLengths', what, [0, STILL_SMALL]);
    }
  });
});

describe('a fault injected into the function that draws', () => {
  type Data = CheckedDrawing['points'];
  const { points, ...parts } = fourBar;
  const redraw: NonNullable<LawOptions<Data>['redraw']> = (data, { place }) =>
    Object.fromEntries(Object.entries(data).map(([name, at]) => [name, place(at)]));
  const drawn =
    (B: (data: Data) => Point) =>
    (data: Data): CheckedDrawing => ({ points: { ...data, B: B(data) }, ...parts });
  const check = (law: LawName, build: (data: Data) => CheckedDrawing) =>
    violationOf(() => laws[law](build, points, { ...options, redraw }));
  const small = SIZE * SMALL;

  it.each<[law: LawName, fault: string, B: (data: Data) => Point]>([
    ['mirror', 'a pin always a little to the right', ({ B: [x, y] }) => [x + small, y]],
    ['rotate', 'a pin always a little to the right', ({ B: [x, y] }) => [x + small, y]],
    ['scale', 'a length that is not among the data', ({ B: [x, y] }) => [x + small, y]],
    ['translate', 'a number that should count from a point', ({ B: [x, y] }) => [x * (1 + SMALL), y]],
    ['mirror', 'a sign that is lost', ({ B: [x, y] }) => [Math.abs(x), y]],
  ])('violates %s: %s', (law, _, B) => {
    expect(
      check(
        law,
        drawn((data) => data.B),
      ),
    ).toBeNull();
    const least = small / 1e3;
    expectViolation(check(law, drawn(B)), law, /^drawn length [A-Z]-[A-Z]$/, [least, 10 * SIZE]);
  });

  it('violates translate alone where only the place counts, mirror and rotate where only the direction does', () => {
    const right = drawn(({ B: [x, y] }) => [x + small, y]);
    const violated = (['mirror', 'translate', 'rotate'] as const).map(
      (law) => check(law, right)?.law ?? null,
    );
    expect(violated).toEqual(['mirror', null, 'rotate']);
  });

  it('violates mirror, rotate, translate and scale where a bar is forgotten in the redrawn one', () => {
    const { rocker: _, ...others } = parts.bodies;
    const held: FixedCoordinate[] = [{ x: 'B' }];
    const forgetful = (data: Data): CheckedDrawing =>
      data === points
        ? { points: data, ...parts }
        : { points: data, ...parts, bodies: others, fixedCoordinates: held };
    for (const law of ['mirror', 'translate', 'rotate', 'scale'] as const) {
      expect(check(law, forgetful)?.message).toBe(
        `${law}: transformed drawing lacks body rocker (B, C) and has fixed x of B besides at driver value 0 (turn of crank)`,
      );
    }
  });

  it('violates reproducible where the data are changed, or a drawing comes out otherwise the second time', () => {
    const loose = structuredClone(points) as Record<string, [number, number]>;
    const changing = (data: typeof loose): CheckedDrawing => {
      data.B[0] *= 1 + Number.EPSILON;
      return { points: structuredClone(data), ...parts };
    };
    const broken = violationOf(() =>
      laws.reproducible(changing, loose, { driver: { turn: 'crank' }, range: [-0.6, 0.6] }),
    );
    expectViolation(broken, 'reproducible', /^drawn x of B, built a second time,/, [0, 1e-12]);

    let built = 0;
    const forgetful = (data: Data): CheckedDrawing => {
      const { rocker: _, ...others } = parts.bodies;
      return { points: data, ...parts, bodies: built++ === 0 ? parts.bodies : others };
    };
    expect(check('reproducible', forgetful)?.message).toMatch(
      /^reproducible: drawing, built a second time, lacks body rocker \(B, C\) at driver value 0 \(turn of crank\)$/,
    );
  });
});

describe('reproducible tells what differs the second time', () => {
  /** A reading that is changed from the second time on at which it is asked for. */
  const fromTheSecondOn = (change: (value: number) => number): TraceFunction => {
    const seen = new Set<string>();
    return falsified(({ read }) => ({
      read: (measure) => {
        const of = read(measure);
        return (at) => {
          const key = JSON.stringify([measure, at]);
          const again = seen.has(key);
          seen.add(key);
          const { value, first, second } = of(at);
          return { value: again ? change(value) : value, first, second };
        };
      },
    }));
  };

  it('a last bit', () => {
    const broken = found('reproducible', { trace: fromTheSecondOn((value) => value * (1 + Number.EPSILON)) });
    expectViolation(broken, 'reproducible', /, read on the way back,$/, [0, 1e-12]);
  });

  it('a sign', () => {
    const broken = found('reproducible', { trace: fromTheSecondOn((value) => -value) });
    expectViolation(broken, 'reproducible', /, read on the way back,$/, [0, SIZE * 10]);
  });

  it('a bar left out', () => {
    let traced = 0;
    const injected: TraceFunction = (drawing, asked) => (traced++ === 0 ? trace : loose)(drawing, asked);
    expectViolation(found('reproducible', { trace: injected }), 'reproducible', /, traced a second time,?$/, [
      0,
      SIZE,
    ]);
  });
});

describe('checkLaws', () => {
  it('throws the first law that is broken, in the order of laws', () => {
    const check = (injected: TraceFunction) =>
      violationOf(() => checkLaws(asDrawn, fourBar, { ...options, trace: injected }))?.law;
    expect(check(trace)).toBeUndefined();
    expect(check(longerWhere(() => true))).toBe('measuresAgree');
    expect(check(loose)).toBe('keepsLengths');
    expect(check(longerWhere(isScaled))).toBe('scale');
  });

  it('refuses options that are none, all at once, and then a driver that the drawing has not', () => {
    const refused = (given: unknown) => {
      try {
        checkLaws(asDrawn, fourBar, given as LawOptions<CheckedDrawing>);
      } catch (error) {
        if (error instanceof InputError) return error.message;
        throw error;
      }
      return null;
    };
    expect(refused({ rnage: [0, 1], range: [1, 0], tolerance: 0, trace: 7 })).toBe(
      [
        'invalid options of laws',
        '  rnage: unknown option (allowed: driver, range, tolerance, trace, redraw, skipped); did you mean range?',
        '  range: not a range, got [1,0] (allowed: [from, to] of the driver, the first the smaller)',
        '  tolerance: not a tolerance, got 0 (allowed: a finite number greater than 0, a fraction of the size)',
        '  trace: not a function, got 7 (allowed: a function)',
      ].join('\n'),
    );
    expect(refused('byHand')).toContain('not an object');
    expect(refused({ driver: { turn: 'crnk' } })).toContain(
      'unknown body, got "crnk" (allowed: crank, coupler, rocker)',
    );
    expect(refused({ driver: 'crank' })).toContain('unknown measure');
  });
});

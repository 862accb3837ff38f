/** How designs end, what they say, and what is refused. */
import {
  type Corner,
  type Design,
  type DesignOptions,
  design,
  doubleWishbone,
  InputError,
  limits,
  pushrod,
  type SearchProgress,
  sentence,
  sweep,
  uncertaintyBands,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { onPillar } from '../corner/on-pillar.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';

const corner = doubleWishbone({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});
const options: DesignOptions = deepFreeze({
  mounts: {
    shockMount: { y: [450, 560], z: [160, 200] },
    shockChassisMount: { y: [300, 420], z: [450, 560] },
  },
  objectives: [
    { quantity: 'designRatio', target: 0.9 },
    { quantity: 'strokeFraction', stroke: 60, max: 0.8 },
  ],
  travel: { bump: 40, droop: 40, step: 20 },
  starts: 2,
});

/** What is thrown for options that can't be, as `path: problem`. */
const wordsOf = (made: Design) => made.diagnostics.map((one) => sentence(one));

function faults(change: object, of: Corner = corner): string[] {
  try {
    design(of, { ...options, ...change });
  } catch (error) {
    if (error instanceof InputError) return error.issues.map(({ path, problem }) => `${path}: ${problem}`);
    throw error;
  }
  return [];
}

describe('a design', () => {
  it('keeps distances between rows too, where parts pass close by each other', () => {
    const passing = doubleWishbone({
      lowerArm: { inner: [255, 165], outer: [640, 150] },
      upperArm: { inner: [310, 355], outer: [600, 375] },
      wheel: { centre: [705, 312], camber: -0.5 },
      coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [620, 350] },
    });
    const KEPT = 12;
    const made = design(passing, {
      mounts: { shockChassisMount: { y: [600, 640] } },
      objectives: [{ quantity: 'inclination', min: -28 }],
      clearances: { mountToArm: { upperArm: KEPT } },
      travel: { bump: 60, droop: 60, step: 20 },
      starts: 1,
    });
    expect(made.status).toBe('targetUnreachable');
    /** From the eye to the outer joint of the upper arm, which passes it. */
    const nearest = (step: number) => {
      const columns = ['upperOuterY', 'upperOuterZ'];
      const [y, z] = made.mounts.shockChassisMount.to;
      const rows = sweep(made.corner, { bump: 60, droop: 60, step, columns }).rows();
      return Math.min(
        ...rows.map((row) => Math.hypot((row.upperOuterY ?? 0) - y, (row.upperOuterZ ?? 0) - z)),
      );
    };
    expectWithin(nearest(0.01), KEPT, 0.01);
    expect(nearest(20)).toBeGreaterThan(KEPT + 1);
    const used = made.active.find(({ code }) => code === 'clearanceUsedUp');
    expect(Number(used?.values.travel) % 20).not.toBe(0);
  });

  it('moves the eye of a corner on a pillar until its lower bush carries so much', () => {
    const made = design(onPillar, {
      mounts: { eye: { y: [560, 640] } },
      objectives: [{ quantity: 'jointForce', joint: 'low', tyre: [0, 3000], target: 2900, tolerance: 1e-3 }],
      travel: { bump: 40, droop: 40, step: 20 },
      starts: 1,
    });
    expect(made.status).toBe('targetsMet');
    // The coilover carries 3000 N straight up from the eye at y to [500, 610], 330 mm higher: outboard it pushes 3000 (y - 500) / 330.
    // The upper bush, 120 mm higher, carries the moment about the lower one, the lower one the rest:
    const lower = (y: number) => {
      const across = (3000 * (y - 500)) / 330;
      return across + (3000 * 50 + 3000 * (640 - y) - 20 * across) / 120;
    };
    expectWithin(lower(made.mounts.eye.to[0]), 2900, 1e-2);
  });

  it('finds a spring rate for springs at hand, in a box, under a frequency', () => {
    const made = design(corner, {
      ...options,
      objectives: [{ quantity: 'springRate', sprungMass: 180, frequency: 1.4, target: 35 }],
    });
    expect(made.status).toBe('targetsMet');
    const ride = sweep(made.corner).at(0);
    const R = ride.installationRatio ?? Number.NaN;
    const slope = ride.installationRatioSlope ?? Number.NaN;
    const wheelRate = (180 * (2 * Math.PI * 1.4) ** 2) / 1000;
    expectWithin((wheelRate - ((180 * 9.80665) / R) * slope) / R ** 2, 35, 1e-8);
    expect(made.tradeOff).toEqual([]);
    // A corner like any other.
    expect(limits(made.corner, { damper: { extendedLength: 450, compressedLength: 250 } }).misfits).toEqual(
      [],
    );
  });

  it('moves a rocker', () => {
    const rocked = pushrod({
      lowerArm: { inner: [250, 160], outer: [630, 150] },
      upperArm: { inner: [300, 340], outer: [590, 360] },
      wheel: { centre: [700, 315], contactPatch: [702, 0] },
      rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
      rocker: { pivot: [260, 400] },
      coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
    });
    const made = design(rocked, {
      mounts: { rodRockerMount: { y: [300, 380] }, shockRockerMount: { y: [200, 270], z: [450, 520] } },
      objectives: [
        { quantity: 'designRatio', target: 0.8 },
        { quantity: 'ratioChange', target: 0.02 },
      ],
      travel: { bump: 40, droop: 40, step: 20 },
    });
    expect(made.status).toBe('targetsMet');
    const { installationRatio } = sweep(made.corner, { bump: 40, droop: 40, step: 20 }).columns;
    expectWithin(installationRatio[2], 0.8, 1e-8);
    expectWithin(installationRatio[4] - installationRatio[0], 0.02, 1e-8);
  });

  it('is that of the mirrored corner, in its own coordinates', () => {
    const right = doubleWishbone({
      lowerArm: { inner: [-255, 165], outer: [-640, 150] },
      upperArm: { inner: [-310, 355], outer: [-600, 375] },
      wheel: { centre: [-705, 312], camber: -0.5 },
      coilover: { on: 'lowerArm', mount: [-505, 170], chassisMount: [-345, 480] },
    });
    const wanted = { ...options, objectives: options.objectives.slice(0, 1) };
    const [one, other] = [design(corner, wanted), design(right, wanted)];
    expect(other.mounts).toEqual(one.mounts);
    expect(other.corner).toEqual({ ...one.corner, mirrored: true });
  });

  it('says what is out of reach, what came nearest, and what holds it', () => {
    const made = design(corner, options);
    expect(made.status).toBe('targetUnreachable');
    const [ratio, stroke] = made.objectives;
    expect(ratio.met).toBe(false);
    // Each could come nearer alone.
    expect(ratio.nearest as number).toBeGreaterThan(ratio.achieved);
    expect(stroke.achieved - 0.8).toBe(stroke.deviation);
    expect(stroke.nearest as number).toBeLessThan(stroke.achieved);
    expect(made.active.length).toBeGreaterThan(0);
    const words = wordsOf(made);
    expect(words[0]).toBe('Not all goals can be met together: 2 of 2 are missed.');
    expect(words[1]).toMatch(
      /^Installation ratio at design ride height: goal 0\.9, 0\.5649 as drawn, 0\.\d+ now: 0\.\d+ too little; the nearest/,
    );
    expect(words[2]).toMatch(/now: 0\.\d+ too much; the nearest of all corners tried .* is 0\.\d+\.$/);
    expect(words.at(-1)).toContain('no proof');
    // What one costs the other: each of the trade-off gives something for something.
    expect(made.tradeOff.length).toBeGreaterThan(2);
    const sorted = [...made.tradeOff].sort((a, b) => Math.abs(a.deviations[0]) - Math.abs(b.deviations[0]));
    sorted.slice(1).forEach(({ deviations }, i) => {
      expect(Math.abs(deviations[1])).toBeLessThan(Math.abs(sorted[i].deviations[1]));
    });
    expect(made.searches.map(({ from }) => from)).toEqual(['drawn', 'random', ...new Array(4).fill('best')]);
  });

  it('returns the smallest shortfall where clearances can not be kept', () => {
    const made = design(corner, { ...options, clearances: { mountToArm: { upperArm: 400 } } });
    expect(made.status).toBe('clearanceUnreachable');
    expect(wordsOf(made).join(' ')).toMatch(
      /is \d+\.\d mm short of its clearance of 400\.0 mm at a travel of/,
    );
    expect(made.tradeOff).toEqual([]);
    expect(made.objectives.map(({ nearest }) => nearest)).toEqual([null, null]);
  });

  it('tells of trials that can not be judged, and goes on', () => {
    const made = design(corner, {
      ...options,
      mounts: { lowerInner: { y: [100, 630], z: [100, 500] } },
      objectives: [{ quantity: 'designRatio', target: 3 }],
      starts: 8,
    });
    expect(wordsOf(made).join(' ')).toMatch(/corners tried could not be judged: the linkage/);
    expect(['targetsMet', 'targetUnreachable']).toContain(made.status);
  });
});

describe('a design that is cancelled', () => {
  it('between searches keeps what it has', () => {
    const signal = { aborted: false };
    const seen: SearchProgress[] = [];
    const made = design(corner, {
      ...options,
      signal,
      progress(one) {
        seen.push(one);
        if (one.search === 1) signal.aborted = true;
      },
    });
    expect(made.status).toBe('cancelled');
    // The first search was done, and is what it is alone.
    const alone = design(corner, { ...options, starts: 1 });
    expect(made.searches[0]).toEqual(alone.searches[0]);
    expect(made.corner).toEqual(alone.corner);
    expect(seen[0]).toMatchObject({ search: 0, searches: 6, trials: 1 });
    expect(seen.at(-1)?.cost).toBeLessThan(seen[0].cost);
    expect(wordsOf(made)[0]).toBe(`Cancelled: this is the best of the ${made.trials} corners tried so far.`);
  });

  it('from inside a search keeps the best so far, better the later it is', () => {
    let before = Number.POSITIVE_INFINITY;
    for (const allowed of [1, 4, 8, 12]) {
      let left = allowed;
      const signal = {
        get aborted() {
          return left-- <= 0;
        },
      };
      const made = design(corner, { ...options, signal });
      expect(made.status).toBe('cancelled');
      expect(made.trials).toBeLessThanOrEqual(allowed + 1);
      const sum = made.objectives.reduce((all, { deviation }) => all + (deviation / 0.001) ** 2, 0);
      expect(sum).toBeLessThanOrEqual(before);
      before = sum;
    }
    const drawn = design(corner, { ...options, signal: AbortSignal.abort() });
    expect(drawn).toMatchObject({
      status: 'cancelled',
      trials: 1,
      corner,
      searches: [{ status: 'cancelled' }],
    });
    expect(before).toBeLessThan(
      drawn.objectives.reduce((all, { deviation }) => all + (deviation / 0.001) ** 2, 0),
    );
  });
});

describe('what is refused', () => {
  it('is told all at once, each with its place', () => {
    expect(
      faults({
        mounts: {
          shockMount: { y: [520, 560], z: [1, 'x'] },
          shokMount: { y: [1, 2] },
          shockChassisMount: {},
          wheelCentre: { y: [1, 2] },
        },
        objectives: [
          { quantity: 'ratio', target: 1 },
          { quantity: 'inclination' },
          { quantity: 'inclination', target: 1, max: 2 },
          { quantity: 'strokeFraction', min: 2, max: 1, tolerance: 0, weight: -1 },
          { quantity: 'springRate', target: Number.NaN, sprungMass: 0 },
          { quantity: 'jointForce', joint: 'knee', tyre: 1, station: 'top', unsprungMass: -1, max: 1 },
        ],
        clearances: {
          mountToArm: { upperAm: 1, lowerArm: -1 },
          springToTyre: 10,
        },
        travel: { bump: -1, step: 0 },
        starts: 0,
        seed: 0.5,
        signal: 1,
        progress: 1,
        start: 1,
      }),
    ).toEqual([
      'start: unknown option',
      'mounts.shokMount: unknown field',
      'mounts.wheelCentre: unknown field',
      'mounts.shockMount.y: a box without the corner as drawn in it',
      'mounts.shockMount.z: not a range',
      'mounts.shockChassisMount: nothing that may be moved',
      'objectives[0].quantity: unknown objective',
      'objectives[1]: no goal',
      'objectives[2]: both a target and bounds',
      'objectives[3]: min is more than max',
      'objectives[3].tolerance: out of range',
      'objectives[3].weight: out of range',
      'objectives[3].stroke: missing',
      'objectives[4].target: not a finite number',
      'objectives[4].sprungMass: out of range',
      'objectives[4].frequency: missing',
      'objectives[5].joint: unknown joint',
      'objectives[5].tyre: not a force',
      'objectives[5].station: unknown choice',
      'objectives[5].unsprungMass: out of range',
      'clearances.mountToArm.upperAm: unknown field',
      'clearances.mountToArm.lowerArm: out of range',
      'clearances.spring: missing',
      'clearances.tyre: missing',
      'travel.bump: not a distance',
      'travel.step: not a step',
      'starts: not a whole number',
      'seed: not a seed',
      'signal: not a signal',
      'progress: not a function',
    ]);
  });

  it('is what is none of it', () => {
    expect(faults({ mounts: {} })).toEqual(['mounts: nothing that may be moved']);
    expect(faults({ mounts: 3 })).toEqual(['mounts: not an object']);
    expect(faults({ mounts: { shockMount: 3 } })).toEqual(['mounts.shockMount: not an object']);
    expect(faults({ objectives: [] })).toEqual(['objectives: not a list of objectives']);
    expect(faults({ objectives: [7] })).toEqual(['objectives[0]: not an objective']);
    expect(faults({ clearances: { tyre: 'wide' } })).toEqual(['clearances.tyre: not a size marking']);
    expect(faults({ clearances: { tyre: { overallRadius: 1 } } })).toEqual(['clearances.tyre: not a tyre']);
    expect(faults({ clearances: { spring: { diameter: 0, seatOffset: -1 }, springToArm: {} } })).toEqual([
      'clearances.spring.diameter: out of range',
      'clearances.spring.seatOffset: out of range',
    ]);
    expect(faults({ travel: 3 })).toEqual(['travel: not an object']);
    expect(() => design(corner, null as never)).toThrow(InputError);
    expect(() => design({} as Corner, options)).toThrow(/not a corner/);
  });

  it('knows the bushes of a pillar among its joints', () => {
    const objectives = [{ quantity: 'jointForce', joint: 'foot', tyre: [0, 1], max: 1 }];
    expect(faults({ objectives, mounts: { eye: { y: [560, 640] } } }, onPillar)).toEqual([
      'objectives[0].joint: unknown joint',
    ]);
  });

  it('is told whatever stands anywhere', () => {
    const good: Record<string, unknown> = {
      ...options,
      objectives: [{ quantity: 'jointForce', joint: 'lowerOuter', tyre: [0, 1], max: 1 }],
      clearances: {
        mountToArm: { upperArm: 1 },
        spring: { diameter: 1, seatOffset: 1 },
        springToTyre: 1,
        tyre: '205/55R16',
      },
      seed: 1,
    };
    const odd = [null, 'x', Number.NaN, -1, [], [null], {}, { a: null }, true];
    /** The options with each part of them replaced in turn. */
    function* spoilt(value: unknown): Generator<unknown> {
      yield* odd;
      if (typeof value !== 'object' || value === null) return;
      for (const [name, inner] of Object.entries(value)) {
        for (const bad of spoilt(inner)) {
          yield Array.isArray(value)
            ? value.map((one, k) => (String(k) === name ? bad : one))
            : { ...value, [name]: bad };
        }
      }
    }
    let refused = 0;
    for (const bad of spoilt(good)) {
      try {
        design(corner, { signal: AbortSignal.abort(), ...(bad as DesignOptions) });
      } catch (error) {
        if (!(error instanceof InputError)) throw new Error(JSON.stringify(bad), { cause: error });
        refused++;
      }
    }
    expect(refused).toBeGreaterThan(200);
  });

  it('is a box for the other side, with advice', () => {
    const right = doubleWishbone({
      lowerArm: { inner: [-255, 165], outer: [-640, 150] },
      upperArm: { inner: [-310, 355], outer: [-600, 375] },
      wheel: { centre: [-705, 312], camber: -0.5 },
      coilover: { on: 'lowerArm', mount: [-505, 170], chassisMount: [-345, 480] },
    });
    expect(() => design(right, { ...options, mounts: { shockMount: { y: [-560, -450] } } })).toThrow(
      /y counts outboard/,
    );
  });

  it('is a travel that the corner does not reach, and a coilover that carries nothing', () => {
    expect(faults({ travel: { bump: 1000 } })).toEqual([
      expect.stringMatching(/^: the linkage does not reach the required bump: it ends at \d/),
    ]);
    const turned = doubleWishbone({
      lowerArm: { inner: [255, 165], outer: [640, 150] },
      upperArm: { inner: [310, 355], outer: [600, 375] },
      wheel: { centre: [705, 312], camber: -0.5 },
      coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 20] },
    });
    const springs = [{ quantity: 'springRate', sprungMass: 180, frequency: 1.4, target: 35 }];
    expect(faults({ mounts: { shockMount: { y: [450, 560] } }, objectives: springs }, turned)).toEqual([
      ': bump does not shorten the coilover at ride height: the coilover carries nothing',
    ]);
  });
});

it('a corner keeps how sure it is through a design, also where its errors hang together', () => {
  const plusMinus = {
    coordinates: ['lowerInnerY', 'lowerInnerZ'],
    matrix: [
      [0.04, 0.01],
      [0.01, 0.09],
    ],
  };
  const { corner: made } = design({ ...corner, plusMinus } as Corner, {
    mounts: { shockMount: { y: [450, 560] } },
    objectives: [{ quantity: 'designRatio', target: 0.6 }],
  });
  expect((made as typeof corner).plusMinus).toEqual(plusMinus);
  expect(uncertaintyBands(made).columns.shockLength.some((width) => (width ?? 0) > 0)).toBe(true);
});

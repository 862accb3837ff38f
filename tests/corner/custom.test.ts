/** Corners of any linkage: the built-in ones drawn again are the same to the bit; what is no corner is told at once. */
import * as fc from 'fast-check';
import {
  type Corner,
  type CustomCornerInput,
  customCorner,
  InputError,
  type LimitOptions,
  limits,
  sweep,
} from 'jounce';
import type { Drawing } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { modelOf, strutOf } from '../../src/corner/corner.ts';
import { holdersOf } from '../../src/corner/limits/joints.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { forEachKind, strutKind } from './kinds.ts';
import { expectSameRow } from './rows.ts';

const DEGREES = 180 / Math.PI;

/** A corner of another kind as the input of a custom one. */
function redrawn(corner: Corner): CustomCornerInput {
  const { drawing, upright, wheelCentre, contactPatch, shock, kingpin, rocker, camber, angles } =
    modelOf(corner);
  return deepFreeze(
    structuredClone({
      drawing,
      upright,
      wheelCentre,
      contactPatch,
      shock,
      ...(kingpin && { kingpin }),
      ...(rocker && { rocker }),
      camber,
      angles: angles as NonNullable<CustomCornerInput['angles']>,
    }),
  );
}

/** What can end the travel of a corner of any kind. */
const options: LimitOptions = {
  damper: { extendedLength: 400, compressedLength: 150 },
  bumpStop: { height: 40, solidHeight: 12 },
  tyre: { overallRadius: 350, width: 200 },
  arch: [[700, 720]],
  chassisLowPoints: [[0, 110]],
  bearings: { mount: { boltAxis: 'inPlane', maxMisalignment: 9 } },
};
/** With a ball joint at its first point that may be one. */
const optionsFor = (corner: Corner): LimitOptions => {
  const [[joint, [housing]]] = Object.entries(holdersOf(modelOf(corner)));
  return { ...options, ballJoints: { [joint]: { maxArticulation: 14, housing } } };
};

/** Limits of a corner but for the tyre's shoulder, which is spoken of where nothing says where the contact patch is. */
const limitsOf = (corner: Corner, like: Corner) => {
  const found = limits(corner, optionsFor(like));
  return { ...found, notes: found.notes.filter(({ code }) => code !== 'shoulderBelowTread') };
};

forEachKind((kind) => {
  describe(`a ${kind.name} drawn again`, () => {
    it('has the same columns, to the bit, and the same limits', () => {
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const corner = kind.corner(input);
          const again = customCorner(redrawn(corner));
          const [one, other] = [corner, again].map((each) => sweep(each, { bump: 60, droop: 60 }));
          expect(other.info).toEqual(one.info);
          expect(other.columns).toEqual(one.columns);
          expect(other.end).toEqual(one.end);
          expect(other.at(12.5)).toEqual(one.at(12.5));
          expect(limitsOf(again, corner)).toEqual(limitsOf(corner, corner));
        }),
        { numRuns: 12 },
      );
    });

    it('survives structuredClone and JSON, is frozen, and mirrored from the right-hand side', () => {
      const corner = customCorner(redrawn(kind.corner(fc.sample(kind.inputs, 1)[0])));
      for (const copy of [structuredClone(corner), JSON.parse(JSON.stringify(corner))]) {
        expect(copy).toEqual(corner);
        expect(sweep(copy).columns).toEqual(sweep(corner).columns);
      }
      expect(Object.isFrozen(corner.drawing.points.lowerOuter)).toBe(true);
      const given = redrawn(corner);
      const flipped = Object.entries(given.drawing.points).map(([name, [y, z]]) => [name, [-y, z]] as const);
      const right = customCorner({
        ...given,
        drawing: { ...given.drawing, points: Object.fromEntries(flipped) },
      });
      expect(right).toEqual({ ...corner, mirrored: true });
    });
  });
});

it('mirrors ratios and ropes of a right-hand corner', () => {
  const place = ([y, z]: readonly [number, number], way: number) => [way * y, z] as const;
  const corner = (way: 1 | -1) =>
    customCorner({
      drawing: {
        points: {
          pivot: place([120, 250], way),
          hub: place([690, 300], way),
          patch: place([690, 0], way),
          eye: place([520, 280], way),
          top: place([480, 640], way),
          gear: place([200, 500], way),
          tooth: place([240, 520], way),
          rack: place([300, 450], way),
          reel: place([350, 700], way),
          end: place([60, 600], way),
        },
        ground: ['pivot', 'top', 'gear', 'reel'],
        bodies: { axle: ['pivot', 'hub', 'patch', 'eye'], wheel: ['gear', 'tooth'] },
        fixedCoordinates: [{ y: 'rack' }, { x: 'end' }],
        ratios: {
          mesh: { of: [{ turn: 'wheel' }, { turn: 'axle' }], ratio: -2 },
          rack: { of: [{ x: 'rack' }, { turn: 'wheel' }], ratio: 30 },
          lift: { of: [{ length: ['pivot', 'rack'] }, { turn: 'wheel' }], ratio: 30 * way },
        },
        ropes: { stay: ['eye', { about: 'reel', radius: 25, side: way > 0 ? 'left' : 'right' }, 'end'] },
      },
      upright: 'axle',
      wheelCentre: 'hub',
      contactPatch: 'patch',
      shock: { outer: 'eye', inner: 'top' },
    });
  const [left, right] = [corner(1), corner(-1)];
  expect(right).toEqual({ ...left, mirrored: true });
  // x and turn change their sign together, a length does not.
  expect(right.drawing.ratios?.rack.ratio).toBe(30);
});

/** A corner that none of the built-in kinds is: wheel and axle in one piece, on one pivot. */
const swingAxle: CustomCornerInput = deepFreeze({
  drawing: {
    points: { pivot: [120, 250], hub: [690, 300], patch: [690, 0], eye: [520, 280], top: [480, 640] },
    ground: ['pivot', 'top'],
    bodies: { axle: ['pivot', 'hub', 'patch', 'eye'] },
  },
  upright: 'axle',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});

describe('a swing axle', () => {
  it('turns about its pivot, which is its instant centre', () => {
    const row = sweep(customCorner(swingAxle)).at(30);
    expectWithin(row.instantCentreY, 120, 1e-9);
    expectWithin(row.instantCentreZ, 250, 1e-9);
  });

  it('has no kingpin, no arms, no rocker; and the camber of a thin disc', () => {
    const corner = customCorner(swingAxle);
    expect(corner).toMatchObject({ kind: 'custom', camber: 0, kingpin: null, rocker: null, mirrored: false });
    const names = sweep(corner).info.map(({ name }) => name);
    expect(names).not.toContain('kingpinInclination');
    expect(names.filter((name) => name.endsWith('Angle'))).toEqual([]);
    expect(names.slice(-6)).toEqual(['hubY', 'hubZ', 'patchY', 'patchZ', 'eyeY', 'eyeZ']);
  });

  it('has no strut', () => {
    expect(strutOf(customCorner(swingAxle))).toBeNull();
  });

  it('has angles of its own, in degrees', () => {
    const angles = { axleAngle: { angle: ['pivot', 'hub'] }, axleTurn: { turn: 'axle' } } as const;
    const row = sweep(customCorner({ ...swingAxle, angles })).at(0);
    expectWithin(row.axleAngle, (Math.atan2(50, 570) * 180) / Math.PI, 1e-12);
    expect(row.axleTurn).toBe(0);
  });
});

/**
 * An upright that slides on a straight pillar of the chassis and does not turn. With u the pillar's direction (upward), d
 * from the coilover's lower end to its fixed one and z the travel, every point of the upright goes by u z/u_z:
 *
 *     L(z) = |d - u z/u_z|,   R = -dL/dz = u·(d - u z/u_z) / (L u_z),   dR/dz = (R² - 1/u_z²) / L
 *
 * and the roll centre is as high as y_cp u_y/u_z.
 */
const pillars = fc
  .record({
    lean: fc.integer({ min: -25, max: 25 }),
    eye: fc.tuple(fc.integer({ min: 520, max: 640 }), fc.integer({ min: 180, max: 320 })),
    top: fc.tuple(fc.integer({ min: 300, max: 620 }), fc.integer({ min: 560, max: 800 })),
    by: fc.constantFrom<('telescope' | 'sliders')[]>('telescope', 'sliders'),
  })
  .map(({ lean, eye, top, by }) => {
    const u: Point = [-Math.sin(lean / DEGREES), Math.cos(lean / DEGREES)];
    const foot: Point = [640, 200];
    const up = (mm: number): Point => [foot[0] + mm * u[0], foot[1] + mm * u[1]];
    const input: CustomCornerInput = deepFreeze({
      drawing: {
        points: {
          foot,
          head: up(260),
          low: up(60),
          high: up(180),
          hub: [690, 300],
          patch: [692, 0],
          eye,
          top,
        },
        ground: ['foot', 'head', 'top'],
        bodies: { upright: ['low', 'high', 'hub', 'patch', 'eye'] },
        ...(by === 'sliders'
          ? {
              sliders: {
                lower: { point: 'low', on: ['foot', 'head'] },
                upper: { point: 'high', on: ['foot', 'head'] },
              },
            }
          : {
              telescopes: { leg: ['foot', 'low'] },
              fixedAngles: { pillar: ['leg'], bush: ['upright', 'leg'] },
            }),
      },
      upright: 'upright',
      wheelCentre: 'hub',
      contactPatch: 'patch',
      shock: { outer: 'eye', inner: 'top' },
      kingpin: { lower: 'low', upper: 'high' },
    });
    return { u, input, d: [top[0] - eye[0], top[1] - eye[1]] as Point, lean };
  });

describe('a corner on three parallel arms, one of them longer', () => {
  it('locks at once, and says what locks it', () => {
    const corner = customCorner({
      drawing: {
        points: {
          A: [100, 150],
          B: [500, 150],
          C: [100, 350],
          D: [500, 350],
          E: [60, 250],
          F: [500, 250],
          hub: [600, 250],
          patch: [600, 0],
          top: [300, 600],
        },
        ground: ['A', 'C', 'E', 'top'],
        bodies: {
          lower: ['A', 'B'],
          upper: ['C', 'D'],
          middle: ['E', 'F'],
          upright: ['B', 'D', 'F', 'hub', 'patch'],
        },
      },
      upright: 'upright',
      wheelCentre: 'hub',
      contactPatch: 'patch',
      shock: { outer: 'B', inner: 'top' },
    });
    for (const end of Object.values(sweep(corner, { bump: 40, droop: 40 }).end)) {
      expect(end).toMatchObject({
        status: 'locked',
        constraint: expect.stringMatching(/^body (lower|upper|middle|upright at F)$/),
      });
      expect(Math.abs(end.travel)).toBeLessThan(5);
    }
    // Where nothing locks, nothing is named.
    for (const end of Object.values(sweep(customCorner(swingAxle), { bump: 40, droop: 40 }).end)) {
      expect(Object.keys(end)).toEqual(['travel', 'status']);
    }
  });
});

describe('a corner with joints of its own', () => {
  it('slides on a pillar, by telescope or by sliders, as that says', () => {
    fc.assert(
      fc.property(pillars, ({ u, input, d, lean }) => {
        const roundings = { times: 64, scale: 1000 };
        const rates = { times: 64, scale: 1 };
        const swept = sweep(customCorner(input), { bump: 80, droop: 80, step: 16 });
        expect(swept.end).toMatchObject({ bump: { status: 'reached' }, droop: { status: 'reached' } });
        const { hub } = input.drawing.points;
        for (const row of swept.rows()) {
          const [out, rise] = [(row.travel * u[0]) / u[1], row.travel];
          const now: Point = [d[0] - out, d[1] - rise];
          const length = Math.hypot(...now);
          const ratio = (u[0] * now[0] + u[1] * now[1]) / length / u[1];
          expectClose(row.hubY, hub[0] + out, roundings);
          expectClose(row.hubZ, hub[1] + rise, roundings);
          expectClose(row.shockLength, length, roundings);
          expectClose(row.installationRatio, ratio, rates);
          expectClose(row.installationRatioSlope, (ratio ** 2 - 1 / u[1] ** 2) / length, rates);
          expectClose(row.camber, swept.at(0).camber, { times: 64, scale: 90 });
          expectClose(row.kingpinInclination, lean, { times: 64, scale: 90 });
          expectClose(row.halfTrackChange, out, roundings);
          expectClose(row.rollCentreHeight, ((692 + out) * u[0]) / u[1], roundings);
          expect(row.instantCentreY).toBeNull();
        }
      }),
      { numRuns: 40 },
    );
  });

  it('goes on without end on its pillar: only the coilover tells where the travel ends', () => {
    fc.assert(
      fc.property(pillars, ({ u, input, d }) => {
        const corner = customCorner(input);
        // The ratio is zero where d - u z/u_z is square to u: z = u_z u.d; nothing ends the other way.
        const still = u[1] * (u[0] * d[0] + u[1] * d[1]);
        const { bump, droop } = limits(corner);
        expect(droop).toBeNull();
        expect(bump?.cause).toBe('ratioZero');
        expectClose(bump?.travel ?? null, still, { times: 4096, scale: 1000 });
        // A damper that opens at L: the root of |d - u z/u_z| = L below ride.
        const open = Math.hypot(...d) + 40;
        const across = u[0] * d[1] - u[1] * d[0];
        const found = limits(corner, { damper: { extendedLength: open, compressedLength: open - 100 } });
        expect(found.droop?.cause).toBe('damperExtended');
        expectClose(found.droop?.travel ?? null, still - u[1] * Math.sqrt(open ** 2 - across ** 2), {
          times: 4096,
          scale: 1000,
        });
      }),
      { numRuns: 20 },
    );
  });

  it('is a strut when a telescope from the top keeps its angle to the upright', () => {
    fc.assert(
      fc.property(strutKind.inputs, (input) => {
        const corner = strutKind.corner(input);
        const { drawing, ...roles } = redrawn(corner);
        const twin = customCorner({
          ...roles,
          drawing: {
            ...drawing,
            telescopes: { leg: ['strutTop', 'strutLower'] },
            fixedAngles: { strut: ['upright', 'leg'] },
          },
        });
        const [one, other] = [corner, twin].map((each) => sweep(each, { bump: 40, droop: 40, step: 40 }));
        one.rows().forEach((row, i) => {
          expectSameRow(other.rows()[i], row, one.info, strutKind, input);
        });
      }),
      { numRuns: 20 },
    );
  });
});

/**
 * Equal level arms a = 400 mm long: with θ their turn the upright goes by a (cos θ - 1, sin θ) and does not turn, and the
 * travel is a sin θ. A bolt in the plane tilts its bearing by the swing of the coilover less the turn of its part.
 */
describe('the bearing at an eye on a joint of two parts', () => {
  const bodies = {
    upright: ['lowerOuter', 'upperOuter', 'hub', 'patch', 'lug'],
    lowerArm: ['lowerInner', 'lowerOuter'],
    upperArm: ['upperInner', 'upperOuter'],
  };
  const points: Record<string, Point> = {
    lowerInner: [250, 150],
    lowerOuter: [650, 150],
    upperInner: [240, 370],
    upperOuter: [640, 370],
    hub: [720, 300],
    patch: [720, 0],
    lug: [640, 250],
    top: [650, 550],
  };
  const turned: readonly (readonly string[])[] = [
    ['upright', 'lowerArm', 'upperArm'],
    ['upperArm', 'lowerArm', 'upright'],
    ['lowerArm', 'upright', 'upperArm'],
  ];
  const MOST = 15;
  const tiltsAt = (end: 'mount' | 'chassis', outer: string, inner: string, order: readonly string[]) => {
    const ground = ['lowerInner', 'upperInner', ...(inner === 'top' ? ['top'] : [])];
    const { top, ...linked } = points;
    const corner = customCorner({
      drawing: {
        points: inner === 'top' ? points : linked,
        ground,
        bodies: Object.fromEntries(order.map((name) => [name, bodies[name as keyof typeof bodies]])),
      },
      upright: 'upright',
      wheelCentre: 'hub',
      contactPatch: 'patch',
      shock: { outer, inner },
    });
    const found = limits(corner, { bearings: { [end]: { boltAxis: 'inPlane', maxMisalignment: MOST } } });
    return [found.bump, found.droop, ...found.later].flatMap((limit) =>
      limit?.cause === 'bearingMisalignment' ? [limit.travel] : [],
    );
  };
  /** Turn of the arms and swing of the coilover at a travel, degrees. */
  const swungAt = (travel: number, outer: string, inner: string) => {
    const turn = Math.asin(travel / 400);
    const [y, z] = [points[outer][0] - points[inner][0], points[outer][1] - points[inner][1]];
    const swing = Math.atan2(z + travel, y + 400 * Math.cos(turn) - 400) - Math.atan2(z, y);
    return { turn: turn * DEGREES, swing: swing * DEGREES };
  };

  it.each(turned)(
    'turns with the arm that is pinned to the chassis, drawn in the order %s, %s, %s',
    (...order) => {
      const tilts = tiltsAt('mount', 'lowerOuter', 'top', order);
      expect(tilts.map(Math.sign).sort()).toEqual([-1, 1]);
      for (const travel of tilts) {
        const { turn, swing } = swungAt(travel, 'lowerOuter', 'top');
        expectWithin(Math.abs(swing - turn), MOST, 1e-8);
      }
    },
  );

  it.each(turned)('stands still on the pivot of an arm, drawn in the order %s, %s, %s', (...order) => {
    const tilts = tiltsAt('chassis', 'lug', 'upperInner', order);
    expect(tilts.map(Math.sign).sort()).toEqual([-1, 1]);
    for (const travel of tilts) {
      expectWithin(Math.abs(swungAt(travel, 'lug', 'upperInner').swing), MOST, 1e-8);
    }
  });
});

describe('what is no corner', () => {
  const messageOf = (change: Record<string, unknown>) => {
    try {
      customCorner({ ...swingAxle, ...change } as CustomCornerInput);
    } catch (error) {
      if (error instanceof InputError) return error.message;
      throw error;
    }
    throw new Error('nothing was thrown');
  };

  /** The drawing of the swing axle with one more point, on the ground. */
  const withPoint = (name: string, at: Point) => {
    const { points, ground, bodies } = swingAxle.drawing;
    return { points: { ...points, [name]: at }, ground: [...ground, name], bodies };
  };

  /** Its coilover on a rocker above, worked by a rod from its eye. */
  const rockerAxle: CustomCornerInput = deepFreeze({
    ...swingAxle,
    drawing: {
      points: {
        pivot: [120, 250],
        hub: [690, 300],
        patch: [690, 0],
        eye: [520, 280],
        arm: [380, 600],
        rest: [300, 520],
        top: [220, 600],
      },
      ground: ['pivot', 'rest'],
      bodies: { axle: ['pivot', 'hub', 'patch', 'eye'], rod: ['eye', 'arm'], rocker: ['rest', 'arm', 'top'] },
    },
    shock: { outer: 'top', inner: 'pivot' },
  });

  const rockerParts = { body: 'rocker', pivot: 'rest', rod: { outer: 'eye', inner: 'arm' } };

  it('is told at once, each part by its place', () => {
    expect(
      messageOf({
        upright: 'axel',
        wheelCentre: 'top',
        shock: { outer: 'eye', inner: 'eye' },
        kingpn: {},
        rocker: { body: 'axle', pivot: 'hub', rod: { outer: 'eye', inner: 'top' } },
        angles: { camber: { turn: 'axle' }, lean: { angle: ['pivot', 'hubb'] }, odd: 3 },
      }),
    ).toBe(
      [
        'invalid custom corner',
        '  upright: unknown body, got "axel" (allowed: axle); did you mean axle?',
        '  shock: one point for two, got eye, eye; name the two end eyes of the coilover',
        '  kingpn: unknown field (allowed: drawing, upright, wheelCentre, contactPatch, shock, kingpin, rocker, camber, angles); did you mean kingpin?',
        '  rocker.pivot: point not on the ground, got "hub" (allowed: pivot, top)',
        '  rocker.rod.inner: point not on the rocker, got "top" (allowed: pivot, hub, patch, eye)',
        '  angles.camber: its column would have the name of another, camber; give it another name',
        '  angles.lean.angle[1]: unknown point, got "hubb" (allowed: pivot, hub, patch, eye, top); correct the name or add the point to the drawing',
        `  angles.odd: wrong kind of value, got 3 (allowed: { angle: ['A', 'B'] } or { turn: 'body' })`,
      ].join('\n'),
    );
  });

  it('may be the drawing', () => {
    const { points } = swingAxle.drawing;
    expect(
      messageOf({
        drawing: { ...swingAxle.drawing, points: { ...points, hub: [690, Number.NaN], far: [1, 2] } },
      }),
    ).toBe(
      [
        'invalid custom corner',
        '  drawing.points.hub: not a point, got [690,NaN] (allowed: two finite numbers [x, y])',
        '  drawing.points.far: point on no body and not ground; add it to a body or to ground, or take it out',
      ].join('\n'),
    );
    expect(messageOf({ drawing: undefined })).toContain('drawing: not a drawing, got undefined');
  });

  /** Messages beneath the title. */
  const faultsOf = (change: Record<string, unknown>) => messageOf(change).split('\n  ').slice(1);

  it.each<[string, Record<string, unknown>, string[]]>([
    [
      'a wheel in the ground',
      { wheelCentre: 'patch', contactPatch: 'hub' },
      [
        'wheelCentre: wheel centre not above its contact patch, got patch at z = 0 mm (allowed: more than 300 mm); z counts up from the ground at design ride height',
      ],
    ],
    [
      'a wheel that is its own contact patch',
      { contactPatch: 'hub' },
      [
        'wheelCentre: wheel centre not above its contact patch, got hub at z = 300 mm (allowed: more than 300 mm); z counts up from the ground at design ride height',
      ],
    ],
    [
      'a wheel off its upright',
      { wheelCentre: 'top' },
      ['wheelCentre: point not on the upright, got "top" (allowed: pivot, hub, patch, eye)'],
    ],
    [
      'a contact patch off its upright',
      { drawing: withPoint('road', [690, 0]), contactPatch: 'road' },
      ['contactPatch: point not on the upright, got "road" (allowed: pivot, hub, patch, eye)'],
    ],
    [
      'a wheel of unknown points',
      { wheelCentre: 'hubb', contactPatch: 'floor' },
      [
        'wheelCentre: unknown point, got "hubb" (allowed: pivot, hub, patch, eye, top); did you mean hub?',
        'contactPatch: unknown point, got "floor" (allowed: pivot, hub, patch, eye, top); correct the name or add the point to the drawing',
      ],
    ],
    [
      'an unknown wheel centre above a patch that is known',
      { wheelCentre: 'tyre' },
      [
        'wheelCentre: unknown point, got "tyre" (allowed: pivot, hub, patch, eye, top); correct the name or add the point to the drawing',
      ],
    ],
    [
      'an unknown contact patch',
      { contactPatch: 'floor' },
      [
        'contactPatch: unknown point, got "floor" (allowed: pivot, hub, patch, eye, top); correct the name or add the point to the drawing',
      ],
    ],
    [
      'an upright like none that there is',
      { upright: 'wheel' },
      ['upright: unknown body, got "wheel" (allowed: axle); correct the name or add the body to the drawing'],
    ],
    [
      'names that are no names',
      { upright: 3, wheelCentre: null, shock: { outer: 7, inner: ['top'] } },
      [
        'upright: wrong kind of value, got 3 (allowed: a text)',
        'wheelCentre: wrong kind of value, got null (allowed: a text)',
        'shock.outer: wrong kind of value, got 7 (allowed: a text)',
        'shock.inner: wrong kind of value, got ["top"] (allowed: a text)',
      ],
    ],
    [
      'a coilover on one part',
      { shock: { outer: 'eye', inner: 'hub' } },
      [
        'shock: both ends of the coilover on one part, got eye, hub; its ends must be on two parts that move against each other',
      ],
    ],
    [
      'a coilover on the ground',
      { shock: { outer: 'pivot', inner: 'top' } },
      [
        'shock: both ends of the coilover on one part, got pivot, top; its ends must be on two parts that move against each other',
      ],
    ],
    [
      'a coilover with one unknown end',
      { shock: { outer: 'eye', inner: 'tops' } },
      ['shock.inner: unknown point, got "tops" (allowed: pivot, hub, patch, eye, top); did you mean top?'],
    ],
    [
      'a coilover with another unknown end',
      { shock: { outer: 'eyes', inner: 'top' } },
      ['shock.outer: unknown point, got "eyes" (allowed: pivot, hub, patch, eye, top); did you mean eye?'],
    ],
    [
      'a coilover of no length',
      { drawing: withPoint('lug', [520, 280]), shock: { outer: 'eye', inner: 'lug' } },
      ['shock: two points in one place, got eye, lug; name the two end eyes of the coilover'],
    ],
    [
      'a kingpin of no length',
      { kingpin: { lower: 'hub', upper: 'hub' } },
      ['kingpin: one point for two, got hub, hub; name two points of the axis that the wheel steers about'],
    ],
    [
      'a kingpin of unknown points',
      { kingpin: { lower: 'low', upper: 'hubs' } },
      [
        'kingpin.lower: unknown point, got "low" (allowed: pivot, hub, patch, eye, top); correct the name or add the point to the drawing',
        'kingpin.upper: unknown point, got "hubs" (allowed: pivot, hub, patch, eye, top); did you mean hub?',
      ],
    ],
    ['no shock', { shock: undefined }, ['shock: missing (allowed: { outer, inner, foreAftOffset }); add it']],
  ])('is %s', (_, change, faults) => {
    expect(faultsOf(change)).toEqual(faults);
  });

  it.each<[string, Record<string, unknown>, string[]]>([
    [
      'an unknown body',
      { body: 'rockers' },
      ['rocker.body: unknown body, got "rockers" (allowed: axle, rod, rocker); did you mean rocker?'],
    ],
    [
      'unknown points',
      { pivot: 'pivots', rod: { outer: 'lugs', inner: 'harm' } },
      [
        'rocker.pivot: unknown point, got "pivots" (allowed: pivot, hub, patch, eye, arm, rest, top); did you mean pivot?',
        'rocker.rod.outer: unknown point, got "lugs" (allowed: pivot, hub, patch, eye, arm, rest, top); correct the name or add the point to the drawing',
        'rocker.rod.inner: unknown point, got "harm" (allowed: pivot, hub, patch, eye, arm, rest, top); did you mean arm?',
      ],
    ],
    [
      "a pivot on the ground that is another part's",
      { pivot: 'pivot' },
      ['rocker.pivot: point not on the rocker, got "pivot" (allowed: rest, arm, top)'],
    ],
    [
      'a pivot that moves',
      { pivot: 'top' },
      ['rocker.pivot: point not on the ground, got "top" (allowed: pivot, rest)'],
    ],
    [
      'a rod of one point',
      { rod: { outer: 'arm', inner: 'arm' } },
      ['rocker.rod: one point for two, got arm, arm; name the two ends of the rod'],
    ],
    [
      'a rod to the pivot',
      { rod: { outer: 'eye', inner: 'rest' } },
      ['rocker.rod.inner: one point for two, got rest, rest; name the end of the rod that is on the rocker'],
    ],
  ])('is a rocker with %s', (_, change, faults) => {
    expect(faultsOf({ ...rockerAxle, rocker: { ...rockerParts, ...change } })).toEqual(faults);
  });

  it('is not one with all its parts in place', () => {
    expect(customCorner({ ...rockerAxle, rocker: rockerParts }).rocker).toEqual(rockerParts);
  });

  it('is not an error of another kind, which goes its way', () => {
    const drawing = {
      ...swingAxle.drawing,
      get bodies(): never {
        throw new RangeError('out of paper');
      },
    };
    expect(() => customCorner({ ...swingAxle, drawing })).toThrow(RangeError);
  });

  it('is a linkage of more than one degree of freedom, once it is moved', () => {
    const drawing: Drawing = {
      points: { ...swingAxle.drawing.points, knee: [300, 260] },
      ground: ['pivot', 'top'],
      bodies: { link: ['pivot', 'knee'], axle: ['knee', 'hub', 'patch', 'eye'] },
    };
    const loose = customCorner({ ...swingAxle, drawing });
    expect(() => sweep(loose)).toThrow('2 degrees of freedom');
  });

  it('has points whose columns would have the name of another', () => {
    const { points, ground } = swingAxle.drawing;
    expect(
      messageOf({
        drawing: {
          points: { ...points, instantCentre: [300, 300] },
          ground,
          bodies: { axle: ['pivot', 'hub', 'patch', 'eye', 'instantCentre'] },
        },
      }),
    ).toContain('drawing.points.instantCentre: its column would have the name of another, instantCentreY');
  });

  it("has angles whose columns would have the name of a point's, of one that moves", () => {
    const angled = (name: string) => ({ angles: { [name]: { turn: 'axle' } } });
    expect(['hubY', 'eyeZ'].map((name) => faultsOf(angled(name)))).toEqual([
      ['drawing.points.hub: its column would have the name of another, hubY; give it another name'],
      ['drawing.points.eye: its column would have the name of another, eyeZ; give it another name'],
    ]);
    for (const name of ['pivotY', 'topZ', 'hub']) {
      const corner = customCorner({ ...swingAxle, ...angled(name) } as CustomCornerInput);
      expect(sweep(corner).info.map((column) => column.name)).toContain(name);
    }
  });
});

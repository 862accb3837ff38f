/** Forces of corners in their load cases, held by free bodies, virtual work, closed forms and laws of ball joints. */
import { assert, constantFrom, oneof, property } from 'fast-check';
import {
  type CaseForces,
  cornerForces,
  doubleWishbone,
  type ForceOptions,
  forceCurves,
  InputError,
  type LoadFactors,
  limits,
  plotCurves,
  pushrod,
  sentence,
  standardLoadCases,
  strut,
  sweep,
} from 'jounce';
import { trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { bumpStopForce } from '../../src/corner/axial-force.ts';
import { modelOf } from '../../src/corner/corner.ts';
import { onPillar } from '../corner/on-pillar.ts';
import { freeBodies } from '../judges/free-bodies.ts';
import { wildCorners } from '../support/corners.ts';
import { rockerCorners, strutCorners } from '../support/rocker-corners.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const GRAVITY = 9.80665;
/** The bump case with the default factor. */
const BUMP = 'bump load';
/** Corners of every kind. */
const corners = oneof(
  wildCorners.map((input) => doubleWishbone(input)),
  rockerCorners.map((input) => pushrod(input)),
  strutCorners.map((input) => strut(input)),
);
const on = (part: 'lowerArm' | 'upperArm', mount: [number, number]) =>
  doubleWishbone({
    lowerArm: { inner: [255, 165], outer: [640, 150] },
    upperArm: { inner: [310, 355], outer: [600, 375] },
    wheel: { centre: [705, 312], camber: -0.5 },
    coilover: { on: part, mount, chassisMount: [345, 560] },
  });
const corner = on('lowerArm', [505, 170]);
const joint = (axis: [number, number], housing: 'arm' | 'upright' = 'arm') => ({
  maxArticulation: 25,
  housing,
  housingAxis: axis,
});
const options = {
  sprungMass: 160,
  unsprungMass: 30,
  springRate: 40,
  gasForce: 200,
  bumpStopTable: [
    [10, 500],
    [20, 3000],
  ],
  limits: {
    damper: { extendedLength: 465, compressedLength: 370 },
    bumpStop: { height: 35, solidHeight: 12 },
    ballJoints: { lowerOuter: joint([0, 1]), upperOuter: joint([0, 1]) },
  },
} satisfies ForceOptions;
const caseOf = (name: string, found = cornerForces(corner, options)) => {
  const one = found.cases.find((each) => each.name === name);
  if (one === undefined) expect.fail(`no case ${name}`);
  return one;
};

describe('the static case', () => {
  it('needs of the coilover what virtual work says: the tyre and the unsprung weight by their own ratios', () => {
    assert(
      property(corners, (drawn) => {
        const ride = sweep(drawn, { bump: 1, droop: 1 }).at(0);
        if (!((ride.installationRatio ?? 0) > 0.05)) return;
        const { cases } = cornerForces(drawn, { sprungMass: 200, unsprungMass: 0, springRate: 30 });
        const expected = (200 * GRAVITY) / (ride.installationRatio as number);
        expectWithin(cases[0].shock.total, expected, 1e-9 * expected);
        expectWithin(cases[0].shock.metalContact, 0, 1e-9 * expected);
      }),
      { numRuns: 30 },
    );
  });

  it('is in equilibrium by free bodies too, on every corner', () => {
    assert(
      property(corners, (drawn) => {
        const model = modelOf(drawn);
        const { outer, inner, foreAftOffset: offset } = model.shock;
        const loads = [
          { at: model.contactPatch, on: model.upright, force: [-900, 2000] as const },
          { at: model.wheelCentre, on: model.upright, force: [0, -300] as const },
        ];
        const driver = { length: [outer, inner], offset } as const;
        const one = forces(model.drawing, loads, { driver });
        const other = freeBodies(model.drawing, loads, driver);
        const most = Math.max(2000, Math.abs(one.driver as number));
        expectWithin(one.driver, other.driver as number, 1e-9 * most);
        for (const [body, points] of Object.entries(one.on)) {
          for (const [point, force] of Object.entries(points)) {
            [0, 1].forEach((axis) => {
              expectWithin(other.on[body][point]?.[axis] ?? null, force?.[axis] as number, 1e-9 * most);
            });
          }
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('a corner that slides on a pillar of the chassis', () => {
  const { upright, shock, drawing, wheelCentre, contactPatch } = modelOf(onPillar);
  const options: ForceOptions = { sprungMass: 200, unsprungMass: 30, springRate: 30 };
  const tyre = [-700, 2600] as const;
  const at = (travel: number) => {
    const found = cornerForces(onPillar, { ...options, cases: [{ name: 'own', travel, tyre }] });
    return caseOf('own', found);
  };
  /** The upright goes straight up. */
  const raised = (travel: number) =>
    Object.fromEntries(
      Object.entries(drawing.points).map(([point, [y, z]]) => {
        const isMoving = drawing.bodies[upright].includes(point);
        return [point, [y, isMoving ? z + travel : z] as const];
      }),
    );

  it.each([-40, 0, 35])('has what free bodies give, and their signs, at %d mm', (travel) => {
    const loads = [
      { at: contactPatch, on: upright, force: tyre },
      { at: wheelCentre, on: upright, force: [0, -30 * GRAVITY] as const },
    ];
    const driver = { length: [shock.outer, shock.inner], offset: shock.foreAftOffset } as const;
    const judged = freeBodies({ ...drawing, points: raised(travel) }, loads, driver);
    const { joints, on, chassis, shock: carried } = at(travel);
    for (const [name, force] of Object.entries(joints.sliders)) {
      expectWithin(force, judged.sliders[name] as number, 1e-6);
      expect(Math.abs(force ?? 0)).toBeGreaterThan(10);
    }
    for (const point of ['low', 'high', 'eye']) {
      [0, 1].forEach((axis) => {
        expectWithin(on.upright[point]?.[axis] ?? null, judged.on.upright[point]?.[axis] as number, 1e-6);
      });
    }
    expectWithin(carried.total, judged.driver as number, 1e-6);
    // The mount of the coilover alone: what slides presses on a line, not on its ends.
    expect(Object.keys(chassis)).toEqual(['top']);
  });

  it('presses on its pillar with the moment over the distance of its bushes, as written down', () => {
    const { joints, shock: carried, shockLength } = at(0);
    // The coilover leans inboard to its top: it pushes the eye outboard and down. Both bushes on a line that runs upward push
    // inboard where their force is positive.
    const { low, high, eye, top, hub, patch } = drawing.points;
    const [across, down] = [0, 1].map((axis) => (carried.total * (eye[axis] - top[axis])) / shockLength);
    expectWithin(down, 30 * GRAVITY - tyre[1], 1e-6);
    const about = ([y, z]: readonly [number, number], [fy, fz]: readonly [number, number]) =>
      (y - low[0]) * fz - (z - low[1]) * fy;
    const moment = about(patch, tyre) + about(hub, [0, -30 * GRAVITY]) + about(eye, [across, down]);
    const onHigh = moment / (high[1] - low[1]);
    expectWithin(joints.sliders.upper, -onHigh, 1e-6);
    expectWithin(joints.sliders.lower, onHigh + across + tyre[0], 1e-6);
  });
});

describe('the cases', () => {
  it('stand where they should, with shares that add up', () => {
    const found = cornerForces(corner, options);
    expect(found.cases.map(({ name }) => name)).toEqual([
      'static',
      BUMP,
      'full droop',
      'cornering',
      'kerb strike',
      'bump stop solid',
    ]);
    for (const { shock } of found.cases) {
      expectClose(shock.spring + shock.gas + shock.bumpStop + shock.metalContact, shock.total, {
        times: 16,
        scale: 2e4,
      });
    }
    expectWithin(caseOf('static').shock.metalContact, 0, 1e-9);
    expectWithin(caseOf('cornering').shock.metalContact, 0, 1e-6);
    expectWithin(caseOf(BUMP).shockLength, 370 + 12, 1e-9);
    expectWithin(caseOf(BUMP).shock.bumpStop, 500 + (13 / 10) * 2500, 1e-9);
    expectWithin(caseOf('full droop').shockLength, 465, 1e-9);
  });

  it('stand in the bump case where spring, gas and stop balance three static loads, and at the limit only if that lies beyond', () => {
    const seen = { balanced: 0, limit: 0 };
    assert(
      property(corners, constantFrom(60, 2000), (drawn, stiff) => {
        const model = modelOf(drawn);
        const ride = sweep(drawn, { bump: 1, droop: 1 }).at(0);
        if (!((ride.installationRatio ?? 0) > 0.05)) return;
        const loaded = {
          ...options,
          bumpStopTable: [[20, 20 * stiff]] as const,
          limits: {
            damper: { extendedLength: ride.shockLength + 30, compressedLength: ride.shockLength - 60 },
            bumpStop: { height: 30, solidHeight: 12 },
          },
        };
        const { travel, shock, shockLength } = caseOf(BUMP, cornerForces(drawn, loaded));
        const { outer, inner, foreAftOffset: offset } = model.shock;
        const motion = trace(model.drawing, { driver: { y: model.contactPatch } });
        // What the coilover must bear, by free bodies of the corner in its pose.
        const required = (at: number, wheelLoad: number) =>
          freeBodies(
            { ...model.drawing, points: motion.at(motion.drawn + at) },
            [
              { at: model.contactPatch, on: model.upright, force: [0, wheelLoad] },
              { at: model.wheelCentre, on: model.upright, force: [0, -30 * GRAVITY] },
            ],
            { length: [outer, inner], offset },
          ).driver;
        const pressed = Math.max(0, ride.shockLength - 60 + 30 - shockLength);
        const [atRide, wanted] = [required(0, 190 * GRAVITY), required(travel, 3 * 190 * GRAVITY)];
        // At a dead point nothing is balanced.
        if (atRide === null || wanted === null) return;
        const pushes = atRide + 40 * (ride.shockLength - shockLength) + stiff * pressed;
        expectWithin(shock.total, wanted, 1e-8 * wanted);
        if (Math.abs(pushes - wanted) < 1e-6 * wanted) seen.balanced++;
        else {
          // The wheel load is more than the coilover gives, at the first limit in bump.
          expect(pushes).toBeLessThan(wanted);
          expectWithin(travel, limits(drawn, loaded.limits).bump?.travel ?? Number.NaN, 1e-9);
          seen.limit++;
        }
      }),
      { numRuns: 30 },
    );
    expect(seen.balanced).toBeGreaterThan(5);
    expect(seen.limit).toBeGreaterThan(3);
  });

  it('hang the unsprung weight alone in the mounts when the wheel is off the ground', () => {
    const { chassis } = caseOf('full droop');
    const sum = [0, 1].map((axis) =>
      Object.values(chassis).reduce((total, force) => total + (force?.[axis] ?? Number.NaN), 0),
    );
    expectWithin(sum[0], 0, 1e-9);
    expectWithin(sum[1], -30 * GRAVITY, 1e-9);
  });

  it('give the chassis what the ground gives the tyre, less the unsprung weight', () => {
    for (const { tyre, chassis } of cornerForces(corner, options).cases) {
      const sum = [0, 1].map((axis) =>
        Object.values(chassis).reduce((total, force) => total + (force?.[axis] ?? Number.NaN), 0),
      );
      expectWithin(sum[0], tyre?.[0] ?? 0, 1e-8);
      expectWithin(sum[1], (tyre?.[1] ?? 0) - 30 * GRAVITY, 1e-8);
    }
  });

  it('bend the lower arm at the mount by what stands on either side of it', () => {
    const { on: bodies, bending } = caseOf('static');
    const [arm] = bending;
    expect(arm.body).toBe('lowerArm');
    const [inner, outer] = [
      [255, 165],
      [640, 150],
    ];
    const length = Math.hypot(outer[0] - inner[0], outer[1] - inner[1]);
    const [tx, ty] = [(outer[0] - inner[0]) / length, (outer[1] - inner[1]) / length];
    const foot = (505 - inner[0]) * tx + (170 - inner[1]) * ty;
    expectWithin(arm.at, foot, 1e-9);
    const ball = bodies.lowerArm.lowerOuter as readonly [number, number];
    // From the outer end: the ball joint's force square to the arm, times its way to the foot.
    const fromOutside = (ball[1] * tx - ball[0] * ty) * (length - foot);
    const pivot = bodies.lowerArm.lowerInner as readonly [number, number];
    const fromInside = (pivot[1] * tx - pivot[0] * ty) * foot;
    expectWithin(Math.abs(arm.moment), Math.max(Math.abs(fromOutside), Math.abs(fromInside)), 1e-6);
  });

  it('lift the car in a corner by the lateral force and the slope to the instant centre', () => {
    const { tyre, jacking, travel } = caseOf('cornering');
    const row = sweep(corner, {
      bump: 60,
      droop: 60,
      columns: ['instantCentreY', 'instantCentreZ', 'contactPatchY', 'contactPatchZ'],
    }).at(travel);
    const slope =
      ((row.instantCentreZ as number) - (row.contactPatchZ as number)) /
      ((row.instantCentreY as number) - (row.contactPatchY as number));
    expectWithin(jacking, (tyre?.[0] as number) * slope, 1e-6);
  });
});

describe('a coilover whose ends lie apart fore and aft', () => {
  it('pushes out of the plane by its lean: force by offset over length, whichever end is in front', () => {
    for (const foreAftOffset of [60, -60]) {
      const leant = doubleWishbone({
        lowerArm: { inner: [255, 165], outer: [640, 150] },
        upperArm: { inner: [310, 355], outer: [600, 375] },
        wheel: { centre: [705, 312], camber: -0.5 },
        coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 560], foreAftOffset },
      });
      const { outOfPlane, shock } = caseOf('static', cornerForces(leant, options));
      expect(shock.total).toBeGreaterThan(1000);
      expectWithin(
        outOfPlane,
        (shock.total * 60) / Math.sqrt(160 ** 2 + 390 ** 2 + 60 ** 2),
        1e-9 * shock.total,
      );
    }
    expect(caseOf('static').outOfPlane).toBe(0);
  });
});

describe('the stop driven solid', () => {
  it('takes spring, gas and stop at that length, and the wheel load that virtual work says balances them', () => {
    const { shock, shockLength, travel, tyre } = caseOf('bump stop solid');
    expectWithin(shockLength, 370 + 12, 1e-9);
    // Spring: its static force and 40 N/mm beyond; stop: pressed in by 35 - 12 mm, straight on from 500 N at 10 mm.
    const { installationRatio, shockLength: ride } = sweep(corner).at(0);
    const unsprung = 30 * GRAVITY;
    const { wheelCentreZ: up } = sweep(corner, { bump: 1e-3, droop: 1e-3 }).at(1e-3);
    const { wheelCentreZ: down } = sweep(corner, { bump: 1e-3, droop: 1e-3 }).at(-1e-3);
    const rise = ((up as number) - (down as number)) / 2e-3;
    const atRide = (190 * GRAVITY - unsprung * rise) / (installationRatio as number);
    const whole = atRide + 40 * (ride - 382) + 500 + (13 / 10) * 2500;
    expectWithin(shock.total, whole, 1e-4);
    expectWithin(shock.metalContact, 0, 1e-7);
    // Virtual work over a short way: the tyre's against the coilover's and the unsprung weight's.
    const h = 1e-3;
    const around = sweep(corner, { bump: 80, droop: 10 });
    const [above, below] = [around.at(travel + h), around.at(travel - h)];
    const shortened = (below.shockLength - above.shockLength) / (2 * h);
    const lifted = ((above.wheelCentreZ as number) - (below.wheelCentreZ as number)) / (2 * h);
    expectWithin(tyre?.[1] ?? null, shock.total * shortened + unsprung * lifted, 1e-4);
    expect(tyre?.[0]).toBe(0);
  });

  it('is the hardest vertical load within the travel: no travel has a larger axial force than the cases', () => {
    let seen = 0;
    assert(
      property(corners, (drawn) => {
        const ride = sweep(drawn, { bump: 1, droop: 1 }).at(0);
        if (!((ride.installationRatio ?? 0) > 0.05)) return;
        const { shockLength } = ride;
        const loaded = {
          ...options,
          limits: {
            damper: { extendedLength: shockLength + 30, compressedLength: shockLength - 40 },
            bumpStop: { height: 30, solidHeight: 12 },
          },
        };
        const curves = forceCurves(drawn, loaded);
        const { cases } = cornerForces(drawn, loaded);
        // Where the linkage itself ends the bump travel no wheel load drives it there.
        const ends = limits(drawn, loaded.limits).bump?.cause ?? 'deadPoint';
        if (['ratioZero', 'deadPoint', 'locked', 'bifurcation'].includes(ends)) return;
        seen++;
        const most = Math.max(...cases.map(({ shock }) => shock.total));
        for (const { coiloverForce } of curves.rows()) {
          expect(coiloverForce).toBeLessThanOrEqual(most * (1 + 1e-9));
        }
      }),
      { numRuns: 30 },
    );
    expect(seen).toBeGreaterThan(10);
  });

  it('brings the joint loads to the same case as the largest axial force', () => {
    const { cases, maxPullOut } = cornerForces(corner, options);
    const hardest = cases.reduce((a, b) => (b.shock.total > a.shock.total ? b : a));
    for (const { ballJoints } of cases) {
      expect(maxPullOut.lowerOuter.axial).toBeGreaterThanOrEqual(ballJoints.lowerOuter.axial);
    }
    expect(maxPullOut.lowerOuter.axial).toBeGreaterThanOrEqual(hardest.ballJoints.lowerOuter.axial);
  });

  it('is no case without a damper, and is called by what ends the bump travel', () => {
    const named = (limits: NonNullable<ForceOptions['limits']>) =>
      cornerForces(corner, { ...options, limits }).cases.map(({ name }) => name)[5];
    expect(named({})).toBe(undefined);
    expect(named({ damper: { extendedLength: 465, compressedLength: 370 } })).toBe('damper bottomed out');
    expect(named({ ...options.limits, springMinLengthAt: 390 })).toBe(
      'spring at its minimum permissible length',
    );
    expect(named({ ...options.limits, tyre: { overallRadius: 320, width: 195 }, arch: [[705, 640]] })).toBe(
      'driven to the bump limit',
    );
  });
});

describe('a ball joint', () => {
  it('with only its stud turned over has the sign of its axial force flipped, and its radial one kept', () => {
    const turned = cornerForces(corner, {
      ...options,
      limits: { ...options.limits, ballJoints: { lowerOuter: joint([0, -1]), upperOuter: joint([0, 1]) } },
    });
    for (const { name, ballJoints } of cornerForces(corner, options).cases) {
      const other = caseOf(name, turned).ballJoints.lowerOuter;
      expectClose(other.axial, -ballJoints.lowerOuter.axial, { times: 16, scale: 1e4 });
      expectClose(other.radial, ballJoints.lowerOuter.radial, { times: 16, scale: 1e4 });
    }
  });

  it('keeps its sense under a vertical load when the coilover moves to the other arm', () => {
    const moved = on('upperArm', [500, 370]);
    const senses = [corner, moved].map((one) => {
      const { ballJoints } = cornerForces(one, {
        ...options,
        limits: { ballJoints: options.limits.ballJoints },
      }).cases[0];
      return ballJoints;
    });
    // The loaded joint is another one: each time the wheel's load pulls its stud upward, out of a mouth that looks up.
    expect(senses[0].lowerOuter.axial).toBeGreaterThan(1000);
    expect(senses[1].upperOuter.axial).toBeGreaterThan(1000);
    expect(sentence(senses[0].lowerOuter.diagnostic)).toMatch(
      /^The load pulls the stud out of its housing with \d+ N at the lower outer ball joint, and shears it with \d+ N\.$/,
    );
  });

  it('is loaded along the kingpin as one whose housing opens along it', () => {
    assert(
      property(corners, (drawn) => {
        const model = modelOf(drawn);
        if (
          model.kingpin === null ||
          !((sweep(drawn, { bump: 1, droop: 1 }).at(0).installationRatio ?? 0) > 0.05)
        )
          return;
        const { lower, upper } = model.kingpin;
        const { points, ground } = model.drawing;
        const up: [number, number] = [0, 1].map((k) => points[upper][k] - points[lower][k]) as [
          number,
          number,
        ];
        const down: [number, number] = [-up[0], -up[1]];
        const given = Object.fromEntries(
          [[lower, up] as const, [upper, down] as const]
            .filter(([name]) => !ground.includes(name))
            .map(([name, axis]) => [name, joint(axis, 'arm')]),
        );
        const [found] = cornerForces(drawn, {
          sprungMass: 200,
          unsprungMass: 20,
          springRate: 30,
          limits: { ballJoints: given },
          cases: [],
        }).cases;
        for (const [name, { axial, radial }] of Object.entries(found.ballJoints)) {
          const tolerance = 1e-9 * Math.hypot(axial, radial);
          expectWithin(found.alongKingpin[name].axial, axial, tolerance);
          expectWithin(found.alongKingpin[name].radial, radial, tolerance);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('has its maximum pull-out and push-in named, and its articulation as the limits have it', () => {
    const { cases, diagnostics, maxPullOut, maxPushIn, cautions } = cornerForces(corner, options);
    expect(maxPullOut.lowerOuter.case).toBe(BUMP);
    const joints = diagnostics.slice(cases.length);
    expect(joints.map(({ code, values }) => [code, values.joint, values.case])).toEqual(
      Object.entries({ maxPullOut, maxPushIn }).flatMap(([code, loads]) =>
        Object.entries(loads).map(([joint, load]) => [code, joint, load.case]),
      ),
    );
    expect(sentence(joints[0])).toMatch(
      /^Maximum pull-out, in the case "bump load": the load pulls the stud out of /,
    );
    for (const [joint, { axial }] of Object.entries(maxPullOut)) {
      expect(axial).toBe(Math.max(...cases.map(({ ballJoints }) => ballJoints[joint].axial)));
    }
    for (const [joint, { axial }] of Object.entries(maxPushIn)) {
      expect(axial).toBe(Math.min(...cases.map(({ ballJoints }) => ballJoints[joint].axial)));
    }
    expect(cautions.map((one) => sentence(one))[0]).toMatch(/not strengths.*qualified engineer/);
    expectWithin(caseOf('static').ballJoints.lowerOuter.articulation, 0, 1e-12);
  });
});

describe('options that can not be', () => {
  it('are told all at once', () => {
    const wrong = {
      sprungMass: 0,
      springRate: Number.NaN,
      gasForce: -1,
      bumpStopTable: [
        [5, 100],
        [4, 200],
      ],
      factors: { bump: -1 },
      cases: [{ name: 'own', travel: 'up', tyre: [1] }],
    } as unknown as ForceOptions;
    expect(() => cornerForces(corner, wrong)).toThrow(InputError);
    expect(() => cornerForces(corner, wrong)).toThrow(
      [
        'invalid forces',
        '  sprungMass: out of range, got 0 (allowed: a number greater than 0 (kg))',
        '  unsprungMass: missing (allowed: a number of 0 or more (kg))',
        '  springRate: out of range, got NaN (allowed: a number greater than 0 (N/mm))',
        '  gasForce: out of range, got -1 (allowed: a number of 0 or more (N))',
        '  factors.bump: out of range, got -1 (allowed: a number of 0 or more)',
        '  bumpStopTable[1]: the force table of the bump stop does not rise, got 200 N at 4.0 mm (allowed: more than 5.0 mm, at least 100 N); list compression and force in rising order',
        '  cases[0].tyre: not a force, got [1] (allowed: [y, z] in N, or null)',
        '  cases[0].travel: not a travel, got "up" (allowed: mm, bumpLimit, droopLimit, equilibrium)',
      ].join('\n'),
    );
  });
});

describe('the standard load cases', () => {
  it('take an undefined factor for its default', () => {
    expect(standardLoadCases(160, 30, { bump: undefined } as unknown as Partial<LoadFactors>)).toEqual(
      standardLoadCases(160, 30),
    );
  });

  it('refuse masses and factors that are no numbers, and unknown factors', () => {
    const wrong = { kerb: Number.NaN, dive: 2 } as Partial<LoadFactors>;
    expect(() => standardLoadCases(Number.NaN, -1, wrong)).toThrow(
      [
        'invalid standard load cases',
        '  sprungMass: out of range, got NaN (allowed: a number greater than 0 (kg))',
        '  unsprungMass: out of range, got -1 (allowed: a number of 0 or more (kg))',
        '  dive: unknown option (allowed: bump, cornering, transfer, kerb, kerbAngle); correct the spelling, or take it out',
        '  kerb: out of range, got NaN (allowed: a number of 0 or more)',
      ].join('\n'),
    );
  });
});

describe('a bump stop', () => {
  const stop = {
    contact: 390,
    table: [
      [10, 500],
      [20, 3000],
    ],
  } as const;
  it('pushes along its table in straight lines, on as steep beyond its end, and not before it is touched', () => {
    for (const [pressed, force, rate] of [
      [-5, 0, 0],
      [0, 0, 0],
      [4, 200, 50],
      [10, 500, 50],
      [15, 1750, 250],
      [20, 3000, 250],
      [22, 3500, 250],
    ]) {
      const pushed = bumpStopForce(stop, 390 - pressed);
      expectWithin(pushed.force, force, 1e-9);
      expectWithin(pushed.rate, rate, 1e-9);
    }
  });

  it('may begin its table with nothing at nothing, or have none', () => {
    const begun = { ...stop, table: [[0, 0], ...stop.table] } as const;
    expect(bumpStopForce(begun, 385)).toEqual(bumpStopForce(stop, 385));
    expect(bumpStopForce({ ...stop, table: [] }, 385)).toEqual({ force: 0, rate: 0 });
    expect(bumpStopForce(null, 385)).toEqual({ force: 0, rate: 0 });
  });
});

describe('forces through travel', () => {
  it('pass through the static case, and carry the wheel rate in their slope', () => {
    const curves = forceCurves(corner, options);
    const { shock, ballJoints, axial } = caseOf('static');
    const ride = curves.at(0);
    expectWithin(ride.wheelLoad, 190 * GRAVITY, 1e-8);
    expectWithin(ride.coiloverForce, shock.total, 1e-8);
    expectWithin(ride.lowerOuterAxial, ballJoints.lowerOuter.axial, 1e-8);
    expectWithin(ride.lowerArmAxial, axial.lowerArm, 1e-8);
    // k_w = k_s R^2 + F R' without unsprung weight (J. C. Dixon; the term of the changing ratio), by central differences.
    const light = { ...options, unsprungMass: 0 };
    const { at } = forceCurves(corner, light);
    const { installationRatio: R, installationRatioSlope: slope } = sweep(corner).at(10);
    const h = 1e-3;
    const rate = (at(10 + h).wheelLoad - at(10 - h).wheelLoad) / (2 * h);
    const expected = 40 * (R as number) ** 2 + at(10).coiloverForce * (slope as number);
    expectWithin(rate, expected, 1e-6 * expected);
    const { droop, bump } = curves.end;
    const rows = curves.rows(5);
    expect(rows).toHaveLength(5);
    expect(curves.rows()).toHaveLength(29);
    expect(new Set(curves.info.map(({ name }) => name)).size).toBe(curves.info.length);
    rows.forEach((row, k) => {
      const travel = droop.travel + ((bump.travel - droop.travel) * k) / 4;
      expectWithin(row.travel, travel, 1e-9);
      expect(Object.keys(row).sort()).toEqual(curves.info.map(({ name }) => name).sort());
      expectWithin(row.wheelLoad, curves.at(travel).wheelLoad, 1e-6);
    });
    expect(plotCurves(curves, { panels: ['wheelLoad', 'lowerOuterAxial'] })).toContain('lower outer, axial');
  });

  it('stand where the potential energy is least, found by golden section', () => {
    const load = 2600;
    const light = {
      ...options,
      gasForce: 0,
      bumpStopTable: undefined,
      cases: [{ name: 'own', travel: 'equilibrium', tyre: [0, load] }],
    } as const;
    const { bumpStopTable: _, ...without } = light;
    const { travel, shock } = cornerForces(corner, without).cases.at(-1) as CaseForces;
    expectWithin(shock.metalContact, 0, 1e-6);
    const curves = sweep(corner, { bump: 60, droop: 60 });
    const ride = curves.at(0);
    const force = caseOf('static', cornerForces(corner, without)).shock.total;
    const energy = (z: number) => {
      const { shockLength, wheelCentreZ } = curves.at(z);
      const pressed = ride.shockLength - shockLength;
      return force * pressed + 20 * pressed * pressed + 30 * GRAVITY * (wheelCentreZ as number) - load * z;
    };
    let [low, high] = [-60, 60];
    const golden = (Math.sqrt(5) - 1) / 2;
    for (let k = 0; k < 60; k++) {
      const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
      if (energy(a) < energy(b)) high = b;
      else low = a;
    }
    // A least value is flat: its place is known to the root of rounding.
    expectWithin(travel, (low + high) / 2, 1e-4);
  });
});

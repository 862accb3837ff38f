/**
 * A car at rest. Judges: the sums of forces and of moments of the rolled pose, from the poses of `sweepAxle` and `sweep` and the masses
 * alone; the energy of springs, bars, tyres and weights by central differences; the mirror image; the rest of one corner; closed forms of
 * swing axles and parallel arms; and textbook formulas of load transfer and roll in the limit of small accelerations.
 */

import * as fc from 'fast-check';
import {
  axle,
  type CarOnAxles,
  doubleWishbone,
  type Equilibrium,
  equilibrium,
  sentence,
  sweep,
  sweepAxle,
  type WheelRest,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { restUnder, shockCurve } from '../../src/coilover/wheel.ts';
import { modelOf } from '../../src/corner/corner.ts';
import { wildCorners } from '../support/corners.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR, COILOVER, REAR_CORNER } from './car.ts';
import { BAR, CORNER, PIVOT as pivot, SWING_AXLE } from './roadster.ts';

const DEGREE = Math.PI / 180;
/** mm between two solvers of a corner some 700 mm wide, near no dead point. */
const SOLVED = 1e-9;
const G = 9.80665;
const CORNERS = { front: CORNER, rear: REAR_CORNER };

/** The rest, which there has to be. */
function rest(car: CarOnAxles, loads = {}): Equilibrium {
  const found = equilibrium(car, loads);
  if (found.status !== 'rests') expect.fail(`${found.cause} at ${found.lateralAcceleration}`);
  return found;
}

const lateral = fc.double({ min: -1.3, max: 1.3, noNaN: true });

/** Axles with their names and wheels, left first. */
function axlesOf(found: Equilibrium) {
  return (['front', 'rear'] as const).flatMap((name) => {
    const one = found.axles[name];
    return one === undefined
      ? []
      : [{ name, ...one, wheels: [one.left, one.right] as [WheelRest, WheelRest] }];
  });
}

describe('a car at rest', () => {
  it('has the weights on its wheels, and the moments of all masses in the rolled pose', () => {
    fc.assert(
      fc.property(lateral, fc.constantFrom('proportional' as const, 'equal' as const), (a, lateralSplit) => {
        const car = { ...CAR, sprungCentreOfGravityY: 23 };
        const found = rest(car, {
          lateralAcceleration: a,
          lateralSplit,
          downforce: { front: 300, rear: 420 },
        });
        const [sin, cos] = [Math.sin(found.roll * DEGREE), Math.cos(found.roll * DEGREE)];
        const sprung = car.front.sprungMass + car.rear.sprungMass;
        let [moved, wanted, height] = [0, 0, 0];
        for (const { name, heave, wheels } of axlesOf(found)) {
          const { sprungMass, unsprungMass } = car[name];
          const h = -heave * cos;
          height += (sprungMass / sprung) * h;
          const load = wheels[0].load.total + wheels[1].load.total;
          const weight = (sprungMass + 2 * unsprungMass) * G + (name === 'front' ? 300 : 420);
          expectClose(load, weight, { times: 1e3, scale: weight });
          const force = wheels[0].lateralForce + wheels[1].lateralForce;
          expectClose(force, a * (sprungMass + 2 * unsprungMass) * G, { times: 1e3, scale: weight });
          wheels.forEach((wheel, w) => {
            const side = w === 0 ? 1 : -1;
            const pose = sweep(CORNERS[name], { bump: 120, droop: 120 }).at(wheel.travel);
            const across = (y: number, z: number) => side * y * cos - z * sin;
            moved += wheel.load.total * across(pose.contactPatchY, wheel.travel);
            const [y, z] = [pose.wheelCentreY, pose.wheelCentreZ];
            const up = h + side * y * sin + z * cos;
            wanted += unsprungMass * G * (across(y, z) - a * up);
          });
        }
        const [y, z] = [23, car.sprungCentreOfGravityHeight];
        wanted += sprung * G * (y * cos - z * sin - a * (height + y * sin + z * cos));
        expectClose(moved, wanted, { times: 1e5, scale: sprung * G * 100 });
      }),
    );
  });

  it('has its contact patches on the ground, as deep as the tyres give', () => {
    fc.assert(
      fc.property(lateral, (a) => {
        const found = rest(CAR, { lateralAcceleration: a });
        const [sin, cos] = [Math.sin(found.roll * DEGREE), Math.cos(found.roll * DEGREE)];
        for (const { name, heave, wheels } of axlesOf(found)) {
          const still = rest(CAR).axles[name]!;
          wheels.forEach((wheel, w) => {
            const side = w === 0 ? 1 : -1;
            const pose = sweep(CORNERS[name], { bump: 120, droop: 120 }).at(wheel.travel);
            const up = -heave * cos + side * pose.contactPatchY * sin + wheel.travel * cos;
            expectWithin(
              wheel.clearance === null ? -up : up - wheel.clearance,
              wheel.tyreDeflection * (wheel.clearance === null ? 1 : -1),
              1e-9,
            );
            expectWithin(
              wheel.tyreDeflection,
              (wheel.load.total - still.left.load.total) / CAR[name].tyreRate,
              1e-9,
            );
          });
        }
      }),
    );
  });

  it('of a symmetric car is the mirror image in the other turn', () => {
    fc.assert(
      fc.property(lateral, (a) => {
        const [one, other] = [rest(CAR, { lateralAcceleration: a }), rest(CAR, { lateralAcceleration: -a })];
        const scale = 1e-12;
        expectWithin(one.roll, -other.roll, scale * 10);
        axlesOf(one).forEach(({ left, right, heave }, k) => {
          const image = axlesOf(other)[k];
          expectWithin(heave, image.heave, scale * 100);
          for (const [wheel, mirrored] of [
            [left, image.right],
            [right, image.left],
          ]) {
            expectWithin(wheel.travel, mirrored.travel, scale * 100);
            expectWithin(wheel.load.total, mirrored.load.total, scale * 1e4);
            expectSame(wheel.damper, mirrored.damper);
          }
        });
      }),
    );
  });
});

/** The front axle alone, on rigid tyres. */
const { tyreRate: _rigid, ...FRONT } = CAR.front;
const SINGLE = { front: FRONT, sprungCentreOfGravityHeight: 452 } as const;
const SPRING = { springRate: 48, freeLength: 252, perchSetting: 160 };
const PUSH = {
  spring: { springs: [{ rate: 48, travel: Number.POSITIVE_INFINITY }] },
  loose: 412,
  gasForce: 0,
  bumpStop: null,
};

describe('an axle at rest', () => {
  it('has the travels that sweepAxle has on rigid tyres', () => {
    const { axles, roll } = rest(SINGLE, { lateralAcceleration: 0.7 });
    const { heave, left, right, barTwist } = axles.front!;
    const [row] = sweepAxle(FRONT.linkage, { heave: [heave], roll: [roll] }).rows();
    expectWithin(left.travel, row.leftTravel, SOLVED);
    expectWithin(right.travel, row.rightTravel, SOLVED);
    expectWithin(barTwist, row.barTwist!, SOLVED);
  });

  it('takes no work to move: energy of springs, bar and masses, with the lateral forces held', () => {
    const curves = sweep(CORNER, { bump: 120, droop: 120 });
    const right = { ...SPRING, perchMove: 9 };
    fc.assert(
      fc.property(fc.double({ min: -0.5, max: 0.5, noNaN: true }), (a) => {
        const car = {
          front: { ...FRONT, left: SPRING, right },
          sprungCentreOfGravityHeight: 452,
          sprungCentreOfGravityY: -31,
        };
        const found = rest(car, { lateralAcceleration: a });
        const { heave, left, right: other } = found.axles.front!;
        const loose = [SPRING.freeLength + SPRING.perchSetting, SPRING.freeLength + SPRING.perchSetting + 9];
        const energy = (h: number, degrees: number) => {
          const [sin, cos] = [Math.sin(degrees * DEGREE), Math.cos(degrees * DEGREE)];
          const [row] = sweepAxle(FRONT.linkage, { heave: [-h / cos], roll: [degrees] }).rows();
          const twist = row.barTwist! * DEGREE;
          const torsion = (FRONT.linkage.bar!.torsionalStiffness * 1000) / DEGREE;
          let sum = 0.5 * torsion * twist * twist;
          const lift = (mass: number, y: number, z: number) =>
            mass * G * (h + y * sin + z * cos + a * (y * cos - z * sin));
          sum += lift(FRONT.sprungMass, -31, 452);
          [row.leftTravel, row.rightTravel].forEach((travel, w) => {
            const side = w === 0 ? 1 : -1;
            const pose = curves.at(travel);
            sum += 0.5 * SPRING.springRate * (loose[w] - pose.shockLength) ** 2;
            sum += lift(FRONT.unsprungMass, side * pose.wheelCentreY, pose.wheelCentreZ);
            sum -= [left, other][w].lateralForce * [row.leftPatchY, row.rightPatchY][w];
          });
          return sum;
        };
        const h = -heave * Math.cos(found.roll * DEGREE);
        const [dh, dp] = [0.01, 0.001];
        const byHeight = (energy(h + dh, found.roll) - energy(h - dh, found.roll)) / (2 * dh);
        const byRoll = (energy(h, found.roll + dp) - energy(h, found.roll - dp)) / (2 * dp * DEGREE);
        // N, and N mm, of some 3900 N on wheels 690 mm out.
        expectWithin(byHeight, 0, 0.01);
        expectWithin(byRoll, 0, 10);
      }),
      { numRuns: 25 },
    );
  });

  it('on still ground, without unsprung mass, stands where each corner rests alone', () => {
    const shock = shockCurve(modelOf(CORNER), 90, 90);
    const { travel, state } = restUnder(shock, PUSH, (FRONT.sprungMass * G) / 2, { droop: -80, bump: 80 });
    expectSame(state, 'onSpring');
    const car = { front: { ...FRONT, unsprungMass: 0, left: SPRING }, sprungCentreOfGravityHeight: 452 };
    const { left, right, heave } = rest(car).axles.front!;
    expectWithin(left.travel, travel, SOLVED);
    expectWithin(right.travel, travel, SOLVED);
    expectWithin(heave, travel, SOLVED);
    expect(Math.abs(travel)).toBeGreaterThan(1);
  });

  it('of swing axles jacks as the line from pivot to contact patch slopes', () => {
    const linkage = axle({ left: SWING_AXLE });
    const car = {
      front: { linkage, sprungMass: 340, unsprungMass: 30, left: { springRate: 40 } },
      sprungCentreOfGravityHeight: 430,
    };
    const heaves: number[] = [];
    for (const lateralSplit of ['proportional', 'equal'] as const) {
      const found = rest(car, { lateralAcceleration: 0.45, lateralSplit });
      const { heave, left: inner, right: outer } = found.axles.front!;
      const [sin, cos] = [Math.sin(found.roll * DEGREE), Math.cos(found.roll * DEGREE)];
      const [row] = sweepAxle(linkage, { heave: [heave], roll: [found.roll] }).rows();
      for (const [side, wheel, patch] of [
        [1, inner, row.leftPatchY],
        [-1, outer, row.rightPatchY],
      ] as const) {
        const across = side * pivot[0] * cos - pivot[1] * sin;
        const up = -heave * cos + side * pivot[0] * sin + pivot[1] * cos;
        expectClose(wheel.load.geometric, (-wheel.lateralForce * up) / (patch - across), {
          times: 1e5,
          scale: 1000,
        });
      }
      heaves.push(heave);
    }
    // The outer wheel bears more of it in proportion, and jacking lifts the body.
    expect(heaves[0]).toBeLessThan(heaves[1]);
    expect(heaves[0]).toBeLessThan(0);
  });

  it('of parallel level arms jacks as the arms and the body slope', () => {
    const left = doubleWishbone({
      lowerArm: { inner: [300, 150], outer: [640, 150] },
      upperArm: { inner: [300, 350], outer: [640, 350] },
      wheel: { centre: [700, 300], contactPatch: [700, 0] },
      coilover: { on: 'lowerArm', mount: [505, 155], chassisMount: [345, 480] },
    });
    const car = {
      front: { linkage: axle({ left }), sprungMass: 340, unsprungMass: 30, left: { springRate: 60 } },
      sprungCentreOfGravityHeight: 430,
    };
    const found = rest(car, { lateralAcceleration: 0.5 });
    for (const [side, wheel] of [
      [1, found.axles.front!.left],
      [-1, found.axles.front!.right],
    ] as const) {
      const slope = Math.asin(wheel.travel / 340) + side * found.roll * DEGREE;
      const wanted = wheel.lateralForce * side * Math.tan(slope);
      expectClose(wheel.load.geometric, wanted, { times: 1e5, scale: 1000 });
    }
  });

  it('between springs that do not give has m a h / t of load transfer', () => {
    const stiff = { springRate: 1e7 };
    const car = { front: { ...FRONT, left: stiff }, sprungCentreOfGravityHeight: 452 };
    const a = 0.6;
    const { front } = rest(car, { lateralAcceleration: a }).axles;
    const pose = sweep(CORNER).at(0);
    const height = FRONT.sprungMass * 452 + 2 * FRONT.unsprungMass * pose.wheelCentreZ;
    const wanted = (a * G * height) / (2 * pose.contactPatchY);
    // The springs still give some micrometres.
    expectWithin(front!.loadTransfer.total / wanted, 1, 1e-4);
  });

  it('has the roll gradient of textbooks, with P h_rc added, for small accelerations', () => {
    // phi / a = (sum of W (h - h_rc)) / (sum of k_w t^2 / 2 + bar + P h_rc - W (h - h_rc)): W. F. and D. L. Milliken, "Race Car Vehicle Dynamics",
    // 1995, ch. 16, and T. D. Gillespie, 1992, ch. 6 (from memory), and Barton & Fieldhouse, eq. 3.18 (read), have it without P h_rc.
    const light = (one: (typeof CAR)['front' | 'rear']) => {
      const { tyreRate: _tyre, ...others } = one;
      return { ...others, unsprungMass: 0 };
    };
    const car = { front: light(CAR.front), rear: light(CAR.rear), sprungCentreOfGravityHeight: 452 };
    const a = 1e-4;
    const found = rest(car, { lateralAcceleration: a });
    let [moment, stiffness] = [0, 0];
    for (const name of ['front', 'rear'] as const) {
      const pose = sweep(CORNERS[name]).at(0);
      const { sprungMass, linkage, left } = car[name];
      const weight = sprungMass * G;
      const [R, slope] = [pose.installationRatio!, pose.installationRatioSlope!];
      const wheelRate = left.springRate * R * R + (weight / 2 / R) * slope;
      const [row] = sweepAxle(linkage, { heave: [0], roll: [0] }).rows();
      const bar =
        linkage.bar === null
          ? 0
          : ((linkage.bar.torsionalStiffness * 1000) / DEGREE) * (row.barTwistByRoll ?? 0) ** 2;
      const height = pose.rollCentreHeight!;
      moment += weight * (452 - height);
      stiffness +=
        (wheelRate * (2 * pose.contactPatchY) ** 2) / 2 + bar + weight * height - weight * (452 - height);
    }
    expectWithin((found.roll * DEGREE) / a / (moment / stiffness), 1, 1e-5);
  });

  it('has the roll damping of both dampers at the track', () => {
    const { rollDamping } = rest(SINGLE).axles.front!;
    const { installationRatio, contactPatchY } = sweep(CORNER).at(0);
    // c R^2 t^2 / 2 in N·m·s/rad: c in N·s/m, t in m.
    const wanted = (COILOVER.damping! * installationRatio! ** 2 * (2 * contactPatchY * 1e-3) ** 2) / 2;
    expectClose(rollDamping, wanted * DEGREE, { times: 1e4, scale: wanted });
  });
});

describe('what pushes', () => {
  it('never pulls: springs, stops, ground, and dampers at their ends', () => {
    fc.assert(
      fc.property(
        lateral,
        fc.double({ min: -12, max: 12, noNaN: true }),
        fc.double({ min: -0.8, max: 0.8, noNaN: true }),
        (a, perchMove, deceleration) => {
          const left = { ...COILOVER, perchMove };
          const found = equilibrium(
            { ...CAR, front: { ...CAR.front, left, right: COILOVER } },
            { lateralAcceleration: a, deceleration },
          );
          const at = found.status === 'rests' ? found : found.last;
          for (const { wheels } of at === null ? [] : axlesOf(at)) {
            for (const wheel of wheels) {
              const { total, spring, bumpStop, damperEnd } = wheel.load;
              expect(Math.min(total, spring, bumpStop)).toBeGreaterThanOrEqual(-1e-6);
              if (wheel.damper === 'free') expectSame(damperEnd, 0);
              else {
                expect(damperEnd * (wheel.damper === 'toppedOut' ? -1 : 1)).toBeGreaterThanOrEqual(-1e-6);
                expectWithin(wheel.shockLength, wheel.damper === 'toppedOut' ? 385 : 270, 1e-8);
              }
              expect(wheel.shockLength).toBeLessThan(385 + 1e-8);
              expectSame(wheel.isOnBumpStop, wheel.bumpStopForce > 0);
              if (wheel.clearance !== null) {
                expect(wheel.clearance).toBeGreaterThanOrEqual(-1e-8);
                expectSame(total, 0);
              }
            }
          }
        },
      ),
    );
  });

  it('moves load to the front under braking: m a h / wheelbase, or as given', () => {
    const sum = (loads: object) => {
      const { front, rear } = rest(CAR, loads).axles;
      return [front!, rear!].map(({ left, right }) => left.load.total + right.load.total);
    };
    const [still, braking, given] = [sum({}), sum({ deceleration: 0.8 }), sum({ longitudinalTransfer: 500 })];
    const masses = (341 + 388) * 452 + 2 * 29 * 301 + 2 * 33 * 306;
    const wanted = (0.8 * G * masses) / 2380;
    expectClose(braking[0] - still[0], wanted, { times: 1e4, scale: 4000 });
    expectClose(braking[1] - still[1], -wanted, { times: 1e4, scale: 4000 });
    expectClose(given[0] - still[0], 500, { times: 1e4, scale: 4000 });
    const { front, rear } = rest(CAR, { deceleration: 0.8 }).axles;
    expect(front!.heave).toBeGreaterThan(5);
    expect(rear!.heave).toBeLessThan(-5);
  });
});

describe('a car that does not stand', () => {
  it('is said to roll over where its centre of gravity is too high', () => {
    const found = equilibrium({ ...CAR, sprungCentreOfGravityHeight: 12_000 });
    if (found.status === 'rests') expect.fail('it rests');
    expectSame([found.cause, found.lateralAcceleration, found.last], ['unstable', null, null]);
    const [{ code, severity, values }] = found.diagnostics;
    expectSame([code, severity], ['rollsOver', 'conflict']);
    expectClose(values.required as number, ((341 + 388) * G * 12_000 * DEGREE) / 1000, {
      times: 8,
      scale: 1e4,
    });
    expect(sentence(found.diagnostics[0])).toContain('does not stand in roll');
  });

  it('falls over in a turn where its inner wheels have no load left, and says where', () => {
    const found = equilibrium(CAR, { lateralAcceleration: 4 });
    if (found.status === 'rests') expect.fail('it rests');
    expectSame(found.cause, 'fallsOver');
    const { front, rear } = found.last!.axles;
    expectWithin(front!.left.load.total + rear!.left.load.total, 0, 0.1);
    expectSame(found.last!.lateralAcceleration, found.lateralAcceleration);
  });

  it('names the wheel that comes to the end of its linkage', () => {
    const left = { springRate: 2, springForce: 500 };
    const found = equilibrium({ front: { ...FRONT, left }, sprungCentreOfGravityHeight: 300 });
    if (found.status === 'rests') expect.fail('it rests');
    expectSame([found.cause, found.wheel, found.axle], ['travelEnd', 'frontLeft', 'front']);
    expect(found.end!.travel).toBeGreaterThan(80);
  });

  it('is unstable where jacking lifts it off its springs', () => {
    const { damper: _damper, bumpStop: _stop, ...bare } = COILOVER;
    const left = { ...bare, springRate: 9 };
    const found = equilibrium(
      { front: { ...FRONT, left }, sprungCentreOfGravityHeight: 700 },
      { lateralAcceleration: 2 },
    );
    if (found.status === 'rests') expect.fail('it rests');
    expectSame(found.cause, 'unstable');
    expect(found.last!.axles.front!.heave).toBeLessThan(-90);
    expect(found.lateralAcceleration).toBeGreaterThan(0.8);
  });

  it('has an axle lifted by what lifts it', () => {
    const found = equilibrium(CAR, { downforce: { rear: -5000 } });
    if (found.status === 'rests') expect.fail('it rests');
    expectSame([found.cause, found.axle], ['axleLifted', 'rear']);
  });

  it('remarks a bar of more than three times the springs', () => {
    const bar = { ...BAR, torsionalStiffness: 8 * BAR.torsionalStiffness };
    const { diagnostics } = rest({ ...CAR, front: { ...CAR.front, linkage: axle({ left: CORNER, bar }) } });
    expectSame(
      diagnostics.map(({ code, path }) => [code, path]),
      [['barLeadsRollStiffness', 'front.linkage.bar']],
    );
    expect(sentence(diagnostics[0])).toContain('more than 3 times');
    expectSame(rest(CAR).diagnostics, []);
  });

  it('rolls as much on a given roll stiffness as on a bar that adds it', () => {
    const given = (stiffness: number) => ({
      ...CAR,
      front: { ...CAR.front, linkage: axle({ left: CORNER }), antiRollBarStiffness: stiffness },
    });
    // In the limit of no roll the bar of the axle and its share in the roll stiffness are the same.
    const bar = rest(CAR).axles.front!.rollStiffness!.bar;
    const still = rest(given(bar));
    expectWithin(still.axles.front!.rollStiffness!.bar, bar, 1e-9 * bar);
    const [one, other] = [CAR, given(bar)].map((car) => rest(car, { lateralAcceleration: 1e-3 }));
    expectWithin(other.roll / one.roll, 1, 1e-4);
    expect(rest(given(2 * bar), { lateralAcceleration: 0.8 }).roll).toBeLessThan(
      rest(given(bar), { lateralAcceleration: 0.8 }).roll,
    );
    expect(() => equilibrium({ ...CAR, front: { ...CAR.front, antiRollBarStiffness: 100 } })).toThrow(
      /a roll stiffness beside a bar/,
    );
  });

  it('of any corners, springs and heights comes to an end, in finite numbers', () => {
    const corners = wildCorners.map(doubleWishbone);
    fc.assert(
      fc.property(
        corners,
        corners,
        fc.double({ min: 5, max: 200, noNaN: true }),
        fc.double({ min: 200, max: 900, noNaN: true }),
        fc.double({ min: -2.5, max: 2.5, noNaN: true }),
        fc.constantFrom('proportional' as const, 'equal' as const),
        (front, rear, springRate, height, lateralAcceleration, lateralSplit) => {
          const wheels = { sprungMass: 330, unsprungMass: 30, left: { springRate }, tyreRate: 200 };
          const found = equilibrium(
            {
              front: { ...wheels, linkage: axle({ left: front }) },
              rear: { ...wheels, linkage: axle({ left: rear }) },
              sprungCentreOfGravityHeight: height,
            },
            { lateralAcceleration, lateralSplit },
          );
          JSON.stringify(found, (name, value) => {
            if (typeof value === 'number' && !Number.isFinite(value)) expect.fail(`${name} is ${value}`);
            return value;
          });
          expect(['rests', 'outOfReach']).toContain(found.status);
        },
      ),
      { numRuns: 100 },
    );
  });
});

/**
 * Springs between both wheels of an axle. Judges: rockers of equal arms and swing axles in closed form (elementary); the general solver on
 * a drawing of both corners; central differences of the energy; and the mirror image.
 */

import * as fc from 'fast-check';
import {
  axle,
  axleLimits,
  equilibrium,
  heaveRate,
  limits,
  perchMoves,
  type RollSpringInput,
  readCar,
  rollStiffness,
  sizeCoilovers,
  steadyCornering,
  sweep,
  sweepAxle,
} from 'jounce';
import { drive } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { car as carFile, GRAVITY } from '../coilover/cars.ts';
import { refusedFor } from '../support/refused.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR } from './car.ts';
import { besidePose, DIFFERENCED } from './central-differences.ts';
import { BAR, CORNER, PATCH, PIVOT, SWING_AXLE } from './roadster.ts';
import { bothOnRoad, ROCKERS, SHARE } from './rockers.ts';

const DEGREE = Math.PI / 180;

const THIRD = { on: 'rocker', mount: [375, 550], rate: 60 } as const;
/** From the top of the left rocker to the bottom of the right one. */
const ROLL = {
  on: 'rocker',
  mount: [375, 550],
  right: { on: 'rocker', mount: [375, 350] },
  rate: 45,
} as const;

/** On the arms of a double wishbone, unlike left and right. */
const ON_ARMS = {
  left: CORNER,
  bar: BAR,
  thirdSpring: {
    on: 'lowerArm',
    mount: [262, 268],
    right: { on: 'upperArm', mount: [300, 420] },
    rate: 70,
    preload: 900,
  },
  rollSpring: { on: 'lowerArm', mount: [250, 260], right: { on: 'lowerArm', mount: [240, 30] }, rate: 55 },
} as const;

describe('a third spring', () => {
  it('between rockers of equal arms has (2 s)^2 of its rate in heave, s the share of the arm at the rod', () => {
    const whole = axle({ left: ROCKERS, thirdSpring: THIRD });
    const [row] = sweepAxle(whole, { heave: [0], roll: [0] }).rows();
    expectClose(row.thirdSpringLength!, 750, { times: 4, scale: 750 });
    expectClose(row.thirdSpringRatio!, 2 * SHARE, { times: 64, scale: 1 });
    expectWithin(row.thirdSpringLengthByRoll!, 0, 1e-12);
    const spring = { rate: 0, force: 0 };
    // Without preload its force is 0, just in touch: a hair of bump, and it has its rate.
    const found = heaveRate(axle({ left: ROCKERS, thirdSpring: { ...THIRD, freeLength: 750.001 } }), {
      left: spring,
    })!;
    expectWithin(found.thirdSpring, 60 * (2 * SHARE) ** 2, 1e-3);
    expectSame(found.total, found.thirdSpring);
  });

  it('on swing axles shortens by 2 m / t per heave, m its height above the pivots, t from pivot to patch', () => {
    const mount = [160, 420] as const;
    const whole = axle({ left: SWING_AXLE, thirdSpring: { on: 'halfShaft', mount, rate: 60 } });
    const [row] = sweepAxle(whole, { heave: [0], roll: [0] }).rows();
    expectClose(row.thirdSpringRatio!, (2 * (mount[1] - PIVOT[1])) / (PATCH[0] - PIVOT[0]), {
      times: 64,
      scale: 1,
    });
  });

  it('is loose beyond its free length: then the axle is as without it', () => {
    const loose = { ...CAR.front, linkage: axle({ left: CORNER, bar: BAR, thirdSpring: GAP }) };
    const found = equilibrium({ ...CAR, front: loose }, { lateralAcceleration: 0.4 });
    const without = equilibrium(CAR, { lateralAcceleration: 0.4 });
    if (found.status !== 'rests' || without.status !== 'rests') throw new Error('no rest');
    expectSame(found.axles.front!.thirdSpring!.force, 0);
    expectSame(found.axles.front!.left.load.total, without.axles.front!.left.load.total);
  });
  const GAP = { on: 'lowerArm', mount: [262, 268], rate: 70, freeLength: 480 } as const;

  it('carries its part of a car that stands at ride height, and of downforce', () => {
    const preload = 1200;
    const thirdSpring = { on: 'lowerArm', mount: [262, 268], rate: 70, preload } as const;
    const car = { ...CAR, front: { ...CAR.front, linkage: axle({ left: CORNER, bar: BAR, thirdSpring }) } };
    const [row] = sweepAxle(car.front.linkage, { heave: [0], roll: [0] }).rows();
    const still = equilibrium(car);
    if (still.status !== 'rests') throw new Error('no rest');
    const { heave, thirdSpring: sprung, left, right } = still.axles.front!;
    expectWithin(heave, 0, 1e-9);
    expectWithin(sprung!.force, preload, 1e-7);
    for (const { load } of [left, right]) {
      expectWithin(load.thirdSpring, (preload * row.thirdSpringRatio!) / 2, 1e-7);
      const { spring, bumpStop, gas, bar, thirdSpring, rollSpring, damperEnd } = load;
      expectWithin(load.elastic, spring + bumpStop + gas + bar + thirdSpring + rollSpring + damperEnd, 1e-9);
    }
    const pressed = (one: typeof car | typeof CAR) => {
      const found = equilibrium(one, { downforce: { front: 2000 } });
      return found.status === 'rests' ? found.axles.front!.heave : Number.NaN;
    };
    expect(pressed(car)).toBeLessThan(pressed(CAR));
  });

  it('is remarked where heave does not shorten it', () => {
    const thirdSpring = { on: 'lowerArm', mount: [262, 40], rate: 70 } as const;
    const front = { ...CAR.front, linkage: axle({ left: CORNER, bar: BAR, thirdSpring }) };
    expect(equilibrium({ ...CAR, front }).diagnostics.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'thirdSpringNotShortened front.linkage.thirdSpring',
    ]);
  });
});

describe('a third spring at an end of its lengths', () => {
  /** One axle on rockers of equal arms, its wheel centres going as its contact patches do. */
  const onRockers = (lengths: object) => ({
    front: {
      linkage: axle({ left: ROCKERS, thirdSpring: { ...THIRD, preload: 400, ...lengths } }),
      sprungMass: 320,
      unsprungMass: 25,
      left: { springRate: 60 },
    },
    sprungCentreOfGravityHeight: 300,
  });
  const atRest = (car: Parameters<typeof equilibrium>[0], loads: Parameters<typeof equilibrium>[1]) => {
    const found = equilibrium(car, loads);
    if (found.status !== 'rests') expect.fail(`${found.cause} at ${found.lateralAcceleration}`);
    return found;
  };

  it.each([
    ['compressed', { compressedLength: 738 }, 738, 2400, 1],
    ['extended', { extendedLength: 756 }, 756, -1200, -1],
  ] as const)(
    '%s, holds the axle there and bears what its springs do not',
    (end, lengths, length, downforce, way) => {
      const car = onRockers(lengths);
      const { heave, thirdSpring, left, right, rollStiffness } = atRest(car, {
        downforce: { front: downforce },
      }).axles.front!;
      expectSame(thirdSpring!.end, end);
      expectWithin(thirdSpring!.length, length, 1e-9);
      expectSame(rollStiffness, null);
      const [row] = sweepAxle(car.front.linkage, { heave: [heave], roll: [0] }).rows();
      expectWithin(row.thirdSpringLength!, length, 1e-9);
      // By virtual work of heave: all that is sprung, on both coilovers, the spring and its end.
      const sprung = 320 * GRAVITY + downforce;
      const { springForce, installationRatio } = left;
      const wanted =
        (sprung - 2 * springForce * installationRatio) / row.thirdSpringRatio! - thirdSpring!.force;
      expectClose(thirdSpring!.endForce, wanted, { times: 1e5, scale: sprung });
      expect(way * wanted).toBeGreaterThan(100);
      const half = (row.thirdSpringRatio! / 2) * (thirdSpring!.force + thirdSpring!.endForce);
      for (const { load } of [left, right]) expectWithin(load.thirdSpring, half, 1e-7);
      // With less it is free again.
      const free = atRest(car, { downforce: { front: downforce / 8 } }).axles.front!;
      expectSame([free.thirdSpring!.end, free.thirdSpring!.endForce], ['free', 0]);
      expect(way * free.heave).toBeLessThan(way * heave);
    },
  );

  it('is come to and left in a turn where its length says, and is a limit of no wheel', () => {
    const lengths = { compressedLength: 581.95, extendedLength: 584 };
    const linkage = axle({ ...ON_ARMS, thirdSpring: { ...ON_ARMS.thirdSpring, ...lengths } });
    const car = { ...CAR, front: { ...CAR.front, linkage } };
    const { events, states } = steadyCornering(car, { lateralAccelerations: [-0.6, -0.3, 0, 0.3, 0.6] });
    const found = events.filter(({ wheel }) => wheel === null);
    expectSame(
      new Set(found.map(({ event }) => event)),
      new Set(['thirdSpringCompressed', 'thirdSpringExtended']),
    );
    for (const { lateralAcceleration: a, axle: name, event, begins } of found) {
      expectSame(name, 'front');
      const beside = [1, -1].map((side) => {
        const at = atRest(car, { lateralAcceleration: a + side * 1e-6 * Math.sign(a) });
        return at.axles.front!.thirdSpring!;
      });
      const end = event === 'thirdSpringCompressed' ? 'compressed' : 'extended';
      expectSame(
        beside.map((one) => one.end === end),
        [begins, !begins],
      );
      for (const { length } of beside) expectWithin(length, lengths[`${end}Length`], 1e-3);
    }
    for (const state of states) {
      const { left, right } = state.axles.front!;
      // The loads of both wheels carry the axle, whatever holds it.
      const weight = (CAR.front.sprungMass + 2 * CAR.front.unsprungMass) * GRAVITY;
      expectWithin(left.load.total + right.load.total, weight, 1e-6);
      expectSame([left.damper, right.damper], ['free', 'free']);
    }
    // Held, it takes no part in what moves: no stiffness is given there.
    const held = states.filter(({ axles }) => axles.front!.thirdSpring!.end !== 'free');
    expect(held.length).toBeGreaterThan(0);
    for (const { axles } of held)
      expectSame([axles.front!.rollStiffness, axles.front!.rollDamping], [null, null]);
  });

  it('leaves no setting of the perches for a pose beyond it', () => {
    const car = onRockers({ compressedLength: 738 });
    expectSame(perchMoves(car, { heave: { front: 20 } }), { status: 'outOfReach', wheel: null, wheels: {} });
    expectSame(perchMoves(car, { heave: { front: 5 } }).status, 'found');
  });
});

describe('a roll spring', () => {
  it('across rockers of equal arms is still in heave, and in roll moves by 2 s t / 2', () => {
    const whole = axle({ left: ROCKERS, rollSpring: ROLL });
    const [row] = sweepAxle(whole, { heave: [0], roll: [0] }).rows();
    // Its ends move across the car alone, at the slope of the spring: the cosine is that of its line.
    const cosine = 750 / Math.hypot(750, 200);
    expectWithin(row.rollSpringLengthByHeave!, 0, 1e-12);
    expectClose(Math.abs(row.rollSpringLengthByRoll!), 2 * SHARE * 720 * DEGREE * cosine, {
      times: 64,
      scale: 20,
    });
    const stiffness = rollStiffness(whole, { left: { rate: 1e-9, force: 0 } })!;
    // N·mm per radian are N·m per degree times 1000 and 180 / pi.
    const wanted = (45 * (2 * SHARE * 720 * cosine) ** 2 * DEGREE) / 1000;
    expectClose(stiffness.rollSpring, wanted, { times: 1e4, scale: wanted });
  });

  it('pushes and pulls, and is remarked where heave moves it', () => {
    const turn = (a: number, rollSpring: Parameters<typeof axle>[0]['rollSpring']) => {
      const front = { ...CAR.front, linkage: axle({ left: CORNER, rollSpring }) };
      const found = equilibrium({ ...CAR, front }, { lateralAcceleration: a });
      if (found.status !== 'rests') throw new Error('no rest');
      return found;
    };
    const [left, right] = [0.3, -0.3].map((a) => turn(a, ON_ARMS.rollSpring).axles.front!.rollSpring!.force);
    expectSame([Math.sign(left), Math.sign(right)].sort(), [-1, 1]);
    const both = { ...ON_ARMS.rollSpring, right: { on: 'lowerArm', mount: [250, 260] } } as const;
    expect(turn(0.1, both).diagnostics.map(({ code }) => code)).toContain('rollSpringMovesInHeave');
  });
});

describe('what is between both wheels', () => {
  it('is where the general solver puts it on a drawing of both corners', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -25, max: 25, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (heave, roll) => {
          const input = { left: ROCKERS, thirdSpring: THIRD, rollSpring: ROLL };
          const [row] = sweepAxle(axle(input), { heave: [heave], roll: [roll] }).rows();
          const whole = bothOnRoad(() => ({
            points: { top: THIRD.mount, bottom: ROLL.right.mount },
            onRocker: ['top', 'bottom'],
          }));
          const { drawing, shortfall } = drive(whole, [
            { driver: { y: 'post' }, to: heave },
            { driver: { turn: 'road' }, to: -roll * DEGREE },
          ]);
          expectSame([...shortfall], [0, 0]);
          const { Ltop, Rtop, Rbottom } = drawing.points;
          expectWithin(row.thirdSpringLength!, Math.hypot(Ltop[0] - Rtop[0], Ltop[1] - Rtop[1]), 1e-9);
          expectWithin(row.rollSpringLength!, Math.hypot(Ltop[0] - Rbottom[0], Ltop[1] - Rbottom[1]), 1e-9);
        },
      ),
      { numRuns: 10 },
    );
  });

  it('has exact derivatives by heave and by roll', () => {
    const whole = axle(ON_ARMS);
    for (const [heave, roll] of [
      [0, 0],
      [18, 2.5],
      [-20, -2],
    ]) {
      const { row, slopes } = besidePose(whole, heave, roll);
      for (const name of ['thirdSpringLength', 'rollSpringLength'] as const) {
        const given = name === 'thirdSpringLength' ? -row.thirdSpringRatio! : row.rollSpringLengthByHeave!;
        expectWithin(given, slopes(name).byHeave, DIFFERENCED);
        expectWithin(row[`${name}ByRoll`]!, slopes(name).byRoll, DIFFERENCED);
      }
    }
  });

  it('has of roll stiffness and heave rate what the energy has, the load held', () => {
    const whole = axle(ON_ARMS);
    const { thirdSpring, rollSpring } = whole;
    const [left, right] = [
      { rate: 42, free: 420 },
      { rate: 55, free: 402 },
    ];
    const energy = (heave: number, roll: number) => {
      const [row] = sweepAxle(whole, { heave: [heave], roll: [roll] }).rows();
      const half = (rate: number, by: number) => 0.5 * rate * by * by;
      const twist = row.barTwist! * DEGREE;
      return (
        half(left.rate, left.free - row.leftShockLength) +
        half(right.rate, right.free - row.rightShockLength) +
        half((BAR.torsionalStiffness * 1000) / DEGREE, twist) +
        half(thirdSpring!.rate, Math.max(0, thirdSpring!.freeLength - row.thirdSpringLength!)) +
        half(rollSpring!.rate, rollSpring!.freeLength - row.rollSpringLength!)
      );
    };
    for (const [heave, roll] of [
      [0, 0],
      [15, 1],
      [10, -2.5],
    ]) {
      const [row] = sweepAxle(whole, { heave: [heave], roll: [roll] }).rows();
      expect(row.thirdSpringLength!).toBeLessThan(thirdSpring!.freeLength);
      const at = ({ rate, free }: typeof left, length: number) => ({ rate, force: rate * (free - length) });
      const pose = {
        heave,
        roll,
        left: at(left, row.leftShockLength),
        right: at(right, row.rightShockLength),
      };
      // By h, the height of the middle of the car, which is -heave cos(roll), and by roll.
      const [dh, dp] = [0.5, 0.05];
      const height = -heave * Math.cos(roll * DEGREE);
      const U = (h: number, p: number) => energy(-h / Math.cos(p * DEGREE), p);
      const middle = U(height, roll);
      const pp = (U(height, roll + dp) - 2 * middle + U(height, roll - dp)) / dp ** 2;
      const hh = (U(height + dh, roll) - 2 * middle + U(height - dh, roll)) / dh ** 2;
      const corners = [1, -1].map((s) => U(height + dh, roll + s * dp) - U(height - dh, roll + s * dp));
      const hp = (corners[0] - corners[1]) / (4 * dh * dp);
      const stiffness = rollStiffness(whole, pose)!;
      const rate = heaveRate(whole, pose)!;
      expectWithin(stiffness.total / ((pp - (hp * hp) / hh) / 1000 / DEGREE), 1, 1e-4);
      expectWithin(rate.total / hh, 1, 1e-4);
      for (const { total, ...parts } of [stiffness, rate]) {
        const sum = Object.values(parts).reduce((all, part) => all + part, 0);
        expectClose(sum, total, { times: 16, scale: total });
      }
    }
  });

  it('leaned the other way, with its ends exchanged, is the mirror image to the bit', () => {
    const { on, mount, right, rate } = ON_ARMS.rollSpring;
    const image: RollSpringInput = { on: right.on, mount: right.mount, right: { on, mount }, rate };
    const at = (rollSpring: RollSpringInput, roll: number) =>
      sweepAxle(axle({ left: CORNER, rollSpring, thirdSpring: { on, mount, rate } }), {
        heave: [-20, 10],
        roll: [roll],
      }).rows();
    const mirrored = at(image, -2.3);
    for (const [k, row] of at(ON_ARMS.rollSpring, 2.3).entries()) {
      for (const name of ['rollSpringLength', 'rollSpringLengthByHeave', 'thirdSpringLength'] as const)
        expectSame(row[name], mirrored[k][name]);
      expectSame(row.rollSpringLengthByRoll, -mirrored[k].rollSpringLengthByRoll!);
    }
  });

  it('gives a car rest in a turn where no work is left: energy and lateral forces along any motion', () => {
    const front = { ...CAR.front, linkage: axle(ON_ARMS), tyreRate: undefined, unsprungMass: 0 };
    const alone = {
      front: { ...front, left: { springRate: 48, springForce: 3600 } },
      sprungCentreOfGravityHeight: CAR.sprungCentreOfGravityHeight,
    };
    const { tyreRate: _, ...rigid } = alone.front;
    const found = equilibrium({ ...alone, front: rigid }, { lateralAcceleration: 0.3 });
    if (found.status !== 'rests') throw new Error('no rest');
    const { heave, left, right, thirdSpring, rollSpring, barTwist } = found.axles.front!;
    const whole = front.linkage;
    const [row] = sweepAxle(whole, { heave: [heave], roll: [found.roll] }).rows();
    expectWithin(thirdSpring!.length, row.thirdSpringLength!, 1e-8);
    expectWithin(rollSpring!.length, row.rollSpringLength!, 1e-8);
    expectWithin(barTwist!, row.barTwist!, 1e-9);
    // The elastic load of each wheel does the work of its springs along its travel, the other wheel held.
    const torque = (BAR.torsionalStiffness * barTwist! * 1000) as number;
    const step = 1e-4;
    const sides = [
      { side: 'left', wheel: left },
      { side: 'right', wheel: right },
    ] as const;
    for (const { side, wheel } of sides) {
      // Heave and roll that move this wheel alone: exact slopes of the sweep.
      const other = side === 'left' ? 'right' : 'left';
      const byHeave = -row[`${other}TravelByRoll`];
      const byRoll = row[`${other}TravelByHeave`];
      const moved = [1, -1].map(
        (way) =>
          sweepAxle(whole, {
            heave: [heave + way * step * byHeave],
            roll: [found.roll + way * step * byRoll],
          }).rows()[0],
      );
      const by = (of: (one: typeof row) => number) => of(moved[0]) - of(moved[1]);
      const work =
        torque * by(({ barTwist }) => barTwist! * DEGREE) -
        thirdSpring!.force * by(({ thirdSpringLength }) => thirdSpringLength!) -
        rollSpring!.force * by(({ rollSpringLength }) => rollSpringLength!) -
        wheel.springForce * by((one) => one[`${side}ShockLength`]);
      const travel = by((one) => one[`${side}Travel`]);
      const slope =
        (sweep(CORNER, { bump: 90, droop: 90 }).at(wheel.travel + 1e-3).contactPatchY! -
          sweep(CORNER, { bump: 90, droop: 90 }).at(wheel.travel - 1e-3).contactPatchY!) /
        2e-3;
      const way = side === 'left' ? 1 : -1;
      const normal = Math.cos(found.roll * DEGREE) + way * slope * Math.sin(found.roll * DEGREE);
      expectWithin((wheel.load.elastic * normal * travel) / work, 1, 1e-5);
    }
  });

  it('of any rates and places leaves a car an end in finite numbers', () => {
    const coordinate = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const mount = fc.tuple(coordinate(120, 500), coordinate(20, 500));
    const on = fc.constantFrom('lowerArm', 'upperArm', 'upright');
    const end = fc.record({ on, mount });
    fc.assert(
      fc.property(
        end,
        end,
        end,
        coordinate(0.5, 400),
        coordinate(0, 6000),
        coordinate(0.5, 400),
        coordinate(-1.2, 1.2),
        fc.tuple(coordinate(0.1, 60), coordinate(0.1, 60)),
        (third, from, to, rate, preload, rollRate, lateralAcceleration, [shorter, longer]) => {
          const drawn = 2 * third.mount[0];
          const ends = {
            compressedLength: Math.max(1, drawn - shorter),
            extendedLength: drawn + longer,
          };
          const linkage = axle({
            left: CORNER,
            bar: BAR,
            thirdSpring: { ...third, rate, preload, ...ends },
            rollSpring: { ...from, right: to, rate: rollRate },
          });
          const found = equilibrium({ ...CAR, front: { ...CAR.front, linkage } }, { lateralAcceleration });
          const numbers: number[] = [];
          JSON.stringify(found, (_, value) => {
            if (typeof value === 'number') numbers.push(value);
            return value;
          });
          expect(numbers.every(Number.isFinite)).toBe(true);
          expect(['rests', 'outOfReach']).toContain(found.status);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('ends the poses of an axle where the third spring is at an end of its lengths', () => {
    const thirdSpring = { ...THIRD, compressedLength: 725, extendedLength: 770 };
    const whole = axle({ left: ROCKERS, thirdSpring });
    const alone = limits(ROCKERS, { damper: { extendedLength: 335, compressedLength: 255 } });
    const found = axleLimits(whole, { left: alone, roll: [0, 2, -2] });
    for (const { roll, bump, droop } of found.ranges) {
      expectSame([bump!.cause, droop!.cause], ['thirdSpringCompressed', 'thirdSpringExtended']);
      expectSame([bump!.side, bump!.travel], [null, null]);
      const rows = sweepAxle(whole, { heave: [bump!.heave, droop!.heave], roll: [roll] }).rows();
      expectWithin(rows[0].thirdSpringLength!, 725, 1e-8);
      expectWithin(rows[1].thirdSpringLength!, 770, 1e-8);
    }
    const without = axleLimits(axle({ left: ROCKERS }), { left: alone, roll: [0] });
    expect(found.leftUp!.roll).toBeLessThanOrEqual(without.leftUp!.roll);
    expectWithin(found.leftUp!.roll, -found.rightUp!.roll, 1e-9);
    const [far] = axleLimits(whole, { left: alone, roll: [found.leftUp!.roll] }).ranges;
    expectWithin(far.bump!.heave, far.droop!.heave, 1e-7);
  });

  it('is refused with its place where it can be none', () => {
    const of = (thirdSpring: object, rollSpring?: object) => () =>
      axle({ left: CORNER, thirdSpring, ...(rollSpring === undefined ? {} : { rollSpring }) } as never);
    const third = { on: 'lowerArm', mount: [262, 268], rate: 70 };
    expectSame(refusedFor(of({ ...third, on: 'rocker' })), ['unknownName thirdSpring.on']);
    expectSame(refusedFor(of({ ...third, preload: 10, freeLength: 500 })), ['moreThanOneOf']);
    expectSame(refusedFor(of({ ...third, rate: -1 })), ['outOfRange rate']);
    expectSame(refusedFor(of({ ...third, mount: [0, 268] })), ['springWithoutLength mount']);
    expectSame(refusedFor(of({ ...third, compressedLength: 530 })), ['springNotAtRide compressedLength']);
    expectSame(refusedFor(of({ ...third, extendedLength: 500 })), ['springNotAtRide extendedLength']);
    const roll = { ...third, right: { on: 'rocker', mount: [262, 30] } };
    expectSame(refusedFor(of(third, roll)), ['unknownName rollSpring.right.on']);
    expectSame(refusedFor(of(third, { ...third })), ['missing right']);
    const file = carFile(({ corners }) => {
      corners.front.thirdSpring = { ...third, on: 'rod', compressedLength: 530 };
      corners.front.rollSpring = { ...roll, rate: 0 };
    });
    expectSame(refusedFor(() => readCar(file)).sort(), [
      'notAPartOfCorner corners.front.rollSpring.right.on',
      'notAPartOfCorner corners.front.thirdSpring.on',
      'outOfRange corners.front.rollSpring.rate',
      'springNotAtRide corners.front.thirdSpring.compressedLength',
    ]);
  });
});

describe('a car file with springs between its wheels', () => {
  it('has them in its steady corner, where the car stands at ride height without a turn', () => {
    const sizing = sizeCoilovers(
      readCar(
        carFile((file) => {
          const { corners, travelCases } = file;
          corners.front.thirdSpring = { on: 'lowerArm', mount: [275, 280], rate: 60, preload: 800 };
          corners.front.rollSpring = { ...ON_ARMS.rollSpring };
          travelCases.lateralAcceleration = 1e-6;
          delete file.downforce;
        }),
      ),
    );
    const found = sizing.steadyCorner!.bySplit.proportional;
    if (found.status !== 'rests') throw new Error('no rest');
    // A corner by itself has the unsprung weight at the contact patch: 0.2 % of it is on the coilover here.
    expectWithin(found.axles.front!.heave, 0, 0.05);
    expect(found.axles.front!.rollSpring).not.toBeNull();
    expect(found.axles.rear!.thirdSpring).toBeNull();
  });
});

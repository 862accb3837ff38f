/**
 * A car sized with springs between its wheels. Judges: the sum of rates and of loads on rockers of equal arms, in closed form (elementary);
 * central differences of the energy over heave; the roll stiffness of the whole axle; and a whole car at rest under downforce.
 */
import * as fc from 'fast-check';
import {
  type AxleLinkage,
  axle as axleOf,
  heaveRate,
  orderSheet,
  readCar,
  reportSheet,
  rollStiffness,
  type Sizing,
  sentence,
  sheetMarkdown,
  sizeCoilovers,
  sweepAxle,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { wheelAt } from '../../src/coilover/wheel.ts';
import { HALF_TRACK, ROCKERS, SHARE } from '../axle/rockers.ts';
import type { Json } from '../document/support.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { car, frontState, GRAVITY, valueIn } from './cars.ts';

/** A car whose front corners are the rockers of equal arms. */
const onRockers = (change: (front: Json, document: Json) => void = () => {}) =>
  car((document) => {
    const { limits: _, ...front } = document.corners.front;
    const { kind, lowerArm, upperArm, wheel, rod, rocker, coilover } = ROCKERS;
    document.corners.front = {
      ...front,
      ...structuredClone({ kind, lowerArm, upperArm, rod, rocker }),
      wheel: { centre: wheel.centre, contactPatch: wheel.contactPatch },
      coilover: { rockerMount: coilover.rockerMount, chassisMount: coilover.chassisMount },
      limits: { damper: { extendedLength: 330, compressedLength: 240 } },
    };
    delete document.corners.front.sizing.bumpStopTable;
    change(document.corners.front, document);
  });

/** Between the tops of both rockers: it shortens by 2 s of heave. */
const THIRD = { on: 'rocker', mount: [375, 550], rate: 12 };
const PRELOAD = 900;
const ROLL = { on: 'rocker', mount: [375, 550], right: { on: 'rocker', mount: [375, 350] }, rate: 45 };
/** A hair shorter than free: it pushes with next to nothing. */
const TOUCHING = { ...THIRD, freeLength: 750 + 1e-8 };

const sized = (document: Json): Sizing => sizeCoilovers(readCar(document));
const front = (document: Json) => sized(document).axles[0];
/** Code and place of all that is said of a sizing, whose words have all their values. */
const codes = ({ conflicts, checks, assumptions }: Sizing) =>
  [...conflicts, ...checks, ...assumptions].map((one) => {
    expect(sentence(one)).not.toMatch(/undefined|NaN|null/);
    return `${one.code} ${one.path}`;
  });

/** Energy of one wheel and its half of what is between both, N mm, both wheels at a travel; without a helper. */
function energyOf(document: Json) {
  const state = frontState(document);
  const { linkage } = state.given;
  const { spring, loose } = state.coilover!;
  const [{ rate }] = spring.springs;
  return (travel: number) => {
    const [row] = sweepAxle(linkage, { heave: [travel], roll: [0] }).rows();
    const half = (k: number, by: number) => 0.5 * k * by * by;
    return (
      half(rate, Math.max(0, loose - row.leftShockLength)) -
      state.coilover!.gasForce * row.leftShockLength +
      half(THIRD.rate, Math.max(0, linkage.thirdSpring!.freeLength - row.thirdSpringLength!)) / 2 +
      half(
        linkage.rollSpring?.rate ?? 0,
        (linkage.rollSpring?.freeLength ?? 0) - (row.rollSpringLength ?? 0),
      ) /
        2
    );
  };
}

describe('the coilovers of an axle with a third spring', () => {
  it('get what it leaves of the required wheel rate: k (2 s)^2 / 2 of it is its own', () => {
    const without = front(onRockers());
    const beside = front(onRockers((corner) => (corner.thirdSpring = TOUCHING)));
    const own = (THIRD.rate * (2 * SHARE) ** 2) / 2;
    const ratio = valueIn(without, 'installationRatio');
    const [alone, left] = [without, beside].map((axle) => valueIn(axle, 'requiredSpringRate'));
    expectWithin(alone - left, own / ratio ** 2, 1e-6);
    expectWithin(valueIn(beside, 'thirdSpringWheelRate'), own, 1e-6);
    expectWithin(valueIn(beside, 'thirdSpringLoad'), 0, 1e-6);
    // What is required of the wheel stays, and so does what it stands on.
    expectSame(valueIn(beside, 'requiredWheelRate'), valueIn(without, 'requiredWheelRate'));
    expectWithin(valueIn(beside, 'staticAxialForce'), valueIn(without, 'staticAxialForce'), 1e-6);
  });

  it('have what it leaves of the weight: P s of it is carried by a preload of P', () => {
    const beside = front(onRockers((corner) => (corner.thirdSpring = { ...THIRD, preload: PRELOAD })));
    const weight = valueIn(beside, 'sprungMass') * GRAVITY;
    const ratio = valueIn(beside, 'installationRatio');
    expectWithin(valueIn(beside, 'staticTravel'), 0, 1e-12);
    expectClose(valueIn(beside, 'thirdSpringLoad'), PRELOAD * SHARE, { times: 64, scale: PRELOAD });
    expectClose(valueIn(beside, 'staticAxialForce'), (weight - PRELOAD * SHARE) / ratio, {
      times: 256,
      scale: weight / ratio,
    });
  });

  it('give with it the rate that is required, as the whole axle has it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 12, noNaN: true }),
        fc.double({ min: 0, max: 600, noNaN: true }),
        fc.double({ min: 1.4, max: 2.4, noNaN: true }),
        (rate, preload, frequency) => {
          const document = onRockers((corner) => {
            corner.thirdSpring = { ...THIRD, rate, preload: preload + 1 };
            corner.sizing.target = { frequency };
          });
          const state = frontState(document);
          const { coilover, shock, mass, required } = state;
          const { force } = wheelAt(shock, coilover!, 0);
          const spring = { rate: required.springRate!, force };
          const whole = heaveRate(state.given.linkage, { left: spring })!;
          const wanted = mass!.sprung * (2 * Math.PI * frequency) ** 2 * 1e-3;
          expectClose(whole.total / 2, wanted, { times: 1e4, scale: wanted });
        },
      ),
      { numRuns: 20 },
    );
  });

  it('bear and stiffen the wheel as the energy does over heave, also where it is loose', () => {
    const kinds: Json[] = [
      { thirdSpring: { ...THIRD, preload: PRELOAD } },
      { thirdSpring: { ...THIRD, freeLength: 740 }, rollSpring: ROLL },
      { thirdSpring: { ...THIRD, right: { on: 'lowerArm', mount: [420, 210] }, preload: 400 } },
    ];
    for (const springs of kinds) {
      const document = onRockers((corner) => Object.assign(corner, springs));
      const { shock, coilover } = frontState(document);
      const energy = energyOf(document);
      for (const travel of [-25, 4, 30]) {
        const h = 0.02;
        const [before, at, after] = [travel - h, travel, travel + h].map(energy);
        const { load, rate } = wheelAt(shock, coilover!, travel);
        expectWithin(load / ((after - before) / (2 * h)), 1, 1e-6);
        expectWithin(rate / ((after - 2 * at + before) / h ** 2), 1, 1e-4);
      }
    }
  });

  it('come to rest under downforce where the whole car does', () => {
    const sizing = sized(
      onRockers((corner, document) => {
        corner.thirdSpring = { ...THIRD, preload: PRELOAD };
        delete corner.sizing.tyreRate;
        delete document.corners.rear.sizing.tyreRate;
        document.travelCases.lateralAcceleration = 1e-9;
      }),
    );
    const found = sizing.steadyCorner!.bySplit.proportional;
    if (found.status !== 'rests') throw new Error('no rest');
    const top = sizing.axles[0].speedRows.at(-1)!;
    expectWithin(found.axles.front!.heave, top.travel!, 1e-9);
    expect(top.travel!).toBeGreaterThan(1);
    expectWithin(found.axles.front!.left.springForce, found.axles.front!.right.springForce, 1e-3);
  });

  it('roll on springs of their own: the roll stiffness is that of the whole axle without its 4 W h', () => {
    const document = onRockers((corner) => {
      corner.upperArm.outer = [640, 385];
      corner.thirdSpring = { ...THIRD, preload: PRELOAD };
      corner.rollSpring = ROLL;
    });
    const state = frontState(document);
    const { shock, coilover } = state;
    const { force, rate } = wheelAt({ ...shock, across: null }, coilover!, 0);
    const { ratio, slope } = shock.at(0);
    const spring = { rate: (rate - force * slope) / ratio ** 2, force };
    const whole = rollStiffness(state.given.linkage as AxleLinkage, { left: spring })!;
    const axle = front(document);
    const height = valueIn(axle, 'rollCentreHeight');
    expect(Math.abs(height)).toBeGreaterThan(10);
    const perDegree = (Math.PI / 180) * 1e-3;
    const parts = whole.springs + whole.changingRatio + whole.thirdSpring + whole.rollSpring;
    // Each wheel bears the same: W of the third spring, on a patch that moves across by h z / y.
    const wanted = parts - 4 * valueIn(axle, 'thirdSpringLoad') * height * perDegree;
    const at = wheelAt(shock, coilover!, 0);
    const half = shock.patch(0).y;
    expectClose(at.rollRate * 2 * half ** 2 * perDegree, wanted, { times: 1e5, scale: wanted });
    expectClose(valueIn(axle, 'rollSpringStiffness'), whole.rollSpring, { times: 1e5, scale: wanted });
    expectWithin(half, HALF_TRACK, 1e-9);
  });

  it('load the joints beside it: in every case all that pushes on the corner is in balance', () => {
    const axle = front(
      onRockers((corner) => {
        corner.thirdSpring = { ...THIRD, preload: PRELOAD };
        corner.rollSpring = ROLL;
        corner.limits.bumpStop = { height: 30, solidHeight: 10 };
      }),
    );
    const linkage = axleOf({
      left: ROCKERS,
      thirdSpring: { ...THIRD, preload: PRELOAD },
      rollSpring: ROLL,
    } as never);
    const { cases } = axle.forces!;
    const [still] = cases;
    expectClose(still.shock.total, valueIn(axle, 'staticAxialForce'), {
      times: 1e6,
      scale: still.shock.total,
    });
    expectWithin(still.shock.metalContact, 0, 1e-6);
    expect(axle.forces!.cautions.map(({ code }) => code)).toContain('bothWheelsAlike');
    for (const { travel, tyre, chassis } of cases) {
      // Pushed along the lines from end to end, both rockers turned alike: by the third spring outward, by the roll spring up or down too.
      const [row] = sweepAxle(linkage, { heave: [travel], roll: [0] }).rows();
      const third = THIRD.rate * Math.max(0, linkage.thirdSpring!.freeLength - row.thirdSpringLength!);
      const roll = ROLL.rate * (linkage.rollSpring!.freeLength - row.rollSpringLength!);
      const [outward, up] = [
        third + roll * leanOf(row.rollSpringLength!).out,
        roll * leanOf(row.rollSpringLength!).up,
      ];
      const sum = Object.values(chassis).reduce<[number, number]>(
        ([y, z], force) => [y + force![0], z + force![1]],
        [0, 0],
      );
      const [side, load] = tyre ?? [0, 0];
      expectWithin(sum[0], side + outward, 1e-6);
      expectWithin(sum[1], load - 30 * GRAVITY + up, 1e-6);
    }
  });
  /** Its ends go opposite ways across the car in heave: between both rockers the roll spring keeps 2 x 375 mm. */
  const leanOf = (length: number) => ({ out: 750 / length, up: Math.sqrt(length ** 2 - 750 ** 2) / length });

  it('are damped with the damper beside it: c (2 s)^2 / 2 of the damping is its own', () => {
    const damping = 800;
    const beside = front(onRockers((corner) => (corner.thirdSpring = { ...TOUCHING, damping })));
    const [c, ratio, rate, mass, target] = [
      'meanDamping',
      'installationRatio',
      'wheelRate',
      'sprungMass',
      'staticDampingRatio',
    ].map((name) => valueIn(beside, name));
    const critical = 2 * Math.sqrt(rate * 1000 * mass);
    expectClose((c * ratio ** 2 + (damping * (2 * SHARE) ** 2) / 2) / critical, target, {
      times: 256,
      scale: 1,
    });
    expectClose(target, 0.3, { times: 64, scale: 1 });
  });
});

describe('order and report of an axle with springs between its wheels', () => {
  it('say what they take, with their shares', () => {
    const sizing = sized(
      onRockers((corner) => {
        corner.thirdSpring = { ...THIRD, preload: PRELOAD };
        corner.rollSpring = ROLL;
      }),
    );
    const [axle] = sizing.axles;
    const share = (part: number, whole: number) => `${((100 * part) / whole).toFixed(0)} %`;
    const load = share(valueIn(axle, 'thirdSpringLoad'), valueIn(axle, 'sprungMass') * GRAVITY);
    const rate = share(valueIn(axle, 'thirdSpringWheelRate'), valueIn(axle, 'wheelRate'));
    const order = sheetMarkdown(orderSheet(sizing));
    expect(order).toMatch(new RegExp(`of it from the third spring \\| [\\d.]+ N/mm, ${rate} `));
    expect(order).toMatch(new RegExp(`third spring bears, each wheel \\| 450 N, ${load} `));
    expect(order).toMatch(/\| roll spring \| \d+ N·m\/deg /);
    const report = sheetMarkdown(reportSheet(sizing));
    expect(report).toContain(`450 N (101 lbf), ${load} of the sprung load`);
    expect(report).toContain('The roll spring adds ');
    expect(sheetMarkdown(orderSheet(sized(onRockers())))).not.toMatch(/third spring|roll spring/);
  });
});

describe('a third spring that does not do with its coilovers', () => {
  const told = (thirdSpring: Json, more: (front: Json, document: Json) => void = () => {}) =>
    codes(
      sized(
        onRockers((corner, document) => {
          corner.thirdSpring = thirdSpring;
          more(corner, document);
        }),
      ),
    );

  it('leaves them no rate, or no load', () => {
    expect(told({ ...TOUCHING, rate: 60 })).toContain('thirdSpringTakesAll corners.front.thirdSpring.rate');
    expect(told({ ...THIRD, preload: 6000 })).toContain('thirdSpringCarriesAll corners.front.thirdSpring');
    // What it may give is told: just less than that leaves a spring.
    const { conflicts } = sized(onRockers((corner) => (corner.thirdSpring = { ...TOUCHING, rate: 60 })));
    const { max } = conflicts.find(({ code }) => code === 'thirdSpringTakesAll')!.values;
    const rate = (2 * Number(max)) / (2 * SHARE) ** 2;
    const just = front(onRockers((corner) => (corner.thirdSpring = { ...TOUCHING, rate: rate - 1e-3 })));
    expect(valueIn(just, 'requiredSpringRate')).toBeGreaterThan(0);
    expectWithin(valueIn(just, 'requiredSpringRate'), 0, 0.01);
  });

  it('just touches at ride height, where it has two rates', () => {
    const loose = onRockers((corner) => (corner.thirdSpring = THIRD));
    expect(codes(sized(loose))).toContain('thirdSpringJustLoose corners.front.thirdSpring');
    expectSame(valueIn(front(loose), 'thirdSpringWheelRate'), 0);
    expectSame(
      valueIn(front(loose), 'requiredSpringRate'),
      valueIn(front(onRockers()), 'requiredSpringRate'),
    );
    expect(told({ ...THIRD, freeLength: 740 }).join()).not.toContain('thirdSpringJustLoose');
  });

  it('stands unlike at its two ends, where left and right have their own part of the load', () => {
    const uneven = { ...THIRD, preload: PRELOAD, right: { on: 'lowerArm', mount: [420, 210] } };
    const document = onRockers((corner) => (corner.thirdSpring = uneven));
    const sizing = sized(document);
    expect(codes(sizing)).toContain('thirdSpringUneven corners.front.thirdSpring.right');
    expect(told({ ...THIRD, preload: PRELOAD }).join()).not.toContain('thirdSpringUneven');
    const { downforce: _, ...others } = document;
    const still = sized({ ...others, travelCases: { ...document.travelCases, lateralAcceleration: 1e-9 } });
    const found = still.steadyCorner!.bySplit.proportional;
    if (found.status !== 'rests') throw new Error('no rest');
    expectWithin(found.roll, 0, 1e-6);
  });

  it('comes to an end of its lengths before its wheels do, in bump or in droop', () => {
    const solid = { ...THIRD, preload: PRELOAD, compressedLength: 735 };
    const slowly = (_: Json, document: Json) => {
      delete document.downforce;
      document.travelCases.deceleration = 0.05;
    };
    expect(told(solid, slowly)).toContain('thirdSpringEndsHeave corners.front.thirdSpring.compressedLength');
    expect(told({ ...solid, compressedLength: 749 })).toContain(
      'thirdSpringEndsTooSoon corners.front.thirdSpring.compressedLength',
    );
    expect(told({ ...THIRD, preload: PRELOAD, extendedLength: 760 }, slowly)).toContain(
      'thirdSpringEndsHeave corners.front.thirdSpring.extendedLength',
    );
    const withSolid = onRockers((corner, document) => {
      corner.thirdSpring = solid;
      slowly(corner, document);
    });
    const { travel } = sized(withSolid).checks.find(({ code }) => code === 'thirdSpringEndsHeave')!.values;
    const { linkage } = frontState(withSolid).given;
    const [row] = sweepAxle(linkage, { heave: [Number(travel)], roll: [0] }).rows();
    expectWithin(row.thirdSpringLength!, 735, 1e-9);
  });

  it('is held at an end in the steady corner', () => {
    const uneven = { ...THIRD, preload: PRELOAD, right: { on: 'lowerArm', mount: [420, 210] } };
    const drawn = Math.hypot(375 + 420, 550 - 210);
    const held = told({ ...uneven, extendedLength: drawn + 0.5 }, (_, document) => {
      delete document.downforce;
    });
    expect(held).toContain('thirdSpringHeldInCorner corners.front.thirdSpring.extendedLength');
  });

  it('is damped with all that is asked for', () => {
    expect(told({ ...TOUCHING, damping: 9000 })).toContain(
      'thirdSpringDampsAll corners.front.thirdSpring.damping',
    );
  });

  it('is told of among the assumptions, as is a roll spring', () => {
    const both = told({ ...THIRD, preload: PRELOAD }, (corner) => (corner.rollSpring = ROLL));
    expect(both).toContain('thirdSpringCounted corners.front.thirdSpring');
    expect(both).toContain('rollSpringCounted corners.front.rollSpring');
  });
});

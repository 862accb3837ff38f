/**
 * A car over lateral acceleration. Judges: `equilibrium` at each of them and on both sides of each event, the lengths at which events happen,
 * and the mirror image.
 */

import {
  axle,
  type CorneringEvent,
  type Equilibrium,
  equilibrium,
  steadyCornering,
  type WheelRest,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR, COILOVER } from './car.ts';
import { CORNER } from './roadster.ts';

/** With little travel, so that all happens before the car goes over. */
const SHORT = {
  ...CAR,
  front: {
    ...CAR.front,
    linkage: axle({ left: CORNER }),
    left: {
      ...COILOVER,
      damper: { extendedLength: 372, compressedLength: 270 },
      bumpStop: { ...COILOVER.bumpStop!, height: 68 },
    },
  },
  rear: {
    ...CAR.rear,
    left: { springRate: 200, damper: { extendedLength: 385, compressedLength: 272 } },
  },
};

/** Whether what an event says holds in a state. */
function holds(found: Equilibrium, { wheel, axle: name, event }: CorneringEvent): boolean {
  const axle = found.axles[name]!;
  if (wheel === null) expect.fail(`${event} of no wheel`);
  const one: WheelRest = wheel.endsWith('Left') ? axle.left : axle.right;
  switch (event) {
    case 'bumpStopContact':
      return one.isOnBumpStop;
    case 'springLoose':
      return one.isSpringLoose;
    case 'wheelLift':
      return one.clearance !== null;
    default:
      return one.damper === event;
  }
}

function at(lateralAcceleration: number, car: Parameters<typeof equilibrium>[0] = SHORT): Equilibrium {
  const found = equilibrium(car, { lateralAcceleration });
  if (found.status !== 'rests') expect.fail(`${found.cause} at ${found.lateralAcceleration}`);
  return found;
}

describe('steady cornering', () => {
  it('has the equilibrium at each acceleration, in the order asked for', () => {
    const lateralAccelerations = [0.4, -0.9, 0, 1.1, 0.4];
    const { states, outOfReach } = steadyCornering(CAR, { lateralAccelerations });
    expectSame(outOfReach, []);
    expectSame(
      states.map(({ lateralAcceleration }) => lateralAcceleration),
      lateralAccelerations,
    );
    states.forEach((state, k) => {
      const alone = at(lateralAccelerations[k], CAR);
      expectWithin(state.roll, alone.roll, 1e-11);
      for (const name of ['front', 'rear'] as const) {
        expectWithin(state.axles[name]!.left.travel, alone.axles[name]!.left.travel, 1e-9);
        expectWithin(state.axles[name]!.right.load.total, alone.axles[name]!.right.load.total, 1e-8);
      }
    });
  });

  it('has what happens to wheels in its order, true after it and false before', () => {
    const { events, outOfReach } = steadyCornering(SHORT, { lateralAccelerations: [2.5, -2.5] });
    const left = events.filter(({ lateralAcceleration }) => lateralAcceleration > 0);
    expectSame(
      left.map(({ lateralAcceleration }) => lateralAcceleration),
      left.map(({ lateralAcceleration }) => lateralAcceleration).sort((a, b) => a - b),
    );
    const kinds = new Set(left.map(({ event }) => event));
    for (const kind of ['bumpStopContact', 'springLoose', 'toppedOut', 'wheelLift'] as const)
      expect(kinds).toContain(kind);
    expectSame(
      outOfReach.map(({ cause }) => cause),
      ['fallsOver', 'fallsOver'],
    );
    for (const event of left) {
      const a = event.lateralAcceleration;
      expectSame(holds(at(a - 1e-6), event), !event.begins);
      expectSame(holds(at(a + 1e-6), event), event.begins);
    }
    // A wheel is lifted by a damper that has topped out.
    const lift = left.findIndex(({ event }) => event === 'wheelLift');
    const { wheel } = left[lift];
    expect(left.slice(0, lift).some((one) => one.event === 'toppedOut' && one.wheel === wheel)).toBe(true);
    // The other way round on the other side.
    const right = events.filter(({ lateralAcceleration }) => lateralAcceleration < 0);
    expectSame(
      right.map(({ axle, event, begins }) => [axle, event, begins]),
      left.map(({ axle, event, begins }) => [axle, event, begins]),
    );
    right.forEach(({ lateralAcceleration }, k) => {
      expectWithin(lateralAcceleration, -left[k].lateralAcceleration, 1e-9);
    });
  });

  it('has a stop in contact at its length', () => {
    const { events } = steadyCornering(SHORT, { lateralAccelerations: [1.2] });
    const contact = events.find(({ event, wheel }) => event === 'bumpStopContact' && wheel === 'frontRight')!;
    const { axles } = at(contact.lateralAcceleration);
    expectWithin(axles.front!.right.shockLength, 270 + 68, 1e-6);
  });

  it('has rows for tables', () => {
    const { rows, states } = steadyCornering(CAR, { lateralAccelerations: [0.5] });
    const [row] = rows();
    const [{ axles, roll }] = states;
    expectSame(row.roll, roll);
    expectSame(row.rearRightLoad, axles.rear!.right.load.total);
    expectSame(row.frontRollStiffness, axles.front!.rollStiffness!.total);
    expect(Object.values(row).every((value) => value === null || Number.isFinite(value))).toBe(true);
  });
});

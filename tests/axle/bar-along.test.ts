/**
 * An anti-roll bar along the car, whose levers turn in the plane of the axle. Judges: rockers of equal arms in closed form (elementary);
 * the torsion of a round bar (elementary theory, S. P. Timoshenko, from memory); the general solver on a drawing of both corners and both
 * levers; central differences; and the mirror image.
 */

import * as fc from 'fast-check';
import {
  type AntiRollBarInput,
  axle,
  drawAxle,
  equilibrium,
  readCar,
  rollStiffness,
  sweepAxle,
} from 'jounce';
import { type Drawing, drive } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { car as carFile } from '../coilover/cars.ts';
import { refusedFor } from '../support/refused.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR } from './car.ts';
import { besidePose, DIFFERENCED, rowAt } from './central-differences.ts';
import { CORNER } from './roadster.ts';
import { bothOnRoad, HALF_TRACK, ROCKERS, SHARE } from './rockers.ts';

const DEGREE = Math.PI / 180;

/** On the centreline at the height of the rockers' tops; the left lever up, the right one down. */
const LEVER = 50;
const ROUND = { diameter: 14, length: 350 };
const BAR = {
  on: 'rocker',
  linkMount: [375, 550],
  axis: [0, 550],
  leverEnd: [0, 550 + LEVER],
  roundBar: ROUND,
} as const satisfies AntiRollBarInput;
/** Off the centreline, on arms of a double wishbone, unlike left and right. */
const ON_ARMS = {
  on: 'lowerArm',
  linkMount: [330, 190],
  axis: [60, 240],
  leverEnd: [90, 300],
  right: { on: 'upperArm', linkMount: [330, 380], leverEnd: [-40, 150] },
  torsionalStiffness: 8,
} as const satisfies AntiRollBarInput;

describe('a bar along the car', () => {
  it('between rockers of equal arms has G pi d^4 / (32 L) times (s t / l)^2, and nothing in heave', () => {
    const whole = axle({ left: ROCKERS, bar: BAR });
    const [row] = sweepAxle(whole, { heave: [0], roll: [0] }).rows();
    expectWithin(row.barTwistByHeave!, 0, 1e-12);
    expectClose(Math.abs(row.leftBarRatio!), SHARE, { times: 64, scale: 1 });
    const torsion = (79_300 * Math.PI * ROUND.diameter ** 4) / 32 / ROUND.length;
    const wanted = ((torsion * DEGREE) / 1000) * ((SHARE * 2 * HALF_TRACK) / LEVER) ** 2;
    const found = rollStiffness(whole, { left: { rate: 1, force: 0 } })!;
    expectClose(found.bar, wanted, { times: 1e3, scale: wanted });
  });

  it('is where the general solver puts both its levers', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: -1.5, max: 1.5, noNaN: true }),
        (heave, roll) => {
          const [row] = sweepAxle(axle({ left: ROCKERS, bar: BAR }), {
            heave: [heave],
            roll: [roll],
          }).rows();
          const { drawing, shortfall } = drive(withLevers(), [
            { driver: { y: 'post' }, to: heave },
            { driver: { turn: 'road' }, to: -roll * DEGREE },
          ]);
          expectSame([...shortfall], [0, 0]);
          const { axis, Llever, Rlever } = drawing.points;
          // Counter-clockwise with y to the left, from up and from down.
          const left = Math.atan2(-(Llever[0] - axis[0]), Llever[1] - axis[1]);
          const right = Math.atan2(Rlever[0] - axis[0], axis[1] - Rlever[1]);
          expectWithin(row.leftLeverAngle! * DEGREE, left, 1e-9);
          expectWithin(row.rightLeverAngle! * DEGREE, right, 1e-9);
          expectWithin(row.barTwist! * DEGREE, left - right, 2e-9);
        },
      ),
      { numRuns: 10 },
    );
  });

  it('has exact derivatives, and the roll stiffness of its energy, on any parts and off the centreline', () => {
    const whole = axle({ left: CORNER, bar: ON_ARMS });
    for (const [heave, roll] of [
      [0, 0],
      [12, 1.5],
      [-15, -2],
    ]) {
      const { row, slopes, byHeave } = besidePose(whole, heave, roll);
      expectWithin(row.barTwistByHeave!, slopes('barTwist').byHeave, DIFFERENCED);
      expectWithin(row.barTwistByRoll!, slopes('barTwist').byRoll, DIFFERENCED);
      // Each lever by its own length; y of the axis is to the left.
      const levers = { left: [90 - 60, 300 - 240], right: [-40 + 60, 150 - 240] } as const;
      for (const side of ['left', 'right'] as const) {
        const [up, down] = byHeave;
        const turned = (up[`${side}LeverAngle`]! - down[`${side}LeverAngle`]!) * DEGREE;
        const travel = up[`${side}Travel`] - down[`${side}Travel`];
        expectWithin(row[`${side}BarRatio`]!, (Math.hypot(...levers[side]) * turned) / travel, 1e-8);
      }
      // With springs that hold the load; energies of these and of the bar, N·mm.
      const rate = 40;
      const free = 430;
      const force = (length: number) => ({ rate, force: rate * (free - length) });
      const U = (height: number, p: number) => {
        const one = rowAt(whole, -height / Math.cos(p * DEGREE), p);
        const [l, r] = [free - one.leftShockLength, free - one.rightShockLength];
        const twist = one.barTwist! * DEGREE;
        return 0.5 * rate * (l * l + r * r) + (0.5 * ON_ARMS.torsionalStiffness * 1000 * twist ** 2) / DEGREE;
      };
      const [dh, dp] = [0.5, 0.05];
      const height = -heave * Math.cos(roll * DEGREE);
      const middle = U(height, roll);
      const pp = (U(height, roll + dp) - 2 * middle + U(height, roll - dp)) / dp ** 2;
      const hh = (U(height + dh, roll) - 2 * middle + U(height - dh, roll)) / dh ** 2;
      const edges = [1, -1].map((s) => U(height + dh, roll + s * dp) - U(height - dh, roll + s * dp));
      const hp = (edges[0] - edges[1]) / (4 * dh * dp);
      const found = rollStiffness(whole, {
        heave,
        roll,
        left: force(row.leftShockLength),
        right: force(row.rightShockLength),
      })!;
      expectWithin(found.total / ((pp - (hp * hp) / hh) / 1000 / DEGREE), 1, 1e-4);
    }
  });

  it('leaned the other way, with its ends exchanged, is the mirror image', () => {
    const { on, linkMount, leverEnd, right, axis, torsionalStiffness } = ON_ARMS;
    const image: AntiRollBarInput = {
      ...right,
      axis: [-axis[0], axis[1]],
      right: { on, linkMount, leverEnd },
      torsionalStiffness,
    };
    const at = (bar: AntiRollBarInput, roll: number) =>
      sweepAxle(axle({ left: CORNER, bar }), { heave: [-15, 10], roll: [roll] }).rows();
    const mirrored = at(image, -1.7);
    for (const [k, row] of at(ON_ARMS, 1.7).entries()) {
      // Seen in a mirror each lever turns the other way, and each is on the other side: the twist is the same.
      expectClose(row.barTwist!, mirrored[k].barTwist!, { times: 64, scale: 10 });
      expectClose(row.leftLeverAngle!, -mirrored[k].rightLeverAngle!, { times: 64, scale: 10 });
      expectClose(row.leftLinkAngle!, mirrored[k].rightLinkAngle!, { times: 256, scale: 90 });
    }
  });

  it('ends the travel of a wheel where a lever comes over its centre', () => {
    const short = { ...BAR, leverEnd: [0, 558] } as const;
    const { end } = sweepAxle(axle({ left: ROCKERS, bar: short }), { heave: [100], roll: [0] });
    for (const side of ['left', 'right'] as const) {
      expectSame(end[side].bump.status, 'leverOverCentre');
      // The rocker's top has gone in by no more than the lever and the slope of the link let it.
      expect(end[side].bump.travel * SHARE).toBeLessThan(2 * 8);
    }
  });

  it('lets a car roll less, in finite numbers, and is remarked where it twists in heave', () => {
    const turn = (bar: AntiRollBarInput | undefined) => {
      const front = { ...CAR.front, linkage: axle({ left: CORNER, bar }) };
      const found = equilibrium({ ...CAR, front }, { lateralAcceleration: 0.4 });
      if (found.status !== 'rests') throw new Error('no rest');
      return found;
    };
    const bar = {
      on: 'lowerArm',
      linkMount: [262, 268],
      axis: [0, 268],
      leverEnd: [0, 320],
      torsionalStiffness: 12,
    } as const;
    const anti = turn(bar);
    const heave = turn({ ...bar, right: { linkMount: [262, 268], leverEnd: [0, 320] } });
    expect(anti.roll).toBeLessThan(turn(undefined).roll);
    expect(anti.diagnostics.map(({ code }) => code)).not.toContain('barTwistsInHeave');
    expect(heave.diagnostics.map(({ code }) => code)).toContain('barTwistsInHeave');
    expect(drawAxle(axle({ left: ROCKERS, bar: BAR }), { roll: 1 })).not.toContain('NaN');
  });

  it('is refused with its place where it can be none', () => {
    const of = (bar: object) => () => axle({ left: ROCKERS, bar } as never);
    const { axis: _, ...across } = BAR;
    expectSame(refusedFor(of({ ...BAR, leverLength: 50 })), ['notOneOf']);
    expectSame(refusedFor(of(across)), ['notOneOf']);
    expectSame(refusedFor(of({ ...BAR, linkMount: [0, 700] })), ['leverOverCentre linkMount']);
    const right = { linkMount: [375, 550], leverEnd: [0, 500] };
    expectSame(refusedFor(of({ ...across, leverLength: 50, leverEnd: [370, 650], right })), [
      'rightEndAcrossCar right',
    ]);
    expectSame(refusedFor(of({ ...BAR, right: { ...right, on: 'strut' } })), ['unknownName bar.right.on']);
    expectSame(refusedFor(of({ ...BAR, right: { ...right, leverEnd: [-100, 550] } })), [
      'leverOverCentre right.linkMount',
    ]);
    const file = carFile(({ corners }) => {
      corners.front.bar = { ...ON_ARMS, right: { ...ON_ARMS.right, on: 'rocker' } };
    });
    expectSame(
      refusedFor(() => readCar(file)),
      ['notAPartOfCorner corners.front.bar.right.on'],
    );
  });
});

/** Both corners, x to the left, on a road that lies on a post in the middle of the car, with both levers and their links. */
function withLevers(): Drawing {
  const whole = bothOnRoad((way) => ({
    points: { mount: BAR.linkMount, lever: [0, BAR.axis[1] + way * LEVER] },
    onRocker: ['mount'],
    bodies: { link: ['mount', 'lever'] },
  }));
  return {
    ...whole,
    points: { ...whole.points, axis: BAR.axis },
    ground: [...whole.ground, 'axis'],
    bodies: { ...whole.bodies, Larm: ['axis', 'Llever'], Rarm: ['axis', 'Rlever'] },
  };
}

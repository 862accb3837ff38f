/**
 * The anti-roll bar of a car file. Judges: the handbook's roll stiffness of a bar, k_t (R_b t / l)^2, R_b the travel of the lever's end by that
 * of the wheel (derived here from its twist, t / l times that); exact factors of units (NIST SP 811, from memory); and the axle put
 * together by hand.
 */

import { readFileSync } from 'node:fs';
import { axle, monteCarloSizing, readCar, sizeCoilovers, sweepAxle, torsionalStiffness } from 'jounce';
import { describe, expect, it } from 'vitest';
import { carOf, slipped } from '../../src/coilover/sizing/car.ts';
import { modelOf } from '../../src/corner/corner.ts';
import { linkBodies } from '../../src/document/corner-kind.ts';
import { car, sized } from '../coilover/cars.ts';
import { ALL_KINDS } from '../support/kinds.ts';
import { refusedFor } from '../support/refused.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

const BAR = {
  on: 'lowerArm',
  linkMount: [480, 175],
  leverEnd: [470, 330],
  leverLength: 180,
  roundBar: { diameter: 16, length: 800 },
} as const;

// biome-ignore lint/suspicious/noExplicitAny: the file is changed here, at any place
const withBar = (change: (front: any) => void = () => {}) =>
  car(({ corners }) => {
    corners.front.bar = structuredClone(BAR);
    change(corners.front);
  });

const codes = (file: unknown) => refusedFor(() => readCar(file));

describe('the anti-roll bar of a car file', () => {
  it('may have its drop link on each part of a kind of corner that is named for it', () => {
    for (const { input, make, inputs } of ALL_KINDS) {
      const { bodies } = modelOf(make(inputs[0] as never)).drawing;
      for (const body of linkBodies(input)) expect(Object.keys(bodies)).toContain(body);
    }
  });

  it('is the same in inches and pounds', () => {
    const LENGTH = 25.4;
    const [roadster, metric] = [
      JSON.parse(readFileSync(new URL('../fixtures/roadster.json', import.meta.url), 'utf8')),
      readCar(readFileSync(new URL('../fixtures/roadster.json', import.meta.url), 'utf8')),
    ];
    const { bar } = roadster.corners.front;
    const found = metric.corners.front.bar!;
    expectClose(found.leverLength!, bar.leverLength * LENGTH, { times: 2, scale: 200 });
    expectClose(found.linkMount[0], bar.linkMount[0] * LENGTH, { times: 2, scale: 500 });
    expectClose(found.leverEnd[1], bar.leverEnd[1] * LENGTH, { times: 2, scale: 500 });
    expectClose(found.roundBar!.diameter, bar.roundBar.diameter * LENGTH, { times: 2, scale: 20 });
    // 1 lbf·ft = 4.4482216152605 N x 0.3048 m.
    roadster.corners.front.bar.torsionalStiffness = 20;
    const stiff = readCar(roadster).corners.front.bar!;
    expectClose(stiff.torsionalStiffness!, 20 * 4.4482216152605 * 0.3048, { times: 4, scale: 30 });
  });

  it('adds k_t (R_b t / l)^2 to the roll stiffness of a sizing, as given or by its diameter', () => {
    const measured = 9;
    const stiffness = (file: unknown) => {
      const [{ figure }] = sizeCoilovers(readCar(file)).axles;
      return figure('rollStiffnessWithBar').value! - figure('rollStiffness').value!;
    };
    const { corner } = readCar(withBar()).corners.front;
    const [row] = sweepAxle(axle({ left: corner, bar: BAR }), { heave: [0], roll: [0] }).rows();
    const turned = (row.leftBarRatio! * 2 * row.leftPatchY) / BAR.leverLength;
    expectWithin(stiffness(withBar()), torsionalStiffness(BAR.roundBar) * turned ** 2, 1e-8);
    expectWithin(
      stiffness(withBar((front) => (front.bar.torsionalStiffness = measured))),
      measured * turned ** 2,
      1e-8,
    );
  });

  it('adds as much as the axle with its hardpoints off has by hand, in intervals and draws too', () => {
    const OFF = 3;
    const uncertain = withBar(({ lowerArm }) => {
      lowerArm.outer = [{ value: lowerArm.outer[0], plusMinus: OFF }, lowerArm.outer[1]];
    });
    const { car: nominal, uncertain: inputs } = carOf(readCar(uncertain));
    const input = inputs.find(({ name }) => name === 'corners.front lowerOuterY')!;
    const byHand = [-1, 0, 1].map((way) => {
      const { corner } = readCar(withBar(({ lowerArm }) => (lowerArm.outer[0] += way * OFF))).corners.front;
      const [row] = sweepAxle(axle({ left: corner, bar: BAR }), { heave: [0], roll: [0] }).rows();
      const turned = (row.leftBarRatio! * 2 * row.leftPatchY) / BAR.leverLength;
      const found = slipped(nominal, [{ input, by: way }]).axles[0].drawnBarStiffness!;
      expectWithin(found, torsionalStiffness(BAR.roundBar) * turned ** 2, 1e-8);
      return found;
    });
    const bar = Math.abs(byHand[2] - byHand[0]);
    const [{ figure }] = sizeCoilovers(readCar(uncertain)).axles;
    const width = (name: 'rollStiffness' | 'rollStiffnessWithBar') =>
      figure(name).upper! - figure(name).lower!;
    // With one uncertain input springs and bar move together, or against each other.
    const apart = [width('rollStiffness') + bar, Math.abs(width('rollStiffness') - bar)];
    expectWithin(Math.min(...apart.map((one) => Math.abs(one - width('rollStiffnessWithBar')))), 0, 1e-6);
    const { figures } = monteCarloSizing(readCar(uncertain), { draws: 200 });
    const spread = figures['front.rollStiffnessWithBar']!;
    expectWithin(
      spread.p97_5 - spread.p2_5,
      width('rollStiffnessWithBar'),
      0.2 * width('rollStiffnessWithBar'),
    );
  });

  it('twists in the steady corner as the axle does in that pose, and leads there under its own path', () => {
    const sizing = sized(({ corners }) => {
      corners.front.bar = { ...BAR, roundBar: { diameter: 30, length: 800 } };
      // On rigid tyres the axle stands as it is swept.
      for (const { sizing } of [corners.front, corners.rear]) delete sizing.tyreRate;
    });
    const found = sizing.steadyCorner!.bySplit.equal;
    if (found.status !== 'rests') throw new Error('no rest');
    const { heave, barTwist } = found.axles.front!;
    const { corner, bar } = sizing.axles[0].input;
    const [row] = sweepAxle(axle({ left: corner, bar }), { heave: [heave], roll: [found.roll] }).rows();
    expectSame(Math.sign(barTwist!), -1);
    expectWithin(barTwist!, row.barTwist!, 1e-9);
    expect(sizing.checks.map(({ code, path }) => `${code} ${path}`)).toContain(
      'barLeadsRollStiffness corners.front.bar',
    );
  });

  it('is refused with its place where it can be no bar of this corner', () => {
    expectSame(
      codes(
        withBar((front) => {
          front.bar.on = 'rocker';
          front.bar.leverEnd = [300, 175];
          front.bar.roundBar.innerDiameter = 16;
          front.sizing.antiRollBarStiffness = 100;
        }),
      ).sort(),
      [
        'barTwice corners.front.sizing.antiRollBarStiffness',
        'leverOverCentre corners.front.bar.linkMount',
        'notAPartOfCorner corners.front.bar.on',
        'outOfRange corners.front.bar.roundBar.innerDiameter',
      ],
    );
    expectSame(codes(withBar((front) => delete front.bar.roundBar)), ['noneOf corners.front.bar']);
  });
});

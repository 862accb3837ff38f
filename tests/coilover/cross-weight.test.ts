/**
 * The four perches of a weighed car at once. Judges: the scales added up by hand, and the whole car at rest on springs set as it says.
 */
import {
  axle,
  type CarOnAxles,
  equilibrium,
  readCar,
  reportSheet,
  type Sizing,
  sentence,
  sheetMarkdown,
  sizeCoilovers,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { exampleText, type Json } from '../document/support.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { GRAVITY } from './cars.ts';

const POUND = 0.45359237;

function weighed(change: (car: Json) => void = () => {}): Sizing {
  const car = JSON.parse(exampleText('car-weighed.json'));
  change(car);
  return sizeCoilovers(readCar(car));
}

/** The car on its wheels with the perches set so; half a tank of 32 lb more than on the scales, 30 % of it in front. */
function carWith(sizing: Sizing, scales: readonly number[]): CarOnAxles {
  const { wheels } = sizing.crossWeight!;
  const axles = sizing.axles.map(({ axle: name, input, spring, afterOrder, damper, limits }) => {
    const { corner, sizing: given } = input;
    const { rate, freeLength } = afterOrder!.change?.spring ?? spring!;
    const [left, right] = (['left', 'right'] as const).map((side) => ({
      springRate: rate,
      freeLength: freeLength!,
      perchSetting: wheels.find((one) => one.axle === name && one.side === side)!.perch!.requiredSetting!,
      gasForce: sizing.axles.find((one) => one.axle === name)!.figure('gasForce').value!,
      damper: { extendedLength: damper!.extendedLength, compressedLength: damper!.compressedLength },
    }));
    expect(limits.bump).not.toBeNull();
    const unsprung = sizing.axles.find((one) => one.axle === name)!.figure('unsprungMass').value!;
    const tyre = given!.tyreRate as number | { value: number } | undefined;
    const tyreRate = typeof tyre === 'object' ? tyre.value : tyre;
    const [l, r] = name === 'front' ? scales.slice(0, 2) : scales.slice(2);
    return {
      linkage: axle({ left: corner }),
      sprungMass: l + r - 2 * unsprung,
      unsprungMass: unsprung,
      left,
      right,
      ...(tyreRate === undefined ? {} : { tyreRate }),
    };
  });
  const [front, rear] = axles;
  const half = sizing.axles.map(({ input }) => {
    const { wheel } = input.corner as unknown as { wheel: { contactPatch: [number, number] } };
    return wheel.contactPatch[0];
  });
  const moment = (scales[0] - scales[1]) * half[0] + (scales[2] - scales[3]) * half[1];
  return {
    front,
    rear,
    sprungCentreOfGravityHeight: 440,
    sprungCentreOfGravityY: moment / (front.sprungMass + rear.sprungMass),
  };
}

/** kg on the scales, front left, front right, rear left, rear right, with the other half of the tank. */
const SCALES = [388 + 4.8, 361 + 4.8, 497 + 11.2, 452 + 11.2].map((pounds) => pounds * POUND);

describe('the four perches of a weighed car at once', () => {
  const sizing = weighed();
  const { crossWeight } = sizing;

  it('start from the loads on the scales, and of what was not aboard', () => {
    const all = SCALES.reduce((sum, one) => sum + one, 0);
    expectClose(crossWeight!.weighed, (SCALES[1] + SCALES[2]) / all, { times: 64, scale: 1 });
    expectSame(
      crossWeight!.wheels.map(({ axle, side }) => `${axle} ${side}`),
      ['front left', 'front right', 'rear left', 'rear right'],
    );
    crossWeight!.wheels.forEach(({ load }, k) => {
      expectClose(load.weighed, SCALES[k] * GRAVITY, { times: 64, scale: load.weighed });
    });
  });

  it('bring half of the weight on each diagonal, the car level at design ride height', () => {
    const found = equilibrium(carWith(sizing, SCALES));
    if (found.status !== 'rests') throw new Error('no rest');
    expectWithin(found.crossWeight!, 0.5, 1e-9);
    expectWithin(found.roll, 0, 1e-7);
    const { front, rear } = found.axles;
    for (const { heave } of [front!, rear!]) expectWithin(heave, 0, 1e-6);
    const loads = [front!.left, front!.right, rear!.left, rear!.right].map(({ load }) => load.total);
    crossWeight!.wheels.forEach(({ load }, k) => expectWithin(load.after, loads[k], 1e-5));
    // Turns from where the perches are: 0.06 in a turn is that of the file.
    for (const [k, { perch }] of crossWeight!.wheels.entries()) {
      const { setting } = sizing.axles[k < 2 ? 0 : 1].afterOrder!.wheels[k % 2].asFitted!;
      expectWithin(perch!.move!, perch!.requiredSetting! - setting!, 1e-9);
    }
  });

  it('stand in the report, before and after', () => {
    const report = sheetMarkdown(reportSheet(sizing));
    expect(report).toContain('All four perches at once, for a cross weight of 50.0 %');
    expect(report).toContain('50.5 % on the scales, 50.0 % after');
    expectSame(
      crossWeight!.advice.map(({ code }) => code),
      ['crossWeightAimed', ...crossWeight!.wheels.map(() => 'perchTurn')],
    );
  });

  it('are not told of a car that is not weighed, or not bought on both axles', () => {
    expectSame(weighed((car) => delete car.corners.front.ordered).crossWeight, null);
    const guessed = weighed((car) => {
      car.masses = { estimate: { total: 1700, frontFraction: 0.45 } };
    });
    expectSame(guessed.crossWeight, null);
  });

  it('are said to be out of reach where a wheel would have to pull, a thread or a spring ends', () => {
    const told = (change: (car: Json) => void) =>
      weighed(change).crossWeight!.advice.map((one) => {
        expect(sentence(one, 'imperial')).not.toMatch(/undefined|NaN|null/);
        return one.code;
      });
    const light = told(({ masses }) => {
      Object.assign(masses.scales, { frontLeft: 820, frontRight: 350, rearLeft: 150, rearRight: 115 });
    });
    expectSame(light, ['crossWeightOutOfReach']);
    const short = told(({ corners }) => {
      corners.front.ordered.perch = { ...corners.front.ordered.perch, max: 7.2 };
    });
    expect(short).toContain('crossWeightBeyondThread');
    const stiff = told(({ corners }) => {
      delete corners.front.sizing.springs;
      corners.front.sizing.target = { springRate: 200 };
      Object.assign(corners.front.ordered.spring, { solidLength: 6.3, minLength: 6.4 });
    });
    expect(stiff).toContain('crossWeightNotCarried');
  });
});

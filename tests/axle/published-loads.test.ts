/**
 * Weighing and load transfer in published worked examples. Springs are so stiff that the car keeps its pose, as the examples have it;
 * what they still give is within the tolerances.
 */
import { axle, type CarOnAxles, customCorner, type Equilibrium, equilibrium } from 'jounce';
import { describe, expect, it } from 'vitest';
import { carMasses, type MassesInput } from '../../src/coilover/masses.ts';
import { sized, valueIn } from '../coilover/cars.ts';
import { expectWithin } from '../support/tolerance.ts';

const G = 9.80665;
const STIFF = { springRate: 1e7 };

function rest(car: CarOnAxles, loads: object = {}): Equilibrium {
  const found = equilibrium(car, loads);
  if (found.status !== 'rests') expect.fail(`${found.cause} at ${found.lateralAcceleration}`);
  return found;
}

/** A long swing arm, all but level in its travel: half the track, height of the wheel centre, and the roll centre by its slope, mm. */
function corner(half: number, wheelZ: number, rollCentre: number) {
  const reach = 10 * half;
  return customCorner({
    drawing: {
      points: {
        pivot: [-reach, (rollCentre * (reach + half)) / half],
        wheelCentre: [half, wheelZ],
        contactPatch: [half, 0],
        eye: [half - 100, wheelZ],
        chassisEye: [half - 100, wheelZ + 400],
      },
      ground: ['pivot', 'chassisEye'],
      bodies: { arm: ['pivot', 'wheelCentre', 'contactPatch', 'eye'] },
    },
    upright: 'arm',
    wheelCentre: 'wheelCentre',
    contactPatch: 'contactPatch',
    shock: { outer: 'eye', inner: 'chassisEye' },
  });
}

const carried = (sprungMass: number, unsprungMass = 0, at = corner(650, 300, 0)) => ({
  linkage: axle({ left: at }),
  sprungMass,
  unsprungMass,
  left: STIFF,
});

/** Loads on both axles, N. */
const onAxles = ({ axles: { front, rear } }: Equilibrium) =>
  [front!, rear!].map(({ left, right }) => left.load.total + right.load.total);

const masses = (input: MassesInput) => {
  const found = carMasses(input).masses;
  if (found === null) expect.fail('no masses');
  return found;
};

describe('a published weighing', () => {
  // 290, 330, 210 and 220 kg, wheelbase 2550 mm, track 1800 mm; 680 kg on the rear axle with the front raised by 1500 mm
  // (an exercise read at askfilo.com, question 3430373733313132).
  const scales = { frontLeft: 290, frontRight: 330, rearLeft: 210, rearRight: 220 };

  it('of 1050 kg has its centre of gravity 0.2307 m before the middle of the wheelbase, and 50 kg more on the right', () => {
    const { total, frontFraction, leftFraction } = masses({ scales });
    expectWithin(total, 1050, 1e-9);
    expectWithin((frontFraction - 0.5) * 2.55, 0.2307, 5e-5);
    expectWithin((0.5 - leftFraction) * 1.8, (0.9 * 50) / 1050, 1e-12);
  });

  it('with the front raised has on its rear axle what the height found by it gives under an acceleration of tan of the slope', () => {
    // c = b^2 (W' - W) / (h M) for a small slope, b (W' - W) / (M tan X) for any (R. Gray, 1997, read in a copy of his page). Seen from the tilted
    // car, weight is g cos X down and g sin X back: an acceleration of tan X.
    const tan = 1500 / Math.sqrt(2550 ** 2 - 1500 ** 2);
    const height = (2550 * (680 - 430)) / (1050 * tan);
    const car = {
      front: carried(620),
      rear: carried(430),
      sprungCentreOfGravityHeight: height,
      wheelbase: 2550,
    };
    const [front, rear] = onAxles(rest(car, { deceleration: -tan })).map((load) => load / G);
    expectWithin(rear, 680, 1e-2);
    expectWithin(front, 370, 1e-2);
  });

  it('of 961 kg with its centre of gravity 0.615 m behind the front axle, of 3.27 m, has 3830 N and 887 N on its wheels', () => {
    // An exercise with its answers (read at documen.tv, question 23210487); it has g = 9.81.
    const car = sized((document) => {
      document.masses = { estimate: { total: 961, frontFraction: 1 - 0.615 / 3.27 } };
    });
    expectWithin(valueIn(car.axles[0], 'leftWheelMass') * 9.81, 3830, 5);
    expectWithin(valueIn(car.axles[1], 'rightWheelMass') * 9.81, 887, 0.5);
  });
});

describe('a published load transfer', () => {
  it('from the inner to the outer wheels, and the speed at which it falls over', () => {
    // R1 = m/L (g L/2 - v^2 h/r), R2 = m/L (g L/2 + v^2 h/r) (J. Bird, C. Ross, "Mechanical Engineering Principles", equations 16.4 and 16.6, read);
    // track 1.3 m, height 0.6 m, curve of 20 m: over at 14.58 m/s (read at physicsforums.com, thread 174374; its sum has 9.81).
    const [m, L, h, r] = [1000, 1.3, 0.6, 20];
    const car = { front: carried(m), sprungCentreOfGravityHeight: h * 1000 };
    for (const v of [5, 10, 14]) {
      const { left, right } = rest(car, { lateralAcceleration: v ** 2 / r / G }).axles.front!;
      expectWithin(left.load.total, (m / L) * ((G * L) / 2 - (v ** 2 * h) / r), 1);
      expectWithin(right.load.total, (m / L) * ((G * L) / 2 + (v ** 2 * h) / r), 1);
    }
    const over = equilibrium(car, { lateralAcceleration: 2 });
    if (over.status === 'rests') expect.fail('it rests');
    expectWithin(over.last!.axles.front!.left.load.total, 0, 1);
    expectWithin(Math.sqrt((over.lateralAcceleration ?? Number.NaN) * 9.81 * r), 14.58, 5e-3);
  });

  it('of 0.6 g has the parts by roll centres, and all of it without lean', () => {
    // D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018, p. 174 (read): 1280 kg, 54 % in front; tracks 1.46 m; roll centres 70
    // and 320 mm high, the centre of gravity 365 mm above their axis; axles of 140 and 180 kg, 280 and 300 mm high. Printed: 195 and 760 N by
    // roll centres, 158 and 218 N of the axles. Its parts by roll, 1556 and 671 N, are of a body that leans by 6.5 degrees: not compared.
    const car = (front: number, rear: number) => ({
      front: carried(1280 * 0.54, front, corner(730, 280, 70)),
      rear: carried(1280 * 0.46, rear, corner(730, 300, 320)),
      sprungCentreOfGravityHeight: 550,
      wheelbase: 2500,
    });
    const at = (one: CarOnAxles) => {
      const { front, rear } = rest(one, { lateralAcceleration: (0.6 * 9.81) / G }).axles;
      return [front!.loadTransfer, rear!.loadTransfer];
    };
    const [front, rear] = at(car(0, 0));
    expectWithin(front.geometric, 195, 0.5);
    expectWithin(rear.geometric, 760, 0.5);
    const total = at(car(70, 90)).reduce((sum, one) => sum + one.total, 0);
    expectWithin(total, (1280 * 0.6 * 9.81 * 0.365) / 1.46 + 195 + 760 + 158 + 218, 2);
  });

  it('to the rear of a car that accelerates: 0.4 W + 0.2 m a behind, 0.6 W - 0.2 m a in front', () => {
    // F. P. Beer, E. R. Johnston and others, "Vector Mechanics for Engineers: Dynamics", 8th edition, Problem 16.6 (solution read at scribd.com,
    // document 55095096): wheelbase 2.5 m, rear axle 1.5 m behind the centre of gravity, 0.5 m high; 3.74 m/s^2 by the rear wheels, 4.06 by the front.
    const car = {
      front: carried(600),
      rear: carried(400),
      sprungCentreOfGravityHeight: 500,
      wheelbase: 2500,
    };
    for (const [a, driven] of [
      [3.7371, 1],
      [4.0593, 0],
    ]) {
      const loads = onAxles(rest(car, { deceleration: -a / 9.81 })).map((load) => (load / G) * 9.81);
      expectWithin(loads[1], 0.4 * 9810 + 0.2 * 1000 * a, 0.1);
      expectWithin(loads[0], 0.6 * 9810 - 0.2 * 1000 * a, 0.1);
      // Friction of 0.8 on the driven axle gives that acceleration.
      expectWithin((0.8 * loads[driven]) / 1000, a, 1e-3);
    }
  });

  it('to the front of a car that brakes with all wheels at a friction of 0.40', () => {
    // D. Halliday, R. Resnick, J. Walker, "Fundamentals of Physics", 8th edition, Problem with Fig. 12-48 (data and moments read at
    // numerade.com): 11 kN, wheelbase 4.2 m, centre of gravity 1.8 m behind the front axle and 0.75 m high; moments about it.
    const mass = 11000 / G;
    const car = {
      front: carried((mass * 2.4) / 4.2),
      rear: carried((mass * 1.8) / 4.2),
      sprungCentreOfGravityHeight: 750,
      wheelbase: 4200,
    };
    const [front, rear] = onAxles(rest(car, { deceleration: 0.4 }));
    expectWithin(front + rear, 11000, 0.1);
    expectWithin((0.4 * 11000 * 0.75 + rear * 2.4 - front * 1.8) / 11000, 0, 1e-5);
  });
});

/**
 * Andrews' squeezing mechanism against its published figures: seven moving bodies, three loops.
 *
 * Source of every figure marked "published": Test Set for IVP Solvers (F. Mazzia, C. Magherini, University of Bari),
 * problem "Andrews' squeezing mechanism": geometry, initial values and the reference solution at t = 0.03, read in
 * the R package deTestSet (rforge/bvpsolve, pkg/deTestSet/R/ex_andrews.R). Background: E. Hairer, G. Wanner, "Solving
 * Ordinary Differential Equations II", section VII.7 (from memory). Figures marked "derived" are exact consequences
 * of the published ones, computed here with more digits than doubles hold.
 *
 * Bars O-P 7, P-Q 28, A-E 40, E-Q 20, A-H 40, H-Q 20 mm; the rocker turns about B with Q at radius 35 and the spring's
 * eye D; the spring goes from there to C. The crank O-P is at the angle b, and the other published angles are
 *
 *     Q = P - 28 e(b + th)          Q = B + 35 e(g - 90 deg)      D = B + 20 e(g) + 18 e(g - 90 deg)
 *     E = A + 40 e(de)              Q = E + 20 e(ph + de - 90 deg)
 *     H = A + 40 e(ep - 90 deg)     Q = H + 20 e(om + ep)         e(u) = (cos u, sin u)
 */
import { type Drawing, type Measure, type Motion, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const quarter = Math.PI / 2;

interface Angles {
  readonly b: number;
  readonly th: number;
  readonly g: number;
  readonly ph: number;
  readonly de: number;
  readonly om: number;
  readonly ep: number;
}

/** Published initial values: the overlapped dead centre, O, P and Q in line. */
const start: Angles = {
  b: -0.0617138900142764496358948458001,
  th: 0,
  g: 0.455279819163070380255912382449,
  ph: 0.222668390165885884674473185609,
  de: 0.48736497954384255022559895353,
  om: -0.222668390165885884674473185609,
  ep: 1.23054744454982119249735015568,
};

/** Published reference solution at t = 0.03, after more than two turns of the crank. */
const later: Angles = {
  b: 15.81077119629904,
  th: -15.75637105984298,
  g: 0.04082224013073101,
  ph: -0.5347301163226948,
  de: 0.5244099658805304,
  om: 0.5347301163226948,
  ep: 1.048080741042263,
};

const fixed = {
  O: [0, 0],
  A: [-69.34, -2.27],
  B: [-36.35, 32.73],
  C: [14, 72],
} satisfies Record<string, Point>;

const from = ([x, y]: Point, length: number, angle: number): Point => [
  x + length * Math.cos(angle),
  y + length * Math.sin(angle),
];

/** The mechanism drawn from published angles. */
function drawn({ b, th, g, de, ep }: Angles): Drawing {
  const P = from(fixed.O, 7, b);
  return deepFreeze({
    points: {
      ...fixed,
      P,
      Q: from(P, -28, b + th),
      D: from(from(fixed.B, 20, g), 18, g - quarter),
      E: from(fixed.A, 40, de),
      H: from(fixed.A, 40, ep - quarter),
    },
    ground: ['O', 'A', 'B', 'C'],
    bodies: {
      crank: ['O', 'P'],
      coupler: ['P', 'Q'],
      rocker: ['B', 'Q', 'D'],
      AE: ['A', 'E'],
      EQ: ['E', 'Q'],
      AH: ['A', 'H'],
      HQ: ['H', 'Q'],
    },
  });
}

const crankAngle = deepFreeze({ angle: ['O', 'P'] } as const satisfies Measure);
const spring = deepFreeze({ length: ['D', 'C'] } as const satisfies Measure);

/** Values, or derivatives, of all published angles. */
function anglesAt(motion: Motion, b: number, part: 'value' | 'first' | 'second'): Angles {
  const of = (a: string, c: string) => motion.read({ angle: [a, c] })(b)[part] ?? Number.NaN;
  // A constant offset of a direction shows in its value alone.
  const offset = part === 'value' ? quarter : 0;
  const crank = of('O', 'P');
  const de = of('A', 'E');
  const ep = of('A', 'H') + offset;
  return {
    b: crank,
    th: of('Q', 'P') - crank,
    g: of('B', 'Q') + offset,
    ph: of('E', 'Q') + offset - de,
    de,
    om: of('H', 'Q') - ep,
    ep,
  };
}

const names = ['b', 'th', 'g', 'ph', 'de', 'om', 'ep'] as const;

const nearestTurn = (angle: number, near: number) =>
  angle + 2 * Math.PI * Math.round((near - angle) / (2 * Math.PI));

/** Published angles are printed to 16 digits: this is what is left of 15.8 after two turns. */
const printed = 1e-12;

const throughTwoTurns = trace(drawn(start), { driver: crankAngle, from: -1, to: later.b });

describe('Andrews, as drawn in the published start position', () => {
  it('has the published angles', () => {
    const angles = anglesAt(throughTwoTurns, throughTwoTurns.drawn, 'value');
    for (const name of names) expectWithin(angles[name], start[name], printed);
  });

  it('has its pins and spring where the published angles put them (derived)', () => {
    const places = throughTwoTurns.at(throughTwoTurns.drawn);
    expectPlace(places.P, [6.986674115451, -0.431723064569]);
    expectPlace(places.Q, [-20.96002234635, 1.295169193707]);
    expectPlace(places.E, [-33.99720388584, 16.461971675]);
    expectPlace(places.H, [-31.63313450741, -15.6188686683]);
    expectPlace(places.D, [-10.47239388881, 25.35778853028]);
    expectClose(Math.hypot(...places.Q), 21, { times: 4, scale: 21 });
    expectWithin(throughTwoTurns.read(spring)(throughTwoTurns.drawn).value, 52.672516110737, 1e-9);
  });

  it('stands at a dead centre: the crank moves neither rocker nor spring (published accelerations)', () => {
    const first = anglesAt(throughTwoTurns, throughTwoTurns.drawn, 'first');
    // Starting from rest, accelerations are in the ratio of the first derivatives; 7/28 - 1 exactly.
    expectWithin(first.th, -10666.8329399655854 / 14222.4439199541138, 1e-12);
    expectWithin(first.th, -3 / 4, 1e-12);
    for (const name of ['g', 'ph', 'de', 'om', 'ep'] as const) expectWithin(first[name], 0, 1e-12);
    expectWithin(throughTwoTurns.read(spring)(throughTwoTurns.drawn).first, 0, 1e-12);
  });
});

const redrawn = trace(drawn(later), { driver: crankAngle });

describe.each([
  ['traced from the start position through two turns', throughTwoTurns, later.b],
  ['traced from there by half a turn', trace(drawn(start), { driver: crankAngle }), later.b - 4 * Math.PI],
  ['as drawn', redrawn, redrawn.drawn],
])('Andrews in the published position of t = 0.03, %s', (_how, motion, b) => {
  it('has the published angles', () => {
    const angles = anglesAt(motion, b, 'value');
    for (const name of names) {
      const whole = motion === throughTwoTurns ? angles[name] : nearestTurn(angles[name], later[name]);
      expectWithin(whole, later[name], printed);
    }
  });

  it('has its pins and spring where the published angles put them (derived)', () => {
    const places = motion.at(b);
    expectPlace(places.P, [-6.963039426224, -0.718388438694]);
    expectPlace(places.Q, [-34.92161839492, -2.240841082111]);
    expectPlace(places.E, [-34.7152190499, 17.75809387229]);
    expectPlace(places.H, [-34.68133356442, -22.23939761003]);
    expectPlace(places.D, [-15.63206598475, 15.56121407496]);
    expectWithin(motion.read(spring)(b).value, 63.744771481407, 1e-9);
  });

  it('has the published velocities', () => {
    const first = anglesAt(motion, b, 'first');
    expectRelative(first.th * db, -1424.379294994111, 1e-7);
    expectRelative(first.g * db, 11.03291221937134, 1e-7);
    expectRelative(first.ph * db, 19.29337464421385, 1e-7);
    expectRelative(first.de * db, 0.5735699284790808, 1e-7);
    expectRelative(first.om * db, -19.29337464421385, 1e-7);
    expectRelative(first.ep * db, 0.3231791658026955, 1e-7);
  });

  it('has their ratios (derived)', () => {
    const first = anglesAt(motion, b, 'first');
    expectWithin(first.g, 0.0096786698286, 1e-9);
    expectWithin(first.th, -1.2495428779832, 1e-9);
    expectWithin(first.de, 0.00050316669554, 1e-9);
    expectWithin(motion.read(spring)(b).first, -0.25478499045, 1e-9);
  });

  it('has the published accelerations', () => {
    const first = anglesAt(motion, b, 'first');
    const second = anglesAt(motion, b, 'second');
    const acceleration = (name: keyof Angles) => second[name] * db * db + first[name] * ddb;
    expectRelative(acceleration('th'), 51850.37701610329, 3e-6);
    expectRelative(acceleration('g'), 324102.5686413781, 3e-6);
    expectRelative(acceleration('ph'), 566749.3645176213, 3e-6);
    expectRelative(acceleration('de'), 16743.62929479361, 3e-6);
    expectRelative(acceleration('om'), -566749.3645176, 3e-6);
    expectRelative(acceleration('ep'), 9826.520791458422, 3e-6);
  });

  it('has their second ratios (derived)', () => {
    expectWithin(anglesAt(motion, b, 'second').g, 0.249604769, 1e-6);
    expectWithin(motion.read(spring)(b).second, -6.57116719, 1e-6);
  });
});

/** Published velocity and acceleration of the crank at t = 0.03, rad/s and rad/s^2. */
const db = 1139.920302151208;
const ddb = -24631.76316945196;

describe('Andrews driven by its rocker', () => {
  const rockerAngle = deepFreeze({ angle: ['B', 'Q'] } as const satisfies Measure);
  const motion = trace(drawn(later), { driver: rockerAngle });

  it('stops where crank and coupler come into line, on both sides', () => {
    expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
    // Overlapped: the published start position. Extended: the triangle O, B, Q with OQ = 35 (derived).
    expectWithin(motion.high.at + quarter, start.g, printed);
    const OB = Math.hypot(...fixed.B);
    const towardsO = Math.atan2(-fixed.B[1], -fixed.B[0]);
    expectWithin(motion.low.at, towardsO - Math.acos((35 ** 2 + OB ** 2 - 35 ** 2) / (2 * 35 * OB)), printed);
    for (const [end, reach] of [
      [motion.high.at, 21],
      [motion.low.at, 35],
    ]) {
      expectWithin(Math.hypot(...motion.at(end).Q), reach, 1e-9);
    }
  });

  it('has no derivative by it there, and a value', () => {
    for (const end of [motion.low.at, motion.high.at]) {
      const reading = motion.read(crankAngle)(end);
      expect([reading.first, reading.second]).toEqual([null, null]);
      expect(reading.value).toSatisfy(Number.isFinite);
    }
  });

  it('has there the pose of the published start position', () => {
    expectWithin(nearestTurn(motion.read(crankAngle)(motion.high.at).value, start.b), start.b, 1e-10);
  });
});

// Rate 4530 N/m, free length 77.85 mm: published geometry.
describe("the spring of Andrews' mechanism", () => {
  const force = (length: number) => 4.53 * (77.85 - length);

  it('has, as drawn at the start, the moment about B that the published reactions at Q balance', () => {
    // Alone on its pin the rocker moves where the whole mechanism stands still.
    const { points } = drawn(start);
    const { B, C, D, Q } = points;
    const rocker = deepFreeze({
      points: { B, C, D, Q },
      ground: ['B', 'C'],
      bodies: { rocker: ['B', 'Q', 'D'] },
    });
    const { value, first } = trace(rocker, { driver: { turn: 'rocker' } }).read(spring)(0);
    expectWithin(force(value), 114.054002018, 1e-8);
    const moment = (force(value) * (first ?? Number.NaN)) / 1000;
    expectWithin(Math.abs(moment), 3.0042048572133484, 1e-12);
    const [across, along] = [98.5668703962410896, -6.12268834425566265];
    expectWithin(Math.abs(moment), 0.035 * (Math.cos(start.g) * across + Math.sin(start.g) * along), 1e-12);
  });

  it('is held by the crank torque that virtual work gives at t = 0.03 (derived)', () => {
    const { value, first } = throughTwoTurns.read(spring)(later.b);
    expectWithin(force(value), 63.8966851892, 1e-8);
    expectWithin(Math.abs(force(value) * (first ?? Number.NaN)) / 1000, 0.0162799163258, 1e-9);
  });
});

function expectPlace(actual: Point, expected: Point): void {
  expectWithin(actual[0], expected[0], 1e-9);
  expectWithin(actual[1], expected[1], 1e-9);
}

function expectRelative(actual: number, expected: number, share: number): void {
  expectWithin(actual, expected, share * Math.abs(expected));
}

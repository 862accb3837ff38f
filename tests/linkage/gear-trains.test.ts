/** Epicyclic trains of worked examples: published speeds, each printed to a tenth or a hundredth of a revolution a minute. */
import { type Drawing, type Point, trace } from 'jounce/linkage';
import { describe, it } from 'vitest';
import { expectWithin } from '../support/tolerance.ts';

const place = ([x, y]: Point, angle: number, r: number): Point => [
  x + r * Math.cos(angle),
  y + r * Math.sin(angle),
];
const O: Point = [0, 0];

/** Turns of two wheels relative to the arm: unlike for outer teeth, alike where one has its teeth inside. */
const mesh = (wheel: string, teeth: number, planet: string, planetTeeth: number, inside = false) => ({
  of: [
    { turn: planet, relativeTo: 'arm' },
    { turn: wheel, relativeTo: 'arm' },
  ] as const,
  ratio: ((inside ? 1 : -1) * teeth) / planetTeeth,
});

/** Speeds of the others while one turns so fast: rates of turn, in its unit. */
function speeds(drawing: Drawing, driver: string, speed: number, others: readonly string[]): number[] {
  const motion = trace(drawing, { driver: { turn: driver }, from: 0, to: 1 });
  return others.map((one) => speed * motion.read({ turn: one })(0.5).first!);
}

describe('a published epicyclic train', () => {
  it('of a fixed ring of 72 teeth and a sun of 32, its arm at 18 rev/min, turns the sun at 58.5 and the planet at -46.8', () => {
    // "Epicyclic gears, worked examples", section 5.4, Problem 1 (studylib.net, document 26184123; read): 20 teeth on the planet follow.
    const P = place(O, 0.4, 52);
    const drawing: Drawing = {
      points: { O, P, S: place(O, 1, 32), Q: place(P, 2, 20), R: place(O, -1, 72) },
      ground: ['O', 'R'],
      bodies: { arm: ['O', 'P'], sun: ['O', 'S'], planet: ['P', 'Q'], ring: ['O', 'R'] },
      ratios: { outer: mesh('ring', 72, 'planet', 20, true), inner: mesh('sun', 32, 'planet', 20) },
    };
    const [sun, planet] = speeds(drawing, 'arm', 18, ['sun', 'planet']);
    expectWithin(sun, 58.5, 1e-9);
    expectWithin(planet, -46.8, 1e-9);
  });

  it('of a compound planet between a fixed ring of 80 and a pinion of 18 teeth at 200 rev/min turns its arm at 17.14', () => {
    // R. S. Khurmi, J. K. Gupta, "Theory of Machines", ch. 13, exercise with Fig. 13.38 (statement and 17.14 read at
    // assignmentexpert.com, question 200273). Planet: 10 teeth in the ring, 24 on the pinion. The wheels differ in module.
    const P = place(O, 0.4, 70);
    const drawing: Drawing = {
      points: { O, P, F: place(O, 1, 18), Q: place(P, 2, 24), D: place(O, -1, 80) },
      ground: ['O', 'D'],
      bodies: { arm: ['O', 'P'], pinion: ['O', 'F'], planet: ['P', 'Q'], ring: ['O', 'D'] },
      ratios: { outer: mesh('ring', 80, 'planet', 10, true), inner: mesh('pinion', 18, 'planet', 24) },
    };
    const [arm] = speeds(drawing, 'pinion', 200, ['arm']);
    expectWithin(arm, 17.14, 5e-3);
    expectWithin(arm, 120 / 7, 1e-9);
  });
});

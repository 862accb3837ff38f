// virtualWork: power goes through a linkage without loss, F_a da/dt = F_b db/dt for loads F on measures a and b that
// balance each other. Hence, each rate from the motion driven by its own measure,
//     (db/da) (da/db) = 1,    (db/da) (dc/db) (da/dc) = 1
// and the work of a load through the motion is the change of its potential,
//     int F(m) (dm/dt) dt = V(m_1) - V(m_0)
// for a weight on each point (V = x or y), a moment on each body (V = its turn) and a spring between each two points whose
// free length is 0 (V = L^2 / 2).

import type { Measure } from '../linkage/index.ts';
import { measureName } from '../words.ts';
import { coordinates, everything } from './measures.ts';
import { distance, type Places } from './plane.ts';
import { quadratureNodes } from './quadrature.ts';
import { largest, reaches } from './sensitivity.ts';
import {
  drivenTo,
  lawOf,
  placeAt,
  type Setting,
  spread,
  type TracedMotion,
  traced,
  unitOf,
  where,
} from './setting.ts';
import { expectWithin } from './violation.ts';

/** The work is that between these shares of the way from the drawn pose to the ends: short of dead points. */
const SHARES = [-0.6, 0.6];
/** Panels that the way is cut into for the integral, at first and at most. */
const PANELS = 4;
const MOST_PANELS = 64;
/** How many places are looked at for measures that may drive in each other's place. */
const PLACES = 17;
/** Such a measure changes at least at this share of the greatest rate of any. */
const LIVELY = 0.1;

export const virtualWork = lawOf('virtualWork', (setting) => {
  const motion = traced(setting, setting.drawing);
  expectWork(setting, motion);
  expectReciprocal(setting, motion);
});

function expectWork(setting: Setting, motion: TracedMotion): void {
  const { law, drawing, driver, size, allowed } = setting;
  const [from, to] = SHARES.map((share) => placeAt(motion, share));
  const loads = everything(drawing, driver).map((measure) => {
    const load = loadOn(motion, measure);
    const each = unitOf(measure, size);
    const unit = load.order === 1 ? each : each ** 2;
    return { measure, load, unit, panels: cut(load, from, to, PANELS) };
  });
  // The greatest of all powers and potentials, in their units, is the scale of rounding for every load.
  const within = () => {
    const powers = loads.flatMap(({ unit, panels }) =>
      panels.map(({ peak }) => (peak / unit) * unitOf(driver, size)),
    );
    const potentials = loads.flatMap(({ unit, load }) =>
      [from, to].map((at) => load.at(at).potential / unit),
    );
    return allowed * (1 + largest(powers) + largest(potentials));
  };
  const before = within();
  for (const { load, unit, panels } of loads) refine(load, panels, before * unit);
  const after = within();
  for (const { measure, load, unit, panels } of loads) {
    const worst = panels.reduce((one, other) => (Math.abs(other.off) > Math.abs(one.off) ? other : one));
    const gain = load.at(to).potential - load.at(from).potential;
    const work = gain + sum(panels.map(({ off }) => off));
    expectWithin(
      law,
      `work of a load on ${measureName(measure)}`,
      where(setting, worst.to),
      work,
      gain,
      after * unit,
    );
  }
}

/** A load on a measure: its power by the driver and its potential, which is of that order in the measure. */
interface Load {
  readonly order: 1 | 2;
  at(driver: number): { power: number; potential: number };
}

function loadOn(motion: TracedMotion, measure: Measure): Load {
  const read = motion.read(measure);
  const order = 'length' in measure ? 2 : 1;
  return {
    order,
    at(driver) {
      const { value, first } = read(driver);
      const rate = first ?? Number.NaN;
      return order === 2
        ? { power: value * rate, potential: value ** 2 / 2 }
        : { power: rate, potential: value };
    },
  };
}

/** A part of the way, by how much the load's work on it is off its gain of potential, and its greatest power. */
interface Panel {
  readonly from: number;
  readonly to: number;
  readonly off: number;
  readonly peak: number;
}

function cut(load: Load, from: number, to: number, parts: number): Panel[] {
  const border = (k: number) => from + ((to - from) * k) / parts;
  return Array.from({ length: parts }, (_, k) => {
    const [start, end] = [border(k), border(k + 1)];
    const nodes = quadratureNodes(start, end);
    const powers = nodes.map(({ at }) => load.at(at).power);
    const work = sum(powers.map((power, n) => power * nodes[n].weight));
    const gain = load.at(end).potential - load.at(start).potential;
    return { from: start, to: end, off: work - gain, peak: largest(powers) };
  });
}

/** Halves the panel that is most off, again and again, while that may be the quadrature's fault: a rate may have a peak. */
function refine(load: Load, panels: Panel[], within: number): void {
  while (panels.length < MOST_PANELS && sum(panels.map(({ off }) => Math.abs(off))) > within) {
    panels.sort((one, other) => Math.abs(one.off) - Math.abs(other.off));
    const worst = panels.pop() as Panel;
    panels.push(...cut(load, worst.from, worst.to, 2));
  }
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, one) => all + one, 0);
}

function expectReciprocal(setting: Setting, motion: TracedMotion): void {
  const { law, driver, allowed } = setting;
  const [b, c] = lively(setting, motion);
  const sets = b === undefined ? [] : c === undefined ? [[b]] : [[b], [b, c]];
  for (const stretches of sets) {
    const ring = [driver, ...stretches.map(({ measure }) => measure)];
    const rates = ring.map((by, k) => `${measureName(ring[(k + 1) % ring.length])} by ${measureName(by)}`);
    const ends = [Math.max(...stretches.map(({ from }) => from)), Math.min(...stretches.map(({ to }) => to))];
    for (const at of ends) {
      const trip = roundTrip(setting, motion, ring, at);
      if (trip === null) continue;
      const what = `product of the rates (${rates.join(', ')})`;
      expectWithin(law, what, where(setting, at), trip.product, 1, allowed * trip.scale);
    }
  }
}

/** A measure that can drive in the driver's place, from one value of the driver to another, with the drawn one between. */
interface Stretch {
  readonly measure: Measure;
  readonly from: number;
  readonly to: number;
  readonly places: number;
}

/** Measures that can drive in the driver's place, the one that does so farthest first. */
function lively(setting: Setting, motion: TracedMotion): Stretch[] {
  const { drawing, driver, size } = setting;
  const places = [...spread(motion, PLACES).slice(1, -1), motion.drawn].sort((u, v) => u - v);
  const drawn = places.indexOf(motion.drawn);
  const measures = everything(drawing, driver);
  const rates = measures.map((measure) => {
    const read = motion.read(measure);
    return places.map((at) => (read(at).first ?? Number.NaN) / unitOf(measure, size));
  });
  const most = places.map((_, p) => largest([1 / unitOf(driver, size), ...rates.map((rate) => rate[p])]));
  const found = measures.map((measure, k) => {
    const sense = Math.sign(rates[k][drawn]);
    const good = (p: number) => rates[k][p] * sense >= LIVELY * most[p];
    let [from, to] = [drawn, drawn];
    while (from > 0 && good(from - 1)) from--;
    while (to < places.length - 1 && good(to + 1)) to++;
    return { measure, from: places[from], to: places[to], places: good(drawn) ? to - from : 0 };
  });
  const itself = measureName(driver);
  return found
    .filter(({ measure, places }) => places > 0 && measureName(measure) !== itself)
    .sort((one, other) => other.places - one.places);
}

/** Share of the size by which two poses that are one may differ. */
const ONE = 1e-6;

/**
 * The product of the rates round a ring of measures, each the driver in its turn of a motion to the same pose, and how
 * far it can be trusted; null if one of them does not drive to that pose: it has turned back on the way.
 */
function roundTrip(
  setting: Setting,
  motion: TracedMotion,
  ring: readonly Measure[],
  place: number,
): { product: number; scale: number } | null {
  const { drawing, size } = setting;
  const points = coordinates(drawing);
  let [by, at, product, scale] = [motion, place, 1, 1];
  for (const [k, measure] of ring.entries()) {
    const next = ring[(k + 1) % ring.length];
    const { value, first, second } = by.read(next)(at);
    const unit = unitOf(next, size) / unitOf(measure, size);
    const others = points.map((one) => by.read(one)(at).first ?? Number.NaN);
    const rate = (first ?? Number.NaN) / unit;
    product *= first ?? Number.NaN;
    scale += largest(others.map((one) => (one / size) * unitOf(measure, size))) / Math.abs(rate);
    scale += Math.abs(((second ?? Number.NaN) / (first ?? Number.NaN)) * unitOf(measure, size));
    if (k === ring.length - 1) break;
    by = drivenTo({ ...setting, driver: next }, drawing, motion.read(next)(motion.drawn).value, value);
    at = value;
    if (!reaches(by, at) || !areOne(by.at(at), motion.at(place), ONE * size)) return null;
  }
  return { product, scale };
}

function areOne(one: Places, other: Places, within: number): boolean {
  return Object.entries(one).every(([name, at]) => distance(at, other[name]) <= within);
}

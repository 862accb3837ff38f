// Distances are the same in a mirror. Points that hang on the rest by two points A and B alone can lie on either side of the line
// through them; where nothing else was read of them, the readings don't tell which, and the first estimate decides (B. Hendrickson,
// "Conditions for unique graph realizations", 1992, calls that a partial reflection; from memory). So for every pair A, B the
// groups of points that fall apart without the two are mirrored and the fit is made again from there. It is another solution
// where it fits about as well, and a better one where it fits better by more than chance: then the estimate was on the wrong side.

import type { Point } from '../linkage/drawing.ts';
import { distance } from '../numerics/plane.ts';
import { certaintyOf, chiSquareAt, type Fit, tried } from './estimate.ts';
import { type Layout, placeOf, type Station } from './layout.ts';
import type { Reading } from './readings.ts';
import { isOpen } from './undetermined.ts';

/** Another place for some points. */
export interface OtherSolution {
  /** The points that lie elsewhere. */
  readonly points: readonly string[];
  readonly fit: Fit;
}

/** Chi-squares that differ by less may do so by chance, of three standard deviations. */
const ALIKE = 9;
/** A mirrored start that fits worse than this leads nowhere. */
const HOPELESS = 1000;
/** Points nearer than this are in one place, mm. */
const ONE_PLACE = 1;
const MOST_TRIED = 8;
/** An estimate with more points on wrong sides is none. */
const ROUNDS = 10;

/** Solutions of a survey. */
export interface Solutions {
  readonly best: Fit;
  /** Points that the first estimate had on the wrong side of a line. */
  readonly turned: readonly string[];
  /** What the readings don't tell from the best. */
  readonly others: readonly OtherSolution[];
}

/** The best solution, from a first one, and those that the readings don't tell from it. */
export function mirroredSolutions(layout: Layout, readings: readonly Reading[], first: Fit): Solutions {
  let best = first;
  for (let round = 0; ; round++) {
    const fits = fitsFromMirrored(layout, readings, best);
    const better = fits
      .filter((fit) => sum(fit) < sum(best) - ALIKE)
      .reduce<Fit>((a, b) => (sum(b) < sum(a) ? b : a), best);
    if (better === best || round === ROUNDS) {
      if (fits.length === 0 && best === first) return { best, turned: [], others: [] };
      const fixed = fixedStations(layout, readings, best);
      return { best, turned: movedPoints(fixed, first, best), others: othersBeside(fixed, best, fits) };
    }
    best = better;
  }
}

function fitsFromMirrored(layout: Layout, readings: readonly Reading[], from: Fit): Fit[] {
  const starts = mirroredStarts(layout, readings, from.unknowns)
    .map((start) => ({ start, chiSquare: chiSquareAt(layout, readings, start) }))
    .filter(({ chiSquare }) => chiSquare < HOPELESS + 10 * sum(from))
    .sort((a, b) => a.chiSquare - b.chiSquare)
    .slice(0, MOST_TRIED);
  return starts
    .map(({ start }) => tried(layout, readings, start))
    .filter(({ status }) => status === 'converged');
}

function othersBeside(fixed: readonly Station[], best: Fit, fits: readonly Fit[]): OtherSolution[] {
  const others: OtherSolution[] = [];
  for (const fit of fits) {
    const known = [best, ...others.map((other) => other.fit)];
    const isNew = known.every((other) => movedPoints(fixed, other, fit).length > 0);
    if (isNew && sum(fit) <= sum(best) + ALIKE) {
      others.push({ points: movedPoints(fixed, best, fit), fit });
    }
  }
  return others;
}

function sum({ chiSquare }: Fit): number {
  return chiSquare ?? Number.POSITIVE_INFINITY;
}

/** Points that lie in another place. */
function movedPoints(stations: readonly Station[], a: Fit, b: Fit): string[] {
  return stations.flatMap((station) => {
    const [from, to] = [placeOf(station, a.unknowns), placeOf(station, b.unknowns)];
    return distance(from, to) > ONE_PLACE ? [station.name] : [];
  });
}

/** The points that are fixed: any other lies in many places anyway. */
function fixedStations(layout: Layout, readings: readonly Reading[], { unknowns }: Fit): Station[] {
  const { open } = certaintyOf(layout, readings, unknowns);
  return [...layout.stations.values()].filter(({ forms }) => !forms.some((form) => isOpen(form, open)));
}

/** The unknowns with each group of points mirrored that hangs on two others alone. */
function mirroredStarts(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
): number[][] {
  const stations = [...layout.stations.values()];
  const neighbours = neighboursOf(layout, readings);
  return stations.flatMap((a, i) =>
    stations.slice(i + 1).flatMap((b) => {
      const [from, to] = [placeOf(a, unknowns), placeOf(b, unknowns)];
      if (distance(from, to) < ONE_PLACE) return [];
      return groupsWithout(neighbours, a.name, b.name).flatMap((group) => {
        const start = mirrored(layout, unknowns, group, from, to);
        return start === null ? [] : [start];
      });
    }),
  );
}

function neighboursOf({ stations }: Layout, readings: readonly Reading[]): Map<string, Set<string>> {
  const neighbours = new Map([...stations.keys()].map((name) => [name, new Set<string>()]));
  const groups = [
    ...readings.map(({ points }) => points),
    ...[...stations.values()].map(({ name, axis }) => [name, ...axis]),
  ];
  for (const group of groups) {
    for (const a of group) for (const b of group) if (a !== b) neighbours.get(a)?.add(b);
  }
  return neighbours;
}

/** The groups into which the points fall without two of them; none where they hold together. */
function groupsWithout(
  neighbours: ReadonlyMap<string, ReadonlySet<string>>,
  a: string,
  b: string,
): string[][] {
  const seen = new Set([a, b]);
  const groups: string[][] = [];
  for (const name of neighbours.keys()) {
    if (seen.has(name)) continue;
    const group = [name];
    seen.add(name);
    for (const point of group) {
      for (const next of neighbours.get(point) ?? []) {
        if (!seen.has(next)) {
          seen.add(next);
          group.push(next);
        }
      }
    }
    groups.push(group);
  }
  return groups;
}

/** The sought points of a group mirrored at the line through two places; null where that moves none of them. */
function mirrored(
  { stations }: Layout,
  unknowns: readonly number[],
  group: readonly string[],
  [ay, az]: Point,
  [by, bz]: Point,
): number[] | null {
  const length = Math.hypot(by - ay, bz - az);
  const n: Point = [-(bz - az) / length, (by - ay) / length];
  const start = [...unknowns];
  let moved = false;
  for (const name of group) {
    const station = stations.get(name);
    if (station?.kind !== 'sought') continue;
    const [y, z] = placeOf(station, unknowns);
    const side = n[0] * (y - ay) + n[1] * (z - az);
    moved ||= Math.abs(2 * side) > ONE_PLACE;
    station.forms.forEach(({ terms: [[unknown]] }, axis) => {
      start[unknown] -= 2 * side * n[axis];
    });
  }
  return moved ? start : null;
}

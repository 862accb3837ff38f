// Couplings: sums of measures, each times a factor, that stay as drawn. A ratio m_1 = r m_2 of two changes is m_1 - r m_2. A rope runs
// straight from pulley to pulley, and round each. From the centre of one to that of the next, W = (t + i s) e with e its unit direction:
// t is its straight length and s = r_2 - r_1, a radius being positive where the centre is to the left. With e = exp(i phi) the rope is
// longer by what
//
//   sum over straight parts of t - s phi
//
// has grown: r_2 phi is wound on the second pulley less than r_1 phi is unwound from the first. Its derivative is conj(e) . dW, so that
// the rope pulls both centres along e.

/** A measure that a ratio couples, by its change from the drawn pose. */
export type CoupledMeasure<P extends string = string, B extends string = string> =
  /** Turn of a body, radians, counter-clockwise positive, over any number of revolutions; relative to another body, such as the carrier of planets. */
  | { readonly turn: B; readonly relativeTo?: B }
  /** Travel of a point along a line of a body (or of the ground), positive from the line's first point to its second. */
  | { readonly travel: P; readonly along: readonly [P, P] }
  | { readonly x: P }
  | { readonly y: P }
  /** Distance of two points. */
  | { readonly length: readonly [P, P] };

/**
 * Two measures that change in a fixed ratio: gears, a rack, a belt. The change of the first is `ratio` times that of the second, in the
 * drawing's unit or radians: external gears of z1 and z2 teeth have `-z2 / z1`. Pitch radii are not drawn.
 */
export interface Ratio<P extends string = string, B extends string = string> {
  readonly of: readonly [CoupledMeasure<P, B>, CoupledMeasure<P, B>];
  readonly ratio: number;
}

/** A pulley about a point, on the `left` or the `right` of the rope as it runs. */
export interface Pulley<P extends string = string> {
  readonly about: P;
  /** In the drawing's unit, 0 or more. */
  readonly radius: number;
  readonly side: 'left' | 'right';
}

/** A rope of constant length from point to point, in order; between its ends it runs over pulleys without friction. */
export type Rope<P extends string = string> = readonly (P | Pulley<P>)[];

/** A measure that constraints sum: `aside` is s of a straight part of rope, whose turn on pulleys goes into the sum. */
export type Summand =
  | { readonly turn: string }
  | { readonly travel: string; readonly along: readonly [string, string] }
  | { readonly x: string }
  | { readonly y: string }
  | { readonly length: readonly [string, string]; readonly aside: number };

/** A measure and its factor in a sum. */
export type Term = readonly [of: Summand, factor: number];

/** The sum that a ratio keeps. */
export function termsOfRatio({ of: [first, second], ratio }: Ratio): Term[] {
  return [...termsOf(first, 1), ...termsOf(second, -ratio)];
}

function termsOf(measure: CoupledMeasure, factor: number): Term[] {
  if ('length' in measure) return [[{ length: measure.length, aside: 0 }, factor]];
  if (!('turn' in measure)) return [[measure, factor]];
  const { turn, relativeTo } = measure;
  const own: Term = [{ turn }, factor];
  return relativeTo === undefined ? [own] : [own, [{ turn: relativeTo }, -factor]];
}

/** The sum that a rope keeps: its straight parts. */
export function termsOfRope(rope: Rope): Term[] {
  return straightParts(rope).map((part) => [part, 1]);
}

/** The straight parts of a rope, between the centres of pulleys. */
export function straightParts(rope: Rope): { readonly length: [string, string]; readonly aside: number }[] {
  const stops = rope.map((stop) => {
    if (typeof stop === 'string') return { point: stop, radius: 0 };
    return { point: stop.about, radius: stop.side === 'left' ? stop.radius : -stop.radius };
  });
  return stops.slice(1).map((stop, k) => ({
    length: [stops[k].point, stop.point],
    aside: stop.radius - stops[k].radius,
  }));
}

/** Points that a measure names. */
export function pointsOf(measure: CoupledMeasure): readonly string[] {
  if ('turn' in measure) return [];
  if ('travel' in measure) return [measure.travel, ...measure.along];
  if ('length' in measure) return measure.length;
  return ['x' in measure ? measure.x : measure.y];
}

/** The couplings of a drawing in its mirror image, x to -x. */
export function mirroredCouplings({
  ratios,
  ropes,
}: {
  readonly ratios?: Readonly<Record<string, Ratio>>;
  readonly ropes?: Readonly<Record<string, Rope>>;
}): { ratios?: Record<string, Ratio>; ropes?: Record<string, Rope> } {
  return {
    ...(ratios === undefined ? {} : { ratios: renewed(ratios, mirroredRatio) }),
    ...(ropes === undefined ? {} : { ropes: renewed(ropes, (rope) => rope.map(mirroredStop)) }),
  };
}

function mirroredRatio({ of, ratio }: Ratio): Ratio {
  const sign = (measure: CoupledMeasure) => ('turn' in measure || 'x' in measure ? -1 : 1);
  return { of, ratio: ratio * sign(of[0]) * sign(of[1]) };
}

function mirroredStop(stop: Rope[number]): Rope[number] {
  if (typeof stop === 'string') return stop;
  return { ...stop, side: stop.side === 'left' ? 'right' : 'left' };
}

function renewed<T>(all: Readonly<Record<string, T>>, renew: (one: T) => T): Record<string, T> {
  return Object.fromEntries(Object.entries(all).map(([name, one]) => [name, renew(one)]));
}

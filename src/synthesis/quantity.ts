// Quantities of a motion beside measures. With t the driver and m a measure,
//
//   velocity ratio      dm/dt
//   transmission angle  mu = |theta|,  theta the angle in (-pi, pi] from the output link to the coupler at the joint of both
//
// (H. Alt, "Der Übertragungswinkel und seine Bedeutung für das Konstruieren periodischer Getriebe", Werkstattstechnik 26, 1932; from
// memory). With u the line from that joint along the coupler and v that along the output link, as forms, theta = arg(conj(v) u): the angle
// of u relative to a frame that turns with v. Of an output that slides, v is square to the slide, to the left: a link without end.

import { type Diagnostic, fault, show, unknownName } from '../diagnostic.ts';
import { InputError } from '../errors/input-error.ts';
import { addForms, constantForm, isConstant } from '../linkage/form.ts';
import { type BoundMeasure, bindMeasure, type Measure } from '../linkage/measure.ts';
import { difference, type System } from '../linkage/system.ts';

/**
 * The lines between which a transmission angle is: the coupler to its joint with the output, and there the output link, from that joint
 * to its pivot, or the line along which the output slides.
 */
export type Transmission<P extends string = string> =
  | { readonly coupler: readonly [P, P]; readonly output: readonly [P, P] }
  | { readonly coupler: readonly [P, P]; readonly slide: readonly [P, P] };

/**
 * What is looked at over a motion:
 *
 * - a measure;
 * - `{ transmissionAngle }`: between coupler and output link, 0 to pi, best at pi/2, where the force of the coupler is square to the
 *   output link;
 * - `{ velocityRatio }`: the derivative of a measure by the driver, positive where both grow together.
 */
export type Quantity<P extends string = string, B extends string = string> =
  | Measure<P, B>
  | { readonly transmissionAngle: Transmission<P> }
  | { readonly velocityRatio: Measure<P, B> };

/** A quantity bound to a system. */
export interface BoundQuantity {
  readonly kind: 'measure' | 'transmissionAngle' | 'velocityRatio';
  /** What is read of the motion. */
  readonly measure: BoundMeasure;
  /** For a transmission angle, by which the measure exceeds theta: the drawn direction of the output line. */
  readonly zero: number;
  /** For a transmission angle, the two points of the output line by index. */
  readonly line: readonly [number, number] | null;
}

/** Value, first and second derivative with respect to the driver; a velocity ratio has no second one. */
export type Reading = readonly [value: number, first: number, second: number];

/** What a quantity is, from the reading of its measure. */
export function quantityOf({ kind, zero }: BoundQuantity, [value, first, second]: Reading): Reading {
  if (kind === 'measure') return [value, first, second];
  if (kind === 'velocityRatio') return [first, second, Number.NaN];
  const theta = wrapped(value - zero);
  const sign = theta < 0 ? -1 : 1;
  return [sign * theta, sign * first, sign * second];
}

/** An angle in (-pi, pi]. */
export function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.ceil(angle / (2 * Math.PI) - 0.5);
}

/** Binds a quantity, or says what is wrong with it. */
export function bindQuantity(
  system: System,
  quantity: Quantity,
  path: string,
  faults: Diagnostic[],
): BoundQuantity | null {
  if (typeof quantity === 'object' && quantity !== null) {
    if ('transmissionAngle' in quantity) {
      return bindTransmission(system, quantity.transmissionAngle, `${path}.transmissionAngle`, faults);
    }
    if ('velocityRatio' in quantity) {
      const measure = bindOrFault(system, quantity.velocityRatio, `${path}.velocityRatio`, faults);
      return measure && { kind: 'velocityRatio', measure, zero: 0, line: null };
    }
  }
  const measure = bindOrFault(system, quantity, path, faults);
  return measure && { kind: 'measure', measure, zero: 0, line: null };
}

/** Binds a measure, or says what is wrong with it. */
export function bindOrFault(
  system: System,
  measure: Measure,
  path: string,
  faults: Diagnostic[],
): BoundMeasure | null {
  try {
    return bindMeasure(system, measure, path);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    faults.push(...error.issues.map(({ code, path: at, values }) => fault(code, at, values)));
    return null;
  }
}

function bindTransmission(
  system: System,
  lines: Transmission,
  path: string,
  faults: Diagnostic[],
): BoundQuantity | null {
  const { index } = system.structure;
  const [to, other] = isSlide(lines)
    ? (['slide', lines.slide] as const)
    : (['output', lines?.output] as const);
  const lineOf = (name: string, pair: unknown): [number, number] | null => {
    if (!Array.isArray(pair) || pair.length !== 2) {
      faults.push(fault('notALine', `${path}.${name}`, { got: show(pair) }));
      return null;
    }
    const unknown = pair.map((one, k) => {
      if (index.has(one)) return false;
      faults.push(unknownName(`${path}.${name}[${k}]`, 'point', one, [...index.keys()]));
      return true;
    });
    if (unknown.includes(true)) return null;
    const [a, b] = pair.map((one) => index.get(one) as number);
    const { x, y } = difference(system, a, b);
    if (x !== 0 || y !== 0) return [a, b];
    faults.push(fault('coincidentPoints', `${path}.${name}`, { of: 'direction', got: show(pair) }));
    return null;
  };
  const [coupler, line] = [lineOf('coupler', lines?.coupler), lineOf(to, other)];
  if (coupler === null || line === null) return null;
  const [a, joint] = coupler;
  const v = difference(system, ...line);
  const square = v.x * v.x + v.y * v.y;
  const frame = isConstant(v)
    ? null
    : {
        form: addForms(constantForm(0, 0), v, v.x / square, -v.y / square, 1, 0),
        ends: line,
      };
  return {
    kind: 'transmissionAngle',
    measure: {
      kind: 'angle',
      unit: 1,
      form: difference(system, joint, a),
      frame,
      ends: [joint, a],
      zero: 0,
      fromDrawn: false,
      offset: 0,
      rigid: false,
    },
    zero: Math.atan2(v.y, v.x) + (to === 'slide' ? 0.5 * Math.PI : 0),
    line,
  };
}

function isSlide(lines: Transmission): lines is Extract<Transmission, { slide: unknown }> {
  return typeof lines === 'object' && lines !== null && 'slide' in lines;
}

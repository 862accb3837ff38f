// A helical compression spring of round wire: d wire, D mean diameter, n active coils of n_t in all, G shear modulus, w = D/d.
//
//   rate       R   = G d^4 / (8 D^3 n)
//   stress     tau = k 8 D F / (pi d^3),   k = (w + 0.5) / (w - 0.75)
//   solid      n_t d where the ends are ground, (n_t + 1) d where not
//   least      L_n = L_c + S_a,  L_c = n_t d ground, (n_t + 1.5) d not ground
//              S_a = n (0.0015 D^2/d + 0.1 d) cold formed,  0.02 (D + d) n hot formed
//
// Rate, k, L_c, S_a: EN 13906-1:2013 (from memory: look it up before quoting a clause). Coils by ends and solid lengths: R. G. Budynas,
// J. K. Nisbett, "Shigley's Mechanical Engineering Design", table 10-1 (from memory).

import { type Diagnostic, fault, show } from '../../diagnostic.ts';
import type { CoilSpringInput } from '../../document/inputs.ts';
import { refuse } from '../../errors/sizing.ts';
import { power } from '../../numerics/power.ts';

/** Type of the spring ends. */
export type CoilEnds = CoilSpringInput['ends'];

/** A spring computed from its wire. */
export interface CoilSpring {
  /** N/mm. */
  readonly rate: number;
  /** Active coils. */
  readonly activeCoils: number;
  /** Spring index: mean diameter ÷ wire diameter. */
  readonly springIndex: number;
  /** Solid length L_c: all coils touch, mm. */
  readonly solidLength: number;
  /** Minimum permissible length L_n (EN 13906-1), mm. */
  readonly minLength: number;
  /** Inner diameter, mm. */
  readonly innerDiameter: number;
  /** Stress correction factor for the curvature of the wire. */
  readonly stressCorrection: number;
  /** Corrected shear stress of the wire per N of spring force, N/mm² per N. */
  readonly stressPerNewton: number;
}

const SPRING_STEEL = 81_500;
/** Coils at the ends that do not work. */
const IDLE: Readonly<Record<CoilEnds, number>> = { closedGround: 2, closed: 2, openGround: 1, open: 0 };

/**
 * Rate, solid length and minimum permissible length of a spring from its wire and coils.
 *
 * @throws InputError for sizes that make no spring.
 */
export function coilSpring(input: CoilSpringInput): CoilSpring {
  refuse('coil spring', coilFaults({ ...input }));
  const {
    diameter: d,
    meanDiameter: D,
    totalCoils,
    ends,
    shearModulus: G = SPRING_STEEL,
    hotFormed = false,
  } = input;
  const n = totalCoils - IDLE[ends];
  const ground = ends === 'closedGround' || ends === 'openGround';
  const w = D / d;
  const k = (w + 0.5) / (w - 0.75);
  const clearance = hotFormed ? 0.02 * (D + d) * n : n * ((0.0015 * D * D) / d + 0.1 * d);
  return {
    rate: (G * power(d, 4)) / (8 * power(D, 3) * n),
    activeCoils: n,
    springIndex: w,
    solidLength: (ground ? totalCoils : totalCoils + 1) * d,
    minLength: (ground ? totalCoils : totalCoils + 1.5) * d + clearance,
    innerDiameter: D - d,
    stressCorrection: k,
    stressPerNewton: (k * 8 * D) / (Math.PI * power(d, 3)),
  };
}

/** What makes no spring of sizes. */
export function coilFaults({
  diameter,
  meanDiameter,
  totalCoils,
  ends,
  shearModulus = SPRING_STEEL,
}: Partial<CoilSpringInput> = {}): Diagnostic[] {
  const faults: Diagnostic[] = [];
  const more = (path: string, value: unknown, above: number) => {
    if (isNumber(value) && value > above) return;
    const code = path === 'diameter' || path === 'meanDiameter' ? 'coilDiameterOutOfRange' : 'coilOutOfRange';
    faults.push(fault(code, path, { value: isNumber(value) ? value : show(value), above }));
  };
  more('diameter', diameter, 0);
  more('meanDiameter', meanDiameter, isNumber(diameter) ? Math.max(0, diameter) : 0);
  if (ends !== undefined && Object.hasOwn(IDLE, ends)) more('totalCoils', totalCoils, IDLE[ends]);
  else faults.push(fault('coilEndsUnknown', 'ends', { got: show(ends), allowed: Object.keys(IDLE) }));
  more('shearModulus', shearModulus, 0);
  return faults;
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

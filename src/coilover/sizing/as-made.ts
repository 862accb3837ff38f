// What a maker's tolerances do. With R and k_w at the pose, F_c and k_c force and rate of the coil, and the perch as it was set for the
// ordered spring:
//
//   extended or compressed length off by t   t / R of wheel travel at that end
//   seat position off by t                   t k_c R / k_w of ride height
//   rate off by a share q                    -q F_c R / k_w of ride height until the perch is reset
//
// None of these is written down as a formula: lengths, seat and rate are moved, and everything else follows.

/** By how much a coilover comes out different from its order: all 0 as ordered. */
export interface AsMade {
  /** mm. */
  readonly extendedLength: number;
  /** mm. */
  readonly compressedLength: number;
  /** By how much the seats stand farther from the eyes, mm. */
  readonly seat: number;
  /** Of the main spring's rate, as a share of 1. */
  readonly rate: number;
}

export const AS_ORDERED: AsMade = { extendedLength: 0, compressedLength: 0, seat: 0, rate: 0 };

/** A damper as it is made, mm. */
export function madeDamper<
  Damper extends { readonly extendedLength: number; readonly compressedLength: number },
>(damper: Damper, made: AsMade): Damper {
  return {
    ...damper,
    extendedLength: damper.extendedLength + made.extendedLength,
    compressedLength: damper.compressedLength + made.compressedLength,
  };
}

/** A spring as it is made. */
export function madeSpring<Spring extends { readonly rate: number }>(
  spring: Spring,
  { rate }: AsMade,
): Spring {
  return rate === 0 ? spring : { ...spring, rate: spring.rate * (1 + rate) };
}

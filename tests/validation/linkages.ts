/** A linkage solved, the tests that hold it, and what they are held against. */
export interface Solved {
  readonly linkage: string;
  /** File under tests/, and the start of the names of its tests. */
  readonly file: string;
  readonly tests: string;
  readonly source: string;
}

const KHURMI = 'R. S. Khurmi, J. K. Gupta, "Theory of Machines"';
const MERIAM = 'J. L. Meriam, L. G. Kraige, "Engineering Mechanics: Dynamics"';
const NORTON = 'R. L. Norton, "Design of Machinery"';

/** In the order of the table. */
export const SOLVED: readonly Solved[] = [
  {
    linkage: "Andrews' squeezing mechanism: places, velocities, accelerations",
    file: 'linkage/andrews.test.ts',
    tests: 'Andrews',
    source: 'Test Set for IVP Solvers (Univ. Bari / INdAM), 16 to 30 digits, read',
  },
  {
    linkage: "the spring of Andrews' mechanism",
    file: 'linkage/andrews.test.ts',
    tests: "the spring of Andrews'",
    source: 'the same, multipliers 1 and 2',
  },
  {
    linkage: 'four-bar 40/120/80/100: places, rates, second rates, both assemblies',
    file: 'linkage/four-bar.test.ts',
    tests: 'a crank-rocker 40/120/80/100 at 40 degrees',
    source: `${NORTON}, Examples 4-1, 6-7, 7-1, from memory`,
  },
  {
    linkage: 'crank-rocker 40/120/80/100: limits, time ratio, dead points',
    file: 'linkage/four-bar.test.ts',
    tests: 'the limits of a crank-rocker',
    source: 'law of cosines',
  },
  {
    linkage: 'crank-rocker 40/120/80/100: transmission angle',
    file: 'linkage/four-bar.test.ts',
    tests: 'the transmission angle',
    source: 'law of cosines',
  },
  {
    linkage: 'four-bar with exact rational rates',
    file: 'linkage/four-bar.test.ts',
    tests: 'the four-bar of Meriam and Kraige',
    source: `${MERIAM}, Sample Problems 5/8, 5/14, read`,
  },
  {
    linkage: 'four-bars of graphical examples, recomputed',
    file: 'linkage/four-bar.test.ts',
    tests: 'graphical textbook examples',
    source: `${KHURMI}, Example 7.1 and ch. 8; T. Bevan, ch. 3, Example 5; read`,
  },
  {
    linkage: 'any four-bar through several turns',
    file: 'linkage/full-turns.test.ts',
    tests: 'a driver through several full turns',
    source: 'closed form of two circles',
  },
  {
    linkage: 'slider-cranks in line and off it',
    file: 'linkage/sliders.test.ts',
    tests: 'a slider-crank',
    source: `${MERIAM}, Sample Problems 5/9, 5/15; ${KHURMI}, Examples 8.1, 15.2, 15.5; T. Bevan, ch. 3, Example 3; read; closed form`,
  },
  {
    linkage: 'quick returns with a block in a slot; a peg in a slotted arm',
    file: 'linkage/sliders.test.ts',
    tests: 'a point in the slot of an arm',
    source: `${KHURMI}, Examples 5.1 to 5.3; R. C. Hibbeler, "Dynamics", Problem 16-48; read`,
  },
  {
    linkage: 'telescope between a pivot and a swinging arm',
    file: 'linkage/inverted-slider-crank.test.ts',
    tests: 'the telescope of Meriam and Kraige',
    source: `${MERIAM}, Sample Problems 5/17, 5/18, read`,
  },
  {
    linkage: 'quick returns by the line of a telescope',
    file: 'linkage/inverted-slider-crank.test.ts',
    tests: 'a quick return',
    source: `${KHURMI}, Examples 5.1 to 5.3, read`,
  },
  {
    linkage: "Peaucellier's and Lipkin's cell",
    file: 'linkage/straight-line.test.ts',
    tests: 'Peaucellier',
    source: 'theorem: OB OD = a^2 - b^2, a straight line; dimensions read',
  },
  {
    linkage: "Hart's first inversor",
    file: 'linkage/straight-line.test.ts',
    tests: "Hart's first",
    source: 'theorem; dimensions read',
  },
  {
    linkage: "Hart's second inversor",
    file: 'linkage/straight-line.test.ts',
    tests: "Hart's second",
    source: 'theorem; dimensions read',
  },
  {
    linkage: "Chebyshev's linkage",
    file: 'linkage/straight-line.test.ts',
    tests: "Chebyshev's linkage",
    source: 'three exact points; greatest rise derived from the read dimensions',
  },
  {
    linkage: "Chebyshev's lambda",
    file: 'linkage/straight-line.test.ts',
    tests: "Chebyshev's lambda",
    source: 'cognate of the crossed bars, by theorem; dimensions read',
  },
  {
    linkage: "Roberts' linkage",
    file: 'linkage/straight-line.test.ts',
    tests: "Roberts' linkage",
    source: 'recomputed; dimensions from memory',
  },
  {
    linkage: "Watt's curve, lemniscate and circle",
    file: 'linkage/straight-line.test.ts',
    tests: "Watt's curve",
    source: 'polar equation of the curve, from memory, recomputed',
  },
  {
    linkage: 'parallelogram',
    file: 'linkage/straight-line.test.ts',
    tests: 'a parallelogram',
    source: 'exact circles',
  },
  {
    linkage: 'five-bar with two drivers',
    file: 'linkage/joints.test.ts',
    tests: 'a linkage of two freedoms',
    source: 'closed form of two circles',
  },
  {
    linkage: 'the other assembly of a four-bar',
    file: 'linkage/joints.test.ts',
    tests: 'the other assembly',
    source: `${NORTON}, Example 4-1, from memory`,
  },
  {
    linkage: 'redundant and rounded cranks, flat parallelograms',
    file: 'linkage/mobility.test.ts',
    tests: 'what is redundant',
    source: 'exact geometry of circles',
  },
  {
    linkage: 'any double wishbone, every column',
    file: 'corner/closed-form.test.ts',
    tests: 'any corner, by circle intersection',
    source: 'circle intersections, an independent closed form',
  },
  {
    linkage: 'any double wishbone, places',
    file: 'corner/planegcs.test.ts',
    tests: '',
    source: '`@salusoft89/planegcs` 1.3.0, a general 2D constraint solver',
  },
  {
    linkage: 'parallelogram and swing-arm corners, their limits',
    file: 'corner/limits-closed-form.test.ts',
    tests: '',
    source: 'law of cosines and exact circles',
  },
];

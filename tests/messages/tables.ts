// The tables of sentences by what they are about, for the page that lists every code.

import { ASSUMPTIONS, OPEN_QUESTIONS } from '../../src/sentences/assumptions.ts';
import { AXLE } from '../../src/sentences/axle.ts';
import { AXLE_PARTS } from '../../src/sentences/axle-parts.ts';
import { CAR_REST } from '../../src/sentences/car-rest.ts';
import { CHECKS } from '../../src/sentences/checks.ts';
import { CORNER } from '../../src/sentences/corner.ts';
import { DESIGN } from '../../src/sentences/design.ts';
import { DESIGNED } from '../../src/sentences/designed.ts';
import { DOCUMENT } from '../../src/sentences/document.ts';
import { DONOR_DAMPER } from '../../src/sentences/donor.ts';
import { DRIVERS } from '../../src/sentences/drivers.ts';
import { EQUILIBRIUM } from '../../src/sentences/equilibrium.ts';
import { FILE } from '../../src/sentences/file.ts';
import { FORCES } from '../../src/sentences/forces.ts';
import { HAND_METHOD } from '../../src/sentences/hand-method.ts';
import { BOUNDED, INPUT } from '../../src/sentences/input.ts';
import { LIMITS } from '../../src/sentences/limits.ts';
import { LINKAGE } from '../../src/sentences/linkage.ts';
import { LOADS } from '../../src/sentences/loads.ts';
import { MOTION } from '../../src/sentences/motion.ts';
import { ORDERED } from '../../src/sentences/ordered.ts';
import { PLACEMENTS } from '../../src/sentences/placements.ts';
import type { PlainSay, Words } from '../../src/sentences/plain.ts';
import { REPORT } from '../../src/sentences/report.ts';
import { RESULT } from '../../src/sentences/result.ts';
import { SIZING } from '../../src/sentences/sizing.ts';
import { SPRINGS } from '../../src/sentences/springs.ts';
import { STATIC_STABILITY } from '../../src/sentences/static-stability.ts';
import { SURVEY } from '../../src/sentences/survey.ts';
import { SURVEYED } from '../../src/sentences/surveyed.ts';
import { SYNTHESIS, SYNTHESISED } from '../../src/sentences/synthesis.ts';
import { TESTING } from '../../src/sentences/testing.ts';
import { THIRD_SPRING } from '../../src/sentences/third-spring.ts';
import { TRAVEL } from '../../src/sentences/travel.ts';

/** Sentences by code. */
export type Table = Record<string, Words | ((say: PlainSay) => Words)>;

/** Whether what a module of `src/sentences` exports is a table: words, or what makes them, under each name. */
export function isTable(value: unknown): value is Table {
  const isSentence = (one: unknown) =>
    typeof one === 'function' || (typeof one === 'object' && one !== null && 'problem' in one);
  return typeof value === 'object' && value !== null && Object.values(value).every(isSentence);
}

/** Each table with its heading on the page; a code stands under the first heading that has it. */
export const TABLES: readonly (readonly [heading: string, table: Table])[] = [
  ['Any input', { ...INPUT, ...BOUNDED }],
  ['Drawings, measures and motions of a linkage', { ...LINKAGE, ...MOTION }],
  ['Points placed by lengths', PLACEMENTS],
  ['Several drivers', DRIVERS],
  ['Equilibria', EQUILIBRIUM],
  ['Laws', TESTING],
  ['Corners', CORNER],
  ['Axles', { ...AXLE_PARTS, ...AXLE }],
  ['Cars at rest', CAR_REST],
  ['Hardpoints and shapes of an input', DOCUMENT],
  ['Files', FILE],
  ['Inputs that look wrong', CHECKS],
  ['Travel limits', LIMITS],
  ['Required and available travel', TRAVEL],
  ['Donor damper', DONOR_DAMPER],
  ['Hand method', HAND_METHOD],
  ['Forces', FORCES],
  ['Masses and loads', LOADS],
  ['Springs', SPRINGS],
  ['Third spring', THIRD_SPRING],
  ['Static stability', STATIC_STABILITY],
  ['Sizing', SIZING],
  ['Assumptions', ASSUMPTIONS],
  ['Open questions', OPEN_QUESTIONS],
  ['After the order', ORDERED],
  ['Survey', SURVEY],
  ['Corners made from a survey', SURVEYED],
  ['Options of a design', DESIGN],
  ['Results of a design', DESIGNED],
  ['Options of a synthesis', SYNTHESIS],
  ['Results of a synthesis', SYNTHESISED],
  ['Reports and pictures', { ...REPORT, ...RESULT }],
].map(([heading, table]) => [heading as string, table as Table]);

/** Codes by the heading that they stand under. */
export function codesByHeading(): Map<string, string[]> {
  const seen = new Set<string>();
  const sections = new Map<string, string[]>();
  for (const [heading, table] of TABLES) {
    const own = Object.keys(table).filter((code) => !seen.has(code));
    for (const code of own) seen.add(code);
    if (own.length > 0) sections.set(heading, own.sort());
  }
  return sections;
}

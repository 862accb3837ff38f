// Figures and words as tables and pictures show them.

import type { LimitCause } from '../corner/limits/limits.ts';
import type { SweepEnd } from '../corner/sweep.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import { fromMetric, type Units, unitName } from '../units.ts';
import { unitsFaults } from './looks.ts';

/** Decimals that make sense on a car measured with a tape: tenths of a mm, hundredths of a degree. */
const DECIMALS: Readonly<Record<string, number>> = {
  mm: 1,
  in: 2,
  deg: 2,
  '': 3,
  '1/mm': 5,
  '1/in': 4,
};

/** A value rounded for reading, in its unit; a dash where it is not defined. Never a minus before zero. */
export function figure(value: number | null, unit: string): string {
  if (value === null) return '-';
  return plainZero(value.toFixed(DECIMALS[unit] ?? 3));
}

/** A travel as `+70`, `-12.5` or `0`: in mm at most one decimal, in inches two. */
export function signedTravel(travel: number, unit = 'mm'): string {
  const text = travel.toFixed(DECIMALS[unit]).replace(/\.0$/, '');
  if (Number(text) === 0) return '0';
  return travel > 0 ? `+${text}` : text;
}

function plainZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** Words with the true minus sign before figures, for print; hyphens and dates stay. */
export function printed(words: string): string {
  return words.replace(/(?<![\p{L}\d.)])-(?=\d)/gu, '\u2212').replace(/^-$/, '\u2013');
}

/** A unit behind what is counted in it: ` [in]`, or nothing for a number without a unit. */
export function inBrackets(name: string): string {
  return name === '' ? '' : ` [${name}]`;
}

/** A travel (mm) in the units asked for: `+63.4 mm`, `-2.50 in`. */
export function travelIn(travel: number, units: Units): string {
  const unit = unitName('length', units);
  return `${signedTravel(fromMetric(travel, 'length', units), unit)} ${unit}`;
}

/** How a sweep ended on one side, as a sentence without its subject: `dead point at +63.4 mm: ...`. */
export function describeSweepEnd(end: SweepEnd, units: Units = 'metric'): string {
  refuseOtherThan('sweep end', end);
  refuse('units', unitsFaults(units));
  const travel = travelIn(end.travel, units);
  const at = `at ${travel}`;
  switch (end.status) {
    case 'reached':
      return `reached ${travel}, as requested`;
    case 'deadPoint':
      return `dead point ${at}: the linkage cannot move the wheel farther`;
    case 'closed':
      return `closed ${at}: the motion has returned to the drawn pose`;
    case 'locked':
      return `locked ${at}: ${end.constraint ?? 'a length'} cannot be kept any farther`;
    case 'bifurcation':
      return `bifurcation ${at}: the linkage gains a degree of freedom there`;
    case 'unbounded':
      return `unbounded ${at}: the motion has no end`;
    case 'stepLimit':
      return `step limit ${at}: the path is too long to follow`;
  }
}

/** The same in a word or two, for a picture; empty where the travel asked for was reached. */
export function endMark(end: SweepEnd): string {
  const marks = {
    reached: '',
    deadPoint: 'dead point',
    closed: 'motion closes',
    locked: 'locks',
    bifurcation: 'bifurcation',
    unbounded: 'unbounded',
    stepLimit: 'step limit',
  };
  return marks[end.status];
}

/** What ends the travel, in a word or two, for a picture. */
export function causeWords(cause: LimitCause): string {
  const words: Readonly<Record<LimitCause, string>> = {
    damperExtended: 'damper extended',
    damperCompressed: 'damper compressed',
    springMinLength: 'spring at minimum length',
    bumpStopSolid: 'bump stop solid',
    ballJointArticulation: 'ball joint at its limit',
    bearingMisalignment: 'bearing at its limit',
    tyreContact: 'tyre contact',
    groundContact: 'ground contact',
    deadPoint: 'dead point',
    ratioZero: 'ratio zero',
    locked: 'linkage locks',
    bifurcation: 'bifurcation',
  };
  return words[cause];
}

// Advance widths of DejaVu Sans in thousandths of the font size, in groups of characters, each at its widest.
const WIDTHS: readonly (readonly [characters: string, width: number])[] = [
  ["'ijl", 278],
  [' ,./:;\\|IJ', 337],
  ['()[]-ft', 392],
  ['!r"', 460],
  ['*_`\u2013\u00b0szc?LF', 575],
  ['abdeghknopquvxyEPSTY$0123456789{}', 636],
  ['ABKRVXZ', 698],
  ['CDGHNU&', 787],
  ['OQw#+<=>^~\u2212\u2192\u2191', 838],
];
const WIDEST = 1000;
/** Bold characters are wider by at most this. */
const BOLD = 1.25;

/** Width of a text at a font size, not less than it has in DejaVu Sans (other sans-serif fonts are narrower). */
export function textWidth(text: string, size: number, bold = false): number {
  let sum = 0;
  for (const character of text) {
    sum += WIDTHS.find(([characters]) => characters.includes(character))?.[1] ?? WIDEST;
  }
  return (sum / 1000) * size * (bold ? BOLD : 1);
}

/** The font size at which a text fits a width: the one wanted, or as much less as it takes. */
export function fittingSize(text: string, wanted: number, width: number, bold = false): number {
  return Math.min(wanted, (wanted * width) / textWidth(text, wanted, bold));
}

/** A text broken at spaces into lines of at most so many characters (longer words stand alone). */
export function fold(text: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
}

// Finds hardpoints beside the page: readings as text come in, with a car to put the points into if that is wanted; what the survey says, the
// points and the changed car go out.
import { type Survey, sentence, survey, writeSurveyedCorner } from 'jounce';
import { fromMetric, unitName } from '#jounce/units.js';
import { spaced } from '#jounce/words.js';
import { LENGTHS, shown } from './in-units.ts';
import { refusal } from './refusal.ts';
import { type AxleName, isCar, jsonText } from './shown-file.ts';

export interface Question {
  readonly readings: string;
  /** The car file as text, and its corner. */
  readonly into: { readonly file: string; readonly corner: AxleName } | null;
}

export interface Surveyed {
  /** What the readings were, to tell late answers from the present one. */
  readonly readings: string;
  /** What the survey says, or why it is refused. */
  readonly words: readonly string[];
  readonly unit: string;
  /** Each point by its name, y and z with their half-widths; empty if the readings are refused. */
  readonly points: readonly { readonly name: string; readonly y: string; readonly z: string }[];
  /** Why the points cannot be put into the car; empty if they can, or need not. */
  readonly refused: string;
  /** The car with the points, as text; null if that was not asked for or cannot be. */
  readonly file: string | null;
}

function answer({ readings, into }: Question): Surveyed {
  let found: Survey;
  try {
    found = survey(readings);
  } catch (error) {
    return { readings, words: [refused(error)], unit: '', points: [], refused: '', file: null };
  }
  const { units, notes, diagnostics } = found;
  const told = {
    readings,
    words: [...notes, ...diagnostics].map((one) => sentence(one, units)),
    unit: unitName('length', units),
    points: pointsOf(found),
    refused: '',
  };
  if (into === null) return { ...told, file: null };
  try {
    const options = isCar(into.file) ? { corner: into.corner } : {};
    return { ...told, file: jsonText(writeSurveyedCorner(into.file, found, options)) };
  } catch (error) {
    return { ...told, refused: refused(error), file: null };
  }
}

function refused(error: unknown): string {
  const words = refusal(error);
  if (words === null) throw error;
  return words;
}

function pointsOf({ points, units }: Survey): Surveyed['points'] {
  const { decimals } = LENGTHS[units];
  const length = (mm: number | null) =>
    mm === null ? '?' : shown(fromMetric(mm, 'length', units), decimals);
  return Object.entries(points).map(([name, { at, plusMinus }]) => {
    const [y, z] = at.map((mm, axis) => `${length(mm)} ± ${length(plusMinus[axis])}`);
    return { name: spaced(name), y, z };
  });
}

// A worker's own scope: the types are those of a page.
const scope = globalThis as unknown as {
  onmessage: (event: { data: Question }) => void;
  postMessage(answer: Surveyed): void;
};
scope.onmessage = ({ data }) => scope.postMessage(answer(data));

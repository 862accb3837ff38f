import { spaced } from '../../words.ts';
import type { CornerModel } from '../model.ts';
import { type Eyes, lengthOf } from './damper.ts';
import type { CheckedOptions } from './options.ts';
import { drawnSense } from './ratio.ts';
import type { TravelPath } from './travel-path.ts';
import { tyreNotes } from './tyre-clearance.ts';
import type { Words } from './words.ts';

/** What a tape can tell, mm. */
const TAPE = 0.5;

/** What to look at again, though the limits could be found. */
export function notesOn(
  options: CheckedOptions,
  model: CornerModel,
  travelPath: TravelPath,
  eyes: Eyes,
  words: Words,
): string[] {
  const { damper, bumpStop, tyre, arch = [], ballJoints = {} } = options;
  const notes: string[] = [];
  const ride = lengthOf(eyes, travelPath.drawn);
  const sense = drawnSense(eyes, travelPath);
  if (sense < 0) {
    notes.push('Bump lengthens the coilover at the drawn ride height: is it mounted as meant?');
  }
  if (damper !== undefined) {
    const [side, other] = sense < 0 ? ['bump', 'droop'] : ['droop', 'bump'];
    if (Math.abs(damper.extendedLength - ride) <= TAPE) {
      notes.push(
        `The damper is all but fully extended at the drawn ride height (${words.length(ride)} of ${words.length(damper.extendedLength)}): there is no ${side} travel left.`,
      );
    }
    if (Math.abs(ride - damper.compressedLength) <= TAPE) {
      notes.push(
        `The damper is all but fully compressed at the drawn ride height (${words.length(ride)} of ${words.length(damper.compressedLength)}): there is no ${other} travel left.`,
      );
    }
    if (bumpStop !== undefined && bumpStop.height >= damper.extendedLength - damper.compressedLength) {
      notes.push(
        `The bump stop, ${words.length(bumpStop.height)} high, is as high as the damper's stroke of ${words.length(damper.extendedLength - damper.compressedLength)}: it is pressed in all the time.`,
      );
    }
  }
  for (const [name, joint] of Object.entries(ballJoints)) {
    if ((joint?.housingAxis === undefined) === (joint?.studAxis === undefined)) continue;
    notes.push(
      `Of the ${spaced(name)} ball joint only one axis is given (${joint?.studAxis === undefined ? 'housingAxis' : 'studAxis'}): the stud is taken to stand straight in its housing at the drawn ride height. Give both if it leans there.`,
    );
  }
  if (tyre !== undefined) notes.push(...tyreNotes(tyre, model, words));
  arch.forEach((point, k) => {
    if (point[0] >= 0) return;
    notes.push(
      `arch[${k}] lies on the other side of the car than the wheel: the two count with one sign of y.`,
    );
  });
  return notes;
}

import type { Diagnostic, Severity } from '../../diagnostic.ts';
import type { CornerModel } from '../model.ts';
import { type Eyes, lengthOf } from './damper.ts';
import type { CheckedOptions } from './options.ts';
import { drawnSense } from './ratio.ts';
import type { TravelPath } from './travel-path.ts';
import { tyreNotes } from './tyre-clearance.ts';

/** What a tape can tell, mm. */
const TAPE = 0.5;

/** What to look at again, though the limits could be found. */
export function notesOn(
  options: CheckedOptions,
  model: CornerModel,
  travelPath: TravelPath,
  eyes: Eyes,
): Diagnostic[] {
  const { damper, bumpStop, tyre, arch = [], ballJoints = {} } = options;
  const notes: Diagnostic[] = [];
  const note = (code: string, path: string, values: Diagnostic['values'], severity: Severity = 'check') =>
    notes.push({ code, severity, path, values });
  const length = lengthOf(eyes, travelPath.drawn);
  const sense = drawnSense(eyes, travelPath);
  if (sense < 0) note('bumpLengthensCoilover', '', {});
  if (damper !== undefined) {
    const { extendedLength, compressedLength } = damper;
    const [side, other] = sense < 0 ? ['bump', 'droop'] : ['droop', 'bump'];
    if (Math.abs(extendedLength - length) <= TAPE) {
      note('damperAlmostExtended', 'damper.extendedLength', { length, end: extendedLength, side });
    }
    if (Math.abs(length - compressedLength) <= TAPE) {
      note('damperAlmostCompressed', 'damper.compressedLength', {
        length,
        end: compressedLength,
        side: other,
      });
    }
    const stroke = extendedLength - compressedLength;
    if (bumpStop !== undefined && bumpStop.height >= stroke) {
      note('bumpStopAlwaysCompressed', 'bumpStop.height', { height: bumpStop.height, stroke });
    }
  }
  for (const [joint, axes] of Object.entries(ballJoints)) {
    const given = (['housingAxis', 'studAxis'] as const).filter((axis) => axes?.[axis] !== undefined);
    const path = `ballJoints.${joint}`;
    if (given.length === 0) note('noAxisOfBallJoint', path, { joint }, 'note');
    if (given.length === 1) note('oneAxisOfBallJoint', path, { joint, given: given[0] }, 'note');
  }
  if (tyre !== undefined) notes.push(...tyreNotes(tyre, model));
  arch.forEach(([y, z], k) => {
    if (y < 0) note('pointOnOtherSide', `arch[${k}]`, { y, z });
  });
  return notes;
}

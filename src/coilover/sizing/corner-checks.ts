import type { CarDocument } from '../../corner/read-corner.ts';
import type { Check } from '../../document/check.ts';
import { line } from '../../sentences/line.ts';
import { worded } from '../../sentences/worded.ts';
import { AXLES } from './inputs.ts';

/** What corners bring along from the survey of their points, by the corner, in the units of the document. */
export function cornerChecks({ corners, units }: CarDocument): Check[] {
  return AXLES.flatMap((axle) =>
    (corners[axle]?.corner.checks ?? []).map((check): Check => {
      const text = line(worded(check, units));
      const { code, severity, values } = check;
      return { code, severity, values, path: `corners.${axle}`, text: `${text}.` };
    }),
  );
}

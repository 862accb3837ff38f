import { BOUNDED, COLUMNS, INPUT } from './input.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about what is to be written or drawn. */
export const REPORT: PlainSentences = {
  ...INPUT,
  ...BOUNDED,
  ...COLUMNS,
  noPlace: (say) => ({
    problem: 'no place',
    advice: say.is('onCurve')
      ? 'give the points of a curve, as couplerCurve(...).points has them'
      : 'give a pose as motion.at(...) gives it',
  }),
  notPoses: { problem: 'not a list of poses', allowed: '[motion.at(...), ...]' },
  notCurves: { problem: 'not a list of curves', allowed: '[couplerCurve(...).points, ...]' },
  notDampingRows: {
    problem: 'not a force table of a damper',
    allowed: '[{ speed, compression, rebound }, ...], numbers in mm/s and N',
  },
  notATitle: { problem: 'not a text', allowed: 'a text' },
  notInTheSweep: { problem: 'not in the sweep' },
  nothingToShow: (say) => ({
    problem: 'nothing to show',
    allowed: say.text('allowed'),
    advice: 'name columns',
  }),
  revisionWritten: (say) => ({
    problem: `revision ${say.text('revision')} has been written before, and is not the same`,
    got: `"${say.text('revision')}", with ${say.text('there')}`,
    allowed: 'a revision that has not been written; an order that was sent stays',
    advice:
      'raise the revision for a new order. For a car that was weighed take order out of the file: ordered keeps the revision',
  }),
  columnsMissing: (say) => ({
    problem: 'missing for a drawing',
    got: `no ${say.text('columns')}`,
    advice: 'sweep without a choice of columns',
  }),
  noReadings: { problem: 'none', advice: 'add readings' },
  cannotBeShown: {
    problem: 'nothing that can be shown',
    allowed:
      'a corner, a sweep, curves, limits, a survey, a sizing, an order or a report, the drawing or the motion of a linkage, or one or more flat rows',
  },
};

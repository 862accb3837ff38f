import { redrawn } from '../corner/changed-corner.ts';
import { type Corner, modelOf } from '../corner/corner.ts';
import { frozenCopy } from '../corner/freeze.ts';
import { activeBounds } from './active-constraints.ts';
import { type Judged, judgeOf } from './judge.ts';
import { labelOf, OBJECTIVES, wantedNear, wantedWords } from './objectives.ts';
import { checkDesign, type DesignOptions } from './options.ts';
import { reasonsFor } from './reasons.ts';
import type { Design, DesignedValue } from './result.ts';
import type { Candidate } from './search.ts';
import { isMet, searchAll } from './searches.ts';
import { undominated } from './trade-off.ts';
import { placedAt } from './trial.ts';

/**
 * Moves mounts of a corner within boxes until its values are what is wanted, or as near as can be found: from several starts, by
 * conjugate gradients on exact derivatives. Equal input gives equal bits. How, and what it can't promise: docs/design.md.
 *
 * @throws InputError for options that can't be, with every issue: a box without the corner as drawn in it, a travel that it
 * does not reach.
 */
export function design(corner: Corner, options: DesignOptions): Design {
  const model = modelOf(corner);
  const checked = checkDesign(model, options);
  const { objectives, plan, units } = checked;
  const judge = judgeOf(checked);
  const { how, first, best, nearest, ends, searches, trials } = searchAll(checked, options, judge);

  const moved = [...new Set(plan.coordinates.map(({ point }) => point))];
  const mountsOf = ({ x }: Candidate) => {
    const { points } = placedAt(plan, x).drawing;
    return Object.fromEntries(moved.map((point) => [point, points[point]]));
  };
  const offOf = ({ values }: Candidate) => values.map((value, k) => value - wantedNear(objectives[k], value));
  const [off, mounts] = [offOf(best), mountsOf(best)];
  const values = objectives.map((objective, k): DesignedValue => {
    const { of } = objective;
    return {
      of,
      label: labelOf(objective),
      unit: OBJECTIVES[of].unit,
      wanted: wantedWords(objective, units),
      start: first.values[k],
      best: best.values[k],
      off: off[k],
      met: isMet(best.misses[k]),
      nearest: nearest[k],
    };
  });
  const { margins } = judge.assess(best.x) as Judged;
  const active = activeBounds(checked, best.x, margins);
  const result = {
    how,
    units,
    corner: redrawn(corner, placedAt(plan, best.x)),
    mounts: Object.fromEntries(
      moved.map((point) => [
        point,
        { from: model.drawing.points[point], to: mounts[point], box: { ...options.mounts[point] } },
      ]),
    ),
    objectives: values,
    active,
    tradeOff:
      objectives.length < 2
        ? []
        : undominated(ends).map((one) => ({ mounts: mountsOf(one), values: one.values, off: offOf(one) })),
    searches,
    trials,
  };
  return frozenCopy({ ...result, reasons: reasonsFor(result, judge.refused) });
}

import { changedCorner } from '../corner/changed-corner.ts';
import { type Corner, modelOf } from '../corner/corner.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import type { Candidate } from '../numerics/bounded-search.ts';
import { isMet } from '../numerics/multistart.ts';
import { activeConstraints } from './active-constraints.ts';
import { diagnosticsOn } from './diagnostics.ts';
import { type Judged, judgeOf } from './judge.ts';
import { nearestGoal, OBJECTIVES } from './objectives.ts';
import { checkDesign, type DesignOptions } from './options.ts';
import type { Design, ObjectiveResult } from './result.ts';
import { searchAll } from './searches.ts';
import { undominated } from './trade-off.ts';
import { placedAt } from './trial.ts';

/**
 * Moves mounts of a corner within boxes until its values meet their goals, or come as near as the search finds: from several starts, by
 * conjugate gradients on exact derivatives. Equal input gives equal bits. Method and limits: docs/design.md.
 *
 * @throws InputError for invalid options, with every issue: a box without the drawn corner in it, a travel that the corner does not
 * reach.
 */
export function design(corner: Corner, options: DesignOptions): Design {
  const model = modelOf(corner);
  const checked = checkDesign(model, options);
  const { objectives, plan } = checked;
  const judge = judgeOf(checked);
  const { status, first, best, nearest, ends, searches, trials } = searchAll(checked, options, judge);

  const moved = [...new Set(plan.coordinates.map(({ point }) => point))];
  const mountsOf = ({ x }: Candidate) => {
    const { points } = placedAt(plan, x).drawing;
    return Object.fromEntries(moved.map((point) => [point, points[point]]));
  };
  const deviationsOf = ({ values }: Candidate) =>
    values.map((value, k) => value - nearestGoal(objectives[k], value));
  const [deviations, mounts] = [deviationsOf(best), mountsOf(best)];
  const values = objectives.map((objective, k): ObjectiveResult => {
    return {
      objective,
      unit: OBJECTIVES[objective.quantity].unit,
      initial: first.values[k],
      achieved: best.values[k],
      deviation: deviations[k],
      met: isMet(best.deviations[k]),
      nearest: nearest[k],
    };
  });
  const { margins } = judge.assess(best.x) as Judged;
  const active = activeConstraints(checked, best.x, margins);
  const result = {
    status,
    corner: changedCorner(corner, placedAt(plan, best.x)),
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
        : undominated(ends).map((one) => ({
            mounts: mountsOf(one),
            values: one.values,
            deviations: deviationsOf(one),
          })),
    searches,
    trials,
  };
  return frozenCopy({ ...result, diagnostics: diagnosticsOn(result, judge.refused) });
}

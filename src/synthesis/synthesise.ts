import { refusal } from '../errors/synthesis.ts';
import type { CheckedDrawing, Drawing, Point } from '../linkage/drawing.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import { isMet, type MultistartStatus, multistart } from '../numerics/multistart.ts';
import { activeDiagnostics, type Refused, searchDiagnostics } from './diagnostics.ts';
import type { PrecisionPoint, SynthesisObjective } from './objectives.ts';
import { checkSynthesis, type SynthesisOptions } from './options.ts';
import type { Synthesis, SynthesisStatus } from './result.ts';
import { type Judged, judgeAt, placedAt } from './trial.ts';

const STATUS: Readonly<Record<MultistartStatus, SynthesisStatus>> = {
  met: 'targetsMet',
  ended: 'targetUnreachable',
  violated: 'boundUnreachable',
  evaluationLimit: 'evaluationLimit',
  cancelled: 'cancelled',
};

/** Places drawn for a start at most: many a linkage does not make the motion at all. */
const DRAWS = 50;

/**
 * Dimensional synthesis: moves points of a drawing within boxes until the linkage follows paths and functions, as near as the search finds,
 * within bounds on any quantity over its motion; by the search of `design`, with exact derivatives. Every linkage tried makes the whole
 * motion on one branch, as `trace` follows it. Equal input gives equal bits. Method and limits: docs/synthesis.md.
 *
 * @throws InputError for invalid options, with every issue, and for a drawing that does not make the motion.
 */
export function synthesise<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  options: SynthesisOptions<NoInfer<P>, NoInfer<B | T>>,
): Synthesis<P, B, T>;
export function synthesise(drawing: Drawing, options: SynthesisOptions): Synthesis {
  const { plan, boxes, weights, first, starts, seed } = checkSynthesis(drawing, options);
  const refused = new Map<string, Refused>();
  const assess = (x: readonly number[]): Judged | null => {
    const judged = judgeAt(plan, x);
    if (!('code' in judged)) return judged;
    const key = `${judged.code} ${judged.values.side ?? ''}`;
    const { count = 0 } = refused.get(key) ?? {};
    refused.set(key, { why: judged, count: count + 1 });
    return null;
  };
  const { objectives } = options;
  const found = multistart({
    boxes,
    weights: objectives.flatMap((one, k) => new Array<number>(deviationCount(one)).fill(weights[k])),
    first,
    starts,
    seed,
    draws: DRAWS,
    emphasise: false,
    assess,
    stop: () => options.signal?.aborted === true,
    progress: options.progress,
  });
  if (found === null) {
    throw refusal(
      'drawing',
      [...refused.values()].map(({ why }) => why),
    );
  }
  const { best, searches, trials } = found;
  const status = STATUS[found.status];
  const [before, after] = [first, best.x].map((x) => judgeAt(plan, x) as Judged);
  const points = placedAt(drawing.points as CheckedDrawing['points'], plan.coordinates, best.x);
  const result: Omit<Synthesis, 'diagnostics'> = {
    status,
    drawing: { ...drawing, points },
    moved: Object.fromEntries(
      Object.entries(options.move).map(([point, box]) => [
        point,
        { from: drawing.points[point] as Point, to: points[point], box: { ...box } },
      ]),
    ),
    objectives: objectives.map((objective, k) => {
      const tolerance = plan.tolerances[k];
      const error = errorOf(after.met[k]);
      return {
        objective,
        tolerance,
        initialError: errorOf(before.met[k]),
        error,
        met: isMet(error / tolerance),
        points: after.met[k],
      };
    }),
    searches,
    trials,
  };
  const limiting = activeDiagnostics(plan.coordinates, boxes, best.x, after.rooms);
  return frozenCopy({ ...result, diagnostics: [...limiting, ...searchDiagnostics(result, refused)] });
}

/** How many deviations an objective has. */
function deviationCount(objective: SynthesisObjective): number {
  if ('path' in objective) return 2 * objective.through.length;
  return 'extreme' in objective ? 1 : objective.values.length;
}

function errorOf(met: readonly PrecisionPoint[]): number {
  return Math.max(...met.map(({ deviation }) => Math.abs(deviation)));
}

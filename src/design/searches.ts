import { refusal } from '../errors/design.ts';
import { type Found as FoundPlaces, type MultistartStatus, multistart } from '../numerics/multistart.ts';
import type { Judge } from './judge.ts';
import type { CheckedDesign, DesignOptions } from './options.ts';
import type { DesignStatus } from './result.ts';

/** What the searches came to. */
export interface Found extends Omit<FoundPlaces, 'status'> {
  readonly status: DesignStatus;
}

const STATUS: Readonly<Record<MultistartStatus, DesignStatus>> = {
  met: 'targetsMet',
  ended: 'targetUnreachable',
  violated: 'clearanceUnreachable',
  evaluationLimit: 'evaluationLimit',
  cancelled: 'cancelled',
};

/**
 * Runs all searches of a design, the first from the corner as drawn.
 *
 * @throws InputError for a corner that can't be judged as drawn.
 */
export function searchAll(
  { boxes, objectives, plan, starts, seed }: CheckedDesign,
  { signal, progress }: DesignOptions,
  judge: Judge,
): Found {
  const found = multistart({
    boxes,
    weights: objectives.map(({ weight = 1 }) => weight),
    first: plan.coordinates.map(({ point, axis }) => plan.model.drawing.points[point][axis]),
    starts,
    seed,
    draws: 1,
    emphasise: objectives.length > 1,
    assess: judge.assess,
    stop: () => signal?.aborted === true,
    progress,
  });
  if (found === null) {
    const why = [...judge.refused.values()].map((one) => one.why);
    throw refusal('corner as drawn', why);
  }
  return { ...found, status: STATUS[found.status] };
}

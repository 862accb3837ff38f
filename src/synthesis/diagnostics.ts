import type { Diagnostic, Severity } from '../diagnostic.ts';
import { type Box, edgeOf } from '../numerics/box.ts';
import type { Room } from './bounds.ts';
import type { Synthesis } from './result.ts';
import type { Coordinate } from './trial.ts';

/** Why linkages could not be tried, and how many. */
export interface Refused {
  readonly why: Diagnostic;
  readonly count: number;
}

/** Room, in tolerances, up to which a bound limits the linkage. */
const USED_UP = 0.01;

/** What limits a linkage at x: coordinates at the edge of their boxes, and bounds that are reached or not kept. */
export function activeDiagnostics(
  coordinates: readonly Coordinate[],
  boxes: readonly Box[],
  x: readonly number[],
  rooms: readonly Room[],
): Diagnostic[] {
  const edges = coordinates.flatMap(({ point, axis }, i): Diagnostic[] => {
    const side = edgeOf(boxes[i], x[i]);
    if (side === null) return [];
    const name = axis === 0 ? 'x' : 'y';
    const values = { point, axis: name, at: boxes[i][side] };
    return [diagnostic(side === 'least' ? 'pointAtMin' : 'pointAtMax', `move.${point}.${name}`, values)];
  });
  const tightest = new Map<string, Room>();
  for (const one of rooms) {
    const key = `${one.bound} ${one.side}`;
    const before = tightest.get(key);
    if (before === undefined || one.room.value < before.room.value) tightest.set(key, one);
  }
  const limits = [...tightest.values()].flatMap(({ bound, side, at, value, room }): Diagnostic[] => {
    if (room.value > USED_UP) return [];
    const path = `bounds[${bound}].${side}`;
    return room.value < 0
      ? [diagnostic('boundExceeded', path, { side, at, value }, 'conflict')]
      : [diagnostic('boundReached', path, { side, at, value })];
  });
  return [...edges, ...limits];
}

/** What is to be borne in mind of the searches. */
export function searchDiagnostics(
  { status, searches, trials }: Pick<Synthesis, 'status' | 'searches' | 'trials'>,
  refused: ReadonlyMap<string, Refused>,
): Diagnostic[] {
  const unfinished = searches.filter((one) => one.status === 'evaluationLimit').length;
  return [
    ...[...refused.values()].map(({ why, count }) =>
      diagnostic('linkagesNotTried', '', { ...why.values, count, trials, reason: why.code }),
    ),
    ...(unfinished === 0
      ? []
      : [diagnostic('searchesUnfinished', '', { unfinished, searches: searches.length })]),
    ...(status === 'targetUnreachable' || status === 'boundUnreachable'
      ? [diagnostic('noProof', '', {})]
      : []),
  ];
}

function diagnostic(
  code: string,
  path: string,
  values: Diagnostic['values'],
  severity: Severity = 'note',
): Diagnostic {
  return { code, severity, path, values };
}

// Which ropes would have to push. A rope's row is the sum of its straight parts, so that its multiplier is its tension.

import { READING, reader } from '../linkage/reader.ts';
import type { System } from '../linkage/system.ts';
import { type Balance, balanceAt, loaded } from './balance.ts';
import type { Line } from './force-along.ts';
import type { BoundLoads } from './motion-loads.ts';

/** A rope that pushes by no more than this share of the loads is at rest. */
const NO_PUSH = 1e-9;

/** Ropes with the rows that keep them. */
export function ropesOf({ structure }: System): readonly (readonly [name: string, row: number])[] {
  return Object.keys(structure.drawn.ropes ?? {}).map((name) => [
    name,
    structure.rows.findIndex(({ of, defines }) => defines === undefined && of.constraint === `rope ${name}`),
  ]);
}

/** Ropes that would have to push, by name; one whose tension is undetermined is none of them. */
export function slackRopes(system: System, { multipliers, force }: Balance): string[] {
  return ropesOf(system).flatMap(([name, row]) => {
    const tension = multipliers[row];
    return tension !== null && tension < -NO_PUSH * force ? [name] : [];
  });
}

/** What ropes do at a place of a motion. */
export interface RopesAlong {
  /** Those that would have to push. */
  readonly slack: (w: number, c: number) => string[];
  /** The least tension, infinite without ropes. */
  readonly tension: (w: number, c: number) => number;
}

/** Ropes along a line in balance under constant loads, and others times a factor c. */
export function ropesAlong(line: Line, constant: BoundLoads, growing?: BoundLoads): RopesAlong {
  const { system } = line.path;
  const ropes = ropesOf(system);
  if (ropes.length === 0) return { slack: () => [], tension: () => Number.POSITIVE_INFINITY };
  const task = loaded(system, constant, growing);
  const r = reader(line.path, task.measures);
  const balance = (w: number, c: number): Balance | null => {
    line.read(r, w);
    const values = task.measures.map((_, i) => r.m[i * READING]);
    return balanceAt(task, { pose: line.unknownsAt(w), c, values });
  };
  return {
    slack(w, c) {
      const at = balance(w, c);
      return at === null ? [] : slackRopes(system, at);
    },
    tension(w, c) {
      const at = balance(w, c);
      return Math.min(...ropes.map(([, row]) => at?.multipliers[row] ?? Number.POSITIVE_INFINITY));
    },
  };
}

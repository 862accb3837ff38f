// Which ropes would have to push. A rope's row is the sum of its straight parts, so that its multiplier is its tension.

import type { System } from '../linkage/system.ts';
import type { Balance } from './balance.ts';

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

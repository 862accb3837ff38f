// A job of the command, what it is called with, and what its end means.

/** Exit codes: refused input or a file that can't be used, a mistyped command, an order against which conflicts stand; else 0. */
export const REFUSED = 1;
export const MISTYPED = 2;
export const IN_CONFLICT = 3;

/** A command that was mistyped. */
export class UsageFault extends Error {}

/** What a job is called with. */
export interface Given {
  /** File names and other words without a name. */
  readonly operands: readonly string[];
  readonly options: Readonly<Record<string, string | boolean | undefined>>;
}

/** A job: it prints, writes, and returns the exit code. */
export interface Job {
  run(given: Given): number | Promise<number>;
}

/**
 * How serious a diagnostic is: `error`, nothing can be computed from the input; `conflict`, it cannot be made or will not work;
 * `check`, an input that looks wrong; `note`, worth knowing.
 */
export type Severity = 'error' | 'conflict' | 'check' | 'note';

/** A fact about an input or a result, as data: its sentence is made last, in the units asked for. */
export interface Diagnostic {
  /** What it is about, as `wheelRateNotPositive`: stable, for programs. */
  readonly code: string;
  readonly severity: Severity;
  /** Place in the input, as `corners.front.sizing.springs[1]`; empty for the input as a whole. */
  readonly path: string;
  /** The numbers and names behind it, in the library's units (mm, kg, N, N/mm, Hz, degrees). */
  readonly values: Readonly<Record<string, number | string | boolean | null>>;
}

/** Whether it only asks for a second look, and is no conflict. */
export function isCheck({ severity }: { readonly severity?: Severity }): boolean {
  return severity === 'check' || severity === 'note';
}

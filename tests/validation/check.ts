/** How the figures are known that something is held against. */
export type Known =
  /** The source, or a transcript or copy of it, was read. */
  | 'read'
  /** Some of its figures were read, the others are from memory or computed from those. */
  | 'read in part'
  | 'from memory'
  /** A closed form, a theorem or a definition, written down in the test and sharing no code with the library. */
  | 'derived'
  /** Another program or library computed them. */
  | 'another program';

/** Something checked, the tests that do it, and what they hold it against. */
export interface Check {
  readonly what: string;
  /** File under tests/. */
  readonly file: string;
  /**
   * How the names of its tests begin, part by part: `Andrews > has the published angles` takes each test beginning with the
   * second in each group beginning with the first. Several where they are one check, '' for all of the file.
   */
  readonly tests: string | readonly string[];
  readonly against: string;
  /** None of what holds without a figure from outside. */
  readonly known?: Known;
  /** What of it was not read and why, in a few words; there with each that is from memory or read in part. */
  readonly unread?: string;
  /** What error and tolerance are counted in. */
  readonly unit: string;
}

export interface Section {
  readonly title: string;
  readonly checks: readonly Check[];
}

/** The names that a check's tests begin with, each by its parts. */
export function namesOf({ tests }: Check): string[][] {
  return [tests].flat().map((name) => name.split(' > '));
}

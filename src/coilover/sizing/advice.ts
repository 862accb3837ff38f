// What others choose, where a builder has no target of his own: the frequency of the sprung mass on its suspension alone, and its damping
// ratio, by use. Orders of magnitude to start from, not figures to build by.

/** A range by use; its source is named beside it. */
export interface UseRange {
  readonly use: string;
  /** Lower end of the range, Hz or damping ratio. */
  readonly min: number;
  /** Upper end of the range; null where it has none. */
  readonly max: number | null;
  readonly source: string;
}

const GILLESPIE = 'T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992, ch. 5 (from memory)';
const PRACTICE = 'common practice, no source';

/** Frequencies of the sprung mass, suspension alone, Hz. */
export const FREQUENCY_RANGES: readonly UseRange[] = [
  { use: 'passenger car, road', min: 1, max: 1.5, source: GILLESPIE },
  { use: 'fast road', min: 1.5, max: 2, source: PRACTICE },
  {
    use: 'track, without downforce',
    min: 2,
    max: 2.8,
    source: `${PRACTICE}; up to 2.5 Hz for performance cars: ${GILLESPIE}`,
  },
  { use: 'track, with downforce', min: 3, max: null, source: PRACTICE },
];

/** Damping ratios of the sprung mass. */
export const DAMPING_RANGES: readonly UseRange[] = [
  { use: 'passenger car, road', min: 0.2, max: 0.4, source: GILLESPIE },
  { use: 'fast road', min: 0.3, max: 0.5, source: PRACTICE },
  { use: 'track', min: 0.5, max: 0.7, source: PRACTICE },
];

/** Frequencies for which rates are shown where there is no target, Hz. */
export const FREQUENCIES_TO_SHOW: readonly number[] = [1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 3];

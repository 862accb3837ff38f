/** Rate (N/mm) at which a mass (kg) swings with a frequency (Hz): m (2 pi f)^2. */
export function rateForFrequency(mass: number, frequency: number): number {
  return (mass * (2 * Math.PI * frequency) ** 2) / 1000;
}

/** Frequency (Hz) of a mass (kg) on a rate (N/mm); null on none, and on a rate that pushes it away. */
export function frequencyOn(mass: number, rate: number | null): number | null {
  return rate !== null && rate > 0 ? Math.sqrt((1000 * rate) / mass) / (2 * Math.PI) : null;
}

// What two runtimes found, held against each other: the same shape and words, numbers but for rounding.

/**
 * Roundings by which numbers may differ, as a share of the larger of 1 and the number: runtimes differ in the last bit of
 * sines and roots, and a second derivative magnifies that by what the pose makes of it.
 */
const ROUNDINGS = 1000;

/** Differences of two pieces of plain data, each as a line; none where they agree. */
export function differences(got: unknown, wanted: unknown, path = ''): string[] {
  if (typeof got === 'number' && typeof wanted === 'number') {
    const within = ROUNDINGS * Number.EPSILON * Math.max(1, Math.abs(wanted));
    return Math.abs(got - wanted) <= within ? [] : [`${path}: ${got} instead of ${wanted}`];
  }
  if (typeof got !== 'object' || typeof wanted !== 'object' || got === null || wanted === null) {
    return Object.is(got, wanted) ? [] : [`${path}: ${String(got)} instead of ${String(wanted)}`];
  }
  const names = new Set([...Object.keys(got), ...Object.keys(wanted)]);
  return [...names].flatMap((name) =>
    differences((got as never)[name], (wanted as never)[name], path === '' ? name : `${path}.${name}`),
  );
}

/** How many numbers a piece of plain data holds. */
export function numbersIn(data: unknown): number {
  if (typeof data === 'number') return 1;
  if (typeof data !== 'object' || data === null) return 0;
  return Object.values(data).reduce((sum: number, inner) => sum + numbersIn(inner), 0);
}

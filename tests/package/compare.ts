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

/** What numbers may differ by on another engine, as a share of the typical size of their quantity. */
const SHARE = 1e-9;

/**
 * Differences of two pieces of plain data beyond a share of the typical size of each quantity: the largest number at a path, whatever its
 * places in lists. `largest` is the largest share there is.
 */
export function differencesBySize(
  got: unknown,
  wanted: unknown,
): { readonly lines: string[]; readonly largest: number } {
  const sizes = new Map<string, number>();
  const quantity = (path: string) => path.replace(/\.\d+(?=\.|$)/g, '');
  each(wanted, '', (path, value) => {
    const name = quantity(path);
    if (typeof value === 'number') sizes.set(name, Math.max(sizes.get(name) ?? 0, Math.abs(value)));
  });
  const others = new Map<string, unknown>();
  each(got, '', (path, value) => void others.set(path, value));
  const lines: string[] = [];
  let largest = 0;
  each(wanted, '', (path, value) => {
    const other = others.get(path);
    others.delete(path);
    if (Object.is(other, value)) return;
    const isNumber = typeof other === 'number' && typeof value === 'number';
    const share = isNumber
      ? Math.abs(other - value) / (sizes.get(quantity(path)) || 1)
      : Number.POSITIVE_INFINITY;
    largest = Math.max(largest, share);
    if (!(share <= SHARE)) lines.push(`${path}: ${String(other)} instead of ${String(value)}`);
  });
  for (const path of others.keys()) lines.push(`${path}: not expected`);
  return { lines, largest };
}

/** Calls with every leaf of plain data and its path. */
function each(data: unknown, path: string, call: (path: string, value: unknown) => void): void {
  if (typeof data !== 'object' || data === null) call(path, data);
  else
    for (const [name, inner] of Object.entries(data))
      each(inner, path === '' ? name : `${path}.${name}`, call);
}

/** How many numbers a piece of plain data holds. */
export function numbersIn(data: unknown): number {
  if (typeof data === 'number') return 1;
  if (typeof data !== 'object' || data === null) return 0;
  return Object.values(data).reduce((sum: number, inner) => sum + numbersIn(inner), 0);
}

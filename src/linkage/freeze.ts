/** Data made unchangeable, and all in it. */
export function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    for (const inner of Object.values(value)) deepFreeze(inner);
    Object.freeze(value);
  }
  return value;
}

/** Plain data again, frozen with everything in it. */
export function frozenCopy<T>(value: T): T {
  if (typeof value !== 'object' || value === null) return value;
  const copy = Array.isArray(value)
    ? value.map(frozenCopy)
    : Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, frozenCopy(inner)]));
  return Object.freeze(copy) as T;
}

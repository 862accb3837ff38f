/** Codes of the faults, by how many of some names an object is to have. */
const CODES = { one: 'notOneOf', any: 'noneOf', atMostOne: 'moreThanOneOf' } as const;

/** For `refine`: of some names an object is to have so many, exactly one, one at least, or one at most. */
export function having(names: readonly string[], count: keyof typeof CODES, code: string = CODES[count]) {
  const good = (given: unknown) => {
    let there = 0;
    for (const name of names) if ((given as Record<string, unknown>)[name] !== undefined) there++;
    return (count === 'atMostOne' || there > 0) && (count === 'any' || there <= 1);
  };
  return [good, { error: code, when: isObject, params: { oneOf: [...names] } }] as const;
}

/** Refinements are told together with whatever else is wrong with an object. */
export function isObject({ value }: { value: unknown }): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A name of the code as words: `lowerOuter` as `lower outer`. */
export function spaced(name: string): string {
  return name.replace(
    /([a-z\d])([A-Z])/g,
    (_, before: string, capital: string) => `${before} ${capital.toLowerCase()}`,
  );
}

/** A number rounded to so many decimals, without noughts at the end or a minus before nothing. */
export function figure(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

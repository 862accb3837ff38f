/** A name of the code as words: `lowerOuter` as `lower outer`. */
export function spaced(name: string): string {
  return name.replace(
    /([a-z\d])([A-Z])/g,
    (_, before: string, capital: string) => `${before} ${capital.toLowerCase()}`,
  );
}

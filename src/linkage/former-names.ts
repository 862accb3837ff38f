import { type Diagnostic, fault, unknownOptions } from '../diagnostic.ts';

/** Names of earlier versions, by their kind, and what each is called now. */
const FORMER_NAMES = {
  drawing: { held: 'fixedCoordinates', angles: 'fixedAngles' },
  measure: { seenFrom: 'relativeTo' },
} as const satisfies Record<string, Readonly<Record<string, string>>>;

/** Faults for the keys of an object that have been renamed; `path` is in front of them. */
export function renamedKeys(kind: keyof typeof FORMER_NAMES, value: object, path = ''): Diagnostic[] {
  const names: Readonly<Record<string, string>> = FORMER_NAMES[kind];
  const renamed: Diagnostic[] = [];
  // Every measure that is read passes here.
  for (const was in names) {
    if (!Object.hasOwn(value, was)) continue;
    const at = path === '' ? was : `${path}.${was}`;
    renamed.push(fault('renamed', at, { was, is: names[was], isThere: false }));
  }
  return renamed;
}

/** Faults for the keys of an object that are none of those known, or that have been renamed. */
export function unknownKeys(
  kind: keyof typeof FORMER_NAMES,
  value: unknown,
  known: readonly string[],
): Diagnostic[] {
  const unknown = unknownOptions(value, known);
  if (unknown.length === 0 || typeof value !== 'object' || value === null) return unknown;
  const renamed = renamedKeys(kind, value);
  return [...renamed, ...unknown.filter(({ path }) => renamed.every((one) => one.path !== path))];
}

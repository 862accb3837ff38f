import { type Diagnostic, fault, unknownOptions } from '../diagnostic.ts';

/** Names of earlier versions, by their kind, and what each is called now. */
const FORMER_NAMES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  drawing: { held: 'fixedCoordinates', angles: 'fixedAngles' },
  measure: { seenFrom: 'relativeTo' },
};

/** Faults for the keys of an object that have been renamed; `path` is in front of them. */
function renamedKeys(kind: string, value: object, path = ''): Diagnostic[] {
  const names = FORMER_NAMES[kind] ?? {};
  const renamed: Diagnostic[] = [];
  for (const was in names) {
    if (!Object.hasOwn(value, was)) continue;
    const at = path === '' ? was : `${path}.${was}`;
    renamed.push(fault('renamed', at, { was, is: names[was], isThere: false }));
  }
  return renamed;
}

/** Faults for the keys of an object that are none of those known, or that have been renamed; `under` is its place. */
export function unknownKeys(
  kind: string,
  value: unknown,
  known: readonly string[],
  under = '',
): Diagnostic[] {
  const unknown = unknownOptions(value, known, under);
  if (unknown.length === 0 || typeof value !== 'object' || value === null) return unknown;
  const renamed = renamedKeys(kind, value, under);
  return [...renamed, ...unknown.filter(({ path }) => renamed.every((one) => one.path !== path))];
}

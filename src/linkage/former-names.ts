import type { Issue } from '../errors.ts';

/** Names of earlier versions, by their kind, and what each is called now. */
const FORMER_NAMES = {
  drawing: { held: 'fixedCoordinates', angles: 'fixedAngles' },
  measure: { seenFrom: 'relativeTo' },
  staticsOption: { route: 'method' },
} as const satisfies Record<string, Readonly<Record<string, string>>>;

/** Issues for the keys of an object that have been renamed; `path` is in front of them. */
export function renamedKeys(kind: keyof typeof FORMER_NAMES, value: object, path = ''): Issue[] {
  const names: Readonly<Record<string, string>> = FORMER_NAMES[kind];
  return Object.keys(value).flatMap((key): Issue[] => {
    if (!Object.hasOwn(names, key)) return [];
    return [
      {
        path: path === '' ? key : `${path}.${key}`,
        problem: `renamed: ${key} is now called ${names[key]}`,
        advice: `write ${names[key]}`,
      },
    ];
  });
}

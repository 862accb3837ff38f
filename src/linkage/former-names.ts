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
  const issues: Issue[] = [];
  for (const was in names) {
    if (!Object.hasOwn(value, was)) continue;
    const [at, is] = [path === '' ? was : `${path}.${was}`, names[was]];
    issues.push({ path: at, problem: `renamed: ${was} is now called ${is}`, advice: `write ${is}` });
  }
  return issues;
}

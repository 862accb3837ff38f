// The parts of a drawing besides its coordinates, each in words, so that two drawings can be told apart by them.

import type { Drawing } from '../linkage/index.ts';
import { jointsInWords } from './joints.ts';

/** What the second of two drawings lacks or has too much of beside the first, in words; null if nothing. */
export function otherParts(one: Drawing, other: Drawing): string | null {
  const [expected, got] = [inWords(one), inWords(other)];
  const lacks = expected.filter((part) => !got.includes(part));
  const extra = got.filter((part) => !expected.includes(part));
  if (lacks.length + extra.length === 0) return null;
  return [
    ...(lacks.length > 0 ? [`lacks ${lacks.join(', ')}`] : []),
    ...(extra.length > 0 ? [`has ${extra.join(', ')} besides`] : []),
  ].join(' and ');
}

function inWords(drawing: Drawing): string[] {
  const { points, ground, bodies } = drawing;
  return [
    ...Object.keys(points).map((name) => `point ${name}`),
    ...ground.map((name) => `ground point ${name}`),
    ...Object.entries(bodies).map(([name, names]) => `body ${name} (${[...names].sort().join(', ')})`),
    ...jointsInWords(drawing),
  ];
}

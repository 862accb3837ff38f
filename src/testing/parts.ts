// The parts of a drawing besides its coordinates, each in words, so that two drawings can be told apart by them.

import type { Drawing } from '../linkage/index.ts';

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
  const {
    points,
    ground,
    bodies,
    fixedCoordinates = [],
    sliders = {},
    fixedAngles = {},
    telescopes = {},
  } = drawing;
  const named = <Part>(kind: string, all: Readonly<Record<string, Part>>, words: (part: Part) => string) =>
    Object.entries(all).map(([name, part]) => `${kind} ${name} (${words(part)})`);
  const line = (names: readonly string[]) => names.join('-');
  return [
    ...Object.keys(points).map((name) => `point ${name}`),
    ...ground.map((name) => `ground point ${name}`),
    ...named('body', bodies, (names) => [...names].sort().join(', ')),
    ...fixedCoordinates.map((one) => ('x' in one ? `fixed x of ${one.x}` : `fixed y of ${one.y}`)),
    ...named('slider', sliders, ({ point, on }) => `${point} on ${line(on)}`),
    ...named('fixed angle', fixedAngles, (directions) =>
      directions.map((one) => (typeof one === 'string' ? one : line(one))).join(' to '),
    ),
    ...named('telescope', telescopes, line),
  ];
}

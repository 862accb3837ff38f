// reproducible: equal data gives equal bits, whatever was built, traced or read before, and the data stays unchanged.

import type { CheckedDrawing, Drawing } from '../linkage/index.ts';
import { measureName } from '../words.ts';
import { everything } from './measures.ts';
import { otherParts } from './parts.ts';
import { lawOf, type Setting, spread, type TracedMotion, traced, where } from './setting.ts';
import { expectWithin, LawViolation } from './violation.ts';

/** How many poses are looked at. */
const POSES = 8;

export const reproducible = lawOf('reproducible', (setting) => {
  const { drawing } = setting;
  const before: CheckedDrawing = JSON.parse(JSON.stringify(drawing));
  const motion = traced(setting, drawing);
  const out = spread(motion, POSES);
  const expected = readAll(setting, motion, out);

  expectEqual(setting, 'read on the way back', readAll(setting, motion, [...out].reverse()), expected);
  expectSameDrawing(setting, motion, 'after the motion was traced', drawing, before);
  expectSameDrawing(setting, motion, 'built a second time', setting.build(), before);
  const again = traced(setting, before);
  for (const side of ['low', 'high'] as const) {
    expectBits(setting, `${side} end, traced a second time`, out[0], again[side].at, motion[side].at);
  }
  expectEqual(setting, 'traced a second time', readAll(setting, again, out), expected);
});

/** What was read of each measure, value and derivatives, by the value of the driver. */
type Read = Map<string, Map<number, readonly (number | null)[]>>;

function readAll({ drawing, driver }: Setting, motion: TracedMotion, places: readonly number[]): Read {
  return new Map(
    everything(drawing, driver).map((measure) => {
      const read = motion.read(measure);
      const readings = places.map((at) => {
        const { value, first, second } = read(at);
        return [at, [value, first, second]] as const;
      });
      return [measureName(measure), new Map(readings)];
    }),
  );
}

const ORDERS = ['', 'first derivative of ', 'second derivative of '];

function expectEqual(setting: Setting, how: string, got: Read, expected: Read): void {
  for (const [name, readings] of expected) {
    for (const [at, numbers] of readings) {
      numbers.forEach((number, order) => {
        const other = got.get(name)?.get(at)?.[order] ?? null;
        expectBits(setting, `${ORDERS[order]}${name}, ${how},`, at, other, number);
      });
    }
  }
}

function expectSameDrawing(
  setting: Setting,
  { drawn }: TracedMotion,
  how: string,
  got: Drawing,
  expected: Drawing,
): void {
  if (JSON.stringify(got) === JSON.stringify(expected)) return;
  for (const [name, at] of Object.entries(expected.points)) {
    ['x', 'y'].forEach((axis, k) => {
      expectBits(setting, `drawn ${axis} of ${name}, ${how},`, drawn, got.points[name]?.[k] ?? null, at[k]);
    });
  }
  const parts = otherParts(expected, got) ?? 'has its parts in another order';
  throw new LawViolation(setting.law, `drawing, ${how},`, where(setting, drawn), parts);
}

function expectBits(
  setting: Setting,
  what: string,
  at: number,
  got: number | null,
  expected: number | null,
): void {
  if (!Object.is(got, expected)) expectWithin(setting.law, what, where(setting, at), got, expected, 0);
}

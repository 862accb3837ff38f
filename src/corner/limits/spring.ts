import type { Bound, Margin } from './bound.ts';
import { type Eyes, lengthOf, marginToLength } from './damper.ts';
import type { CheckedOptions } from './options.ts';
import type { Pose } from './travel-path.ts';
import type { Words } from './words.ts';

/** The spring at the least length that it permits, told by the length between the end eyes. */
export function springBounds(
  { springMinLengthAt }: CheckedOptions,
  eyes: Eyes,
  words: Words,
): Bound<'springMinLength'>[] {
  if (springMinLengthAt === undefined) return [];
  const margin: Margin = marginToLength(eyes, springMinLengthAt, false);
  return [
    {
      cause: 'springMinLength',
      part: '',
      ways: [[margin]],
      met: (where) =>
        `The spring is at its minimum permissible length ${where} (${words.length(springMinLengthAt)} between the end eyes).`,
      misfit: (pose: Pose) =>
        `The spring is too long: at the drawn ride height it is compressed by ${words.length(springMinLengthAt - lengthOf(eyes, pose))} more than it permits.`,
    },
  ];
}

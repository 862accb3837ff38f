import type { Bound } from './bound.ts';
import { type Eyes, lengthOf, marginToLength } from './damper.ts';
import type { CheckedOptions } from './options.ts';

/** The spring at the least length that it permits, told by the length between the end eyes. */
export function springBounds({ springMinLengthAt }: CheckedOptions, eyes: Eyes): Bound<'springMinLength'>[] {
  if (springMinLengthAt === undefined) return [];
  const length = springMinLengthAt;
  return [
    {
      cause: 'springMinLength',
      part: '',
      path: 'springMinLengthAt',
      ways: [[marginToLength(eyes, length, false)]],
      met: () => ({ length }),
      misfit: (pose) => ({ code: 'springTooLong', values: { by: length - lengthOf(eyes, pose) } }),
    },
  ];
}

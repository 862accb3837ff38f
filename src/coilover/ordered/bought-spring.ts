import type { AxleInputs } from '../sizing/inputs.ts';
import { listedSprings, type Spring } from '../sizing/listed-springs.ts';

/** The spring that was bought, its lengths judged as those of a list are; null where none was. */
export function boughtSpring({ ordered, sizing }: AxleInputs): Spring | null {
  const spring = ordered?.spring;
  if (spring === undefined) return null;
  const { name = '', rate, freeLength, solidLength, minLength, innerDiameter } = spring;
  const listed = {
    name,
    rate,
    freeLength,
    ...(solidLength === undefined ? {} : { solidLength }),
    ...(minLength === undefined ? {} : { minLength }),
    ...(innerDiameter === undefined ? {} : { innerDiameter }),
  };
  return listedSprings({ ...sizing, springs: [listed] })[0];
}

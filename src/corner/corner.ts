import { InputError, show } from '../errors.ts';
import { type DoubleWishbone, doubleWishboneModel } from './double-wishbone.ts';
import type { CornerModel } from './model.ts';

/** A suspension corner as plain data; `kind` says which. */
export type Corner = DoubleWishbone;

/**
 * The drawing and the roles behind a corner.
 *
 * @throws InputError for what is no corner.
 */
export function modelOf(corner: Corner): CornerModel {
  switch (corner?.kind) {
    case 'doubleWishbone':
      return doubleWishboneModel(corner);
    default:
      throw new InputError('corner', [
        {
          path: 'kind',
          problem: 'not a corner',
          got: show(corner),
          allowed: 'what doubleWishbone(...) returns',
          advice: 'make the corner with it first',
        },
      ]);
  }
}

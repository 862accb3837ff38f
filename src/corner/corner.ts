import { InputError, show } from '../errors.ts';
import type { CustomCorner } from './custom.ts';
import { type DoubleWishbone, doubleWishboneModel } from './double-wishbone.ts';
import type { CornerModel } from './model.ts';
import { type Pushrod, pushrodModel } from './pushrod.ts';

/** A suspension corner as plain data; `kind` says which. */
export type Corner = DoubleWishbone | Pushrod | CustomCorner;

/**
 * The drawing and the roles behind a corner.
 *
 * @throws InputError for what is no corner.
 */
export function modelOf(corner: Corner): CornerModel {
  switch (corner?.kind) {
    case 'doubleWishbone':
      return doubleWishboneModel(corner);
    case 'pushrod':
      return pushrodModel(corner);
    case 'custom':
      return corner;
    default:
      throw new InputError('corner', [
        {
          path: 'kind',
          problem: 'not a corner',
          got: show(corner),
          allowed: 'what doubleWishbone(...), pushrod(...) or customCorner(...) returns',
          advice: 'make the corner with one of them first',
        },
      ]);
  }
}

import { type DoubleWishbone, doubleWishboneModel } from './double-wishbone.ts';
import type { CornerModel } from './model.ts';

/** A suspension corner as plain data; `kind` says which. */
export type Corner = DoubleWishbone;

/** The drawing and the roles behind a corner. */
export function modelOf(corner: Corner): CornerModel {
  switch (corner.kind) {
    case 'doubleWishbone':
      return doubleWishboneModel(corner);
  }
}

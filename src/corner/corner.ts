import { fault, show } from '../diagnostic.ts';
import type { DoubleWishboneInput, PushrodInput, StrutInput } from '../document/inputs.ts';
import { refusal } from '../errors/corner.ts';
import type { CustomCorner } from './custom.ts';
import { type DoubleWishbone, doubleWishbone, doubleWishboneModel } from './double-wishbone.ts';
import type { CornerModel } from './model.ts';
import { type Pushrod, pushrod, pushrodModel } from './pushrod.ts';
import { type Strut, strut, strutModel } from './strut.ts';

/** A corner of a kind that the library draws, as documents have them. */
export type DrawnCorner = DoubleWishbone | Pushrod | Strut;

/** A suspension corner as plain data; `kind` says which. */
export type Corner = DrawnCorner | CustomCorner;

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
    case 'strut':
      return strutModel(corner);
    case 'custom':
      return corner;
    default:
      throw refusal('corner', [fault('notACorner', 'kind', { got: show(corner) })]);
  }
}

/** What a corner is made from, with its kind; a double wishbone if none is named. */
export type CornerParts =
  | ({ readonly kind?: 'doubleWishbone' | undefined } & DoubleWishboneInput)
  | ({ readonly kind: 'pushrod' } & PushrodInput)
  | ({ readonly kind: 'strut' } & StrutInput);

/** A corner of the kind that its parts say; whatever else stands beside them is left out. */
export function drawnCorner(parts: CornerParts): DrawnCorner {
  const { lowerArm, wheel } = parts;
  switch (parts.kind) {
    case 'pushrod': {
      const { upperArm, rod, rocker, coilover } = parts;
      return pushrod({ lowerArm, upperArm, wheel, rod, rocker, coilover });
    }
    case 'strut':
      return strut({ lowerArm, strut: parts.strut, wheel, coilover: parts.coilover });
    default: {
      const { upperArm, coilover } = parts;
      return doubleWishbone({ lowerArm, upperArm, wheel, coilover });
    }
  }
}

// The one list of kinds: how corners of each are drawn, and what they are as inputs. They stand apart so that what only draws corners does
// not carry the shapes of all inputs.

import type { CornerKind } from '../document/corner-kind.ts';
import { DOUBLE_WISHBONE } from '../document/kinds/double-wishbone.ts';
import { PUSHROD } from '../document/kinds/pushrod.ts';
import { STRUT } from '../document/kinds/strut.ts';
import { doubleWishbone, doubleWishboneModel } from './double-wishbone.ts';
import type { Uncertain } from './hardpoints.ts';
import { pushrod, pushrodModel } from './pushrod.ts';
import { strut, strutModel } from './strut.ts';

/** The model of a corner of each kind. */
export const MODELS = {
  doubleWishbone: doubleWishboneModel,
  pushrod: pushrodModel,
  strut: strutModel,
};

/** What corners of each kind are as inputs, and what makes them. */
export const KINDS = {
  doubleWishbone: { input: DOUBLE_WISHBONE, make: doubleWishbone },
  pushrod: { input: PUSHROD, make: pushrod },
  strut: { input: STRUT, make: strut },
} as const satisfies { readonly [Name in keyof typeof MODELS]: Entry<Name> };

/** The kinds of corners that the library draws. */
export type Kind = keyof typeof KINDS;

interface Entry<Name extends keyof typeof MODELS> {
  readonly input: CornerKind & { readonly kind: Name };
  make(input: never): Uncertain & { readonly kind: Name } & Parameters<(typeof MODELS)[Name]>[0];
}

// The one list of kinds: how corners of each are drawn, and what they are as inputs. They stand apart so that what only draws corners does
// not carry the shapes of all inputs.

import type { CornerKind } from '../document/corner-kind.ts';
import { DOUBLE_WISHBONE } from '../document/kinds/double-wishbone.ts';
import { PUSHROD } from '../document/kinds/pushrod.ts';
import { STRUT } from '../document/kinds/strut.ts';
import { DOUBLE_WISHBONE_DRAWING, doubleWishbone } from './double-wishbone.ts';
import type { Uncertain } from './hardpoints.ts';
import { PUSHROD_DRAWING, pushrod } from './pushrod.ts';
import { STRUT_DRAWING, strut } from './strut.ts';

/** How corners of each kind are drawn. */
export const DRAWINGS = {
  doubleWishbone: DOUBLE_WISHBONE_DRAWING,
  pushrod: PUSHROD_DRAWING,
  strut: STRUT_DRAWING,
} as const;

/** The kinds of corners that the library draws. */
export type Kind = keyof typeof DRAWINGS;

/** What corners of each kind are as inputs, and what makes them. */
export const KINDS = {
  doubleWishbone: { input: DOUBLE_WISHBONE, make: doubleWishbone },
  pushrod: { input: PUSHROD, make: pushrod },
  strut: { input: STRUT, make: strut },
} as const satisfies { readonly [Name in Kind]: Entry<Name> };

interface Entry<Name extends Kind> {
  readonly input: CornerKind & { readonly kind: Name };
  make(input: never): Uncertain & { readonly kind: Name } & Parameters<(typeof DRAWINGS)[Name]['model']>[0];
}

import { fault, show } from '../diagnostic.ts';
import { certainCorner } from '../document/certain-corner.ts';
import { UNNAMED_KIND } from '../document/corner-kind.ts';
import { refusal } from '../errors/corner.ts';
import type { CustomCorner } from './custom.ts';
import { KINDS, type Kind, MODELS } from './kinds.ts';
import type { CornerModel } from './model.ts';

/** A corner of a kind that the library draws, as documents have them. */
export type DrawnCorner = { [Name in Kind]: ReturnType<(typeof KINDS)[Name]['make']> }[Kind];

/** A suspension corner as plain data; `kind` says which. */
export type Corner = DrawnCorner | CustomCorner;

/**
 * The drawing and the roles behind a corner. What a function of this library made is frozen; a copy is checked as its input is.
 *
 * @throws InputError for what is no corner.
 */
export function modelOf(corner: Corner): CornerModel {
  const kind = corner?.kind;
  if (kind === 'custom') return corner as CustomCorner;
  if (!Object.hasOwn(MODELS, kind)) {
    throw refusal('corner', [
      fault('notACorner', 'kind', { got: show(corner), makers: [...Object.keys(MODELS), 'customCorner'] }),
    ]);
  }
  if (!Object.isFrozen(corner)) checkParts(corner as DrawnCorner);
  return MODELS[kind](corner as never);
}

/** Throws InputError for a corner whose parts are not those of its kind. */
function checkParts(corner: DrawnCorner): void {
  const { input } = KINDS[corner.kind];
  const parts = Object.fromEntries(Object.entries(corner).filter(([name]) => name in input.schema.shape));
  if (typeof parts.wheel === 'object') {
    const { standsBy: _, ...wheel } = { ...(parts.wheel as Partial<DrawnCorner['wheel']>) };
    parts.wheel = wheel;
  }
  certainCorner(input, parts);
}

/** The part of a corner along which spring and damper act, their body part of the upright; null with a coilover of its own, or a linkage of its own. */
export function strutOf(corner: Corner): string | null {
  return corner.kind === 'custom' || corner.coilover !== undefined ? null : KINDS[corner.kind].input.strut;
}

/** What a corner is made from, with its kind; one is taken if none is named. */
export type CornerParts = { [Name in Kind]: Parameters<(typeof KINDS)[Name]['make']>[0] & Named<Name> }[Kind];
type Named<Name extends Kind> = Name extends typeof UNNAMED_KIND
  ? { readonly kind?: Name | undefined }
  : { readonly kind: Name };

/** A corner of the kind that its parts say; whatever else stands beside them is left out. */
export function drawnCorner(parts: CornerParts): DrawnCorner {
  const { input, make } = KINDS[parts.kind ?? UNNAMED_KIND];
  const own = Object.entries(parts).filter(([name]) => name in input.schema.shape);
  return make(Object.fromEntries(own) as never);
}

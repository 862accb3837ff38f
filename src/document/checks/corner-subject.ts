import type { Units } from '../../units.ts';
import type { CornerKind } from '../corner-kind.ts';
import type { Point, Written } from '../written.ts';

/** A corner that is looked at: its numbers in the library's units, and what its file is written in. */
export interface CornerSubject {
  readonly kind: CornerKind;
  readonly corner: Written;
  /** Its hardpoints by their paths. */
  readonly points: ReadonlyMap<string, Point>;
  readonly units: Units;
  /** Overall radius of its tyre, mm, and where the file has it. */
  readonly tyre?: { readonly path: string; readonly overallRadius: number };
}

import type { Units } from '../../units.ts';
import type { Written } from '../written.ts';

/** A corner that is looked at: its numbers in the library's units, and what its file is written in. */
export interface CornerSubject {
  readonly corner: Written;
  readonly units: Units;
  /** Overall radius of its tyre, mm, and where the file has it. */
  readonly tyre?: { readonly path: string; readonly overallRadius: number };
}

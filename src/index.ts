export type { ColumnInfo } from './corner/columns.ts';
export type { Corner } from './corner/corner.ts';
export { type DoubleWishbone, doubleWishbone } from './corner/double-wishbone.ts';
export {
  type Columns,
  type Row,
  type Sweep,
  type SweepEnd,
  type SweepOptions,
  sweep,
} from './corner/sweep.ts';
export type { DoubleWishboneInput } from './document/corner-schema.ts';
export { describeIssue, InputError, type Issue } from './errors.ts';
export type { EndKind } from './linkage/path.ts';

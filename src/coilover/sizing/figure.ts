import type { Quantity } from '../../units.ts';

/**
 * What a figure belongs to: `order` can't be changed once the coilover is made, `adjustable` can (spring, valving, perch), `car` is the car
 * and not the coilover.
 */
export type FigureGroup = 'order' | 'adjustable' | 'car';

/** What a figure is. */
export interface FigureInfo {
  readonly label: string;
  /** What it is measured in; `ratio` for a bare number. */
  readonly quantity: Quantity | 'ratio';
  readonly group: FigureGroup;
  /** Its definition, in a line. */
  readonly definition: string;
}

/** Figures by name. */
export type FigureInfos = Readonly<Record<string, FigureInfo>>;

/** A value for each figure of a list; null where there is none, as when an input is missing. */
export type Numbers<Infos extends FigureInfos> = { readonly [Name in keyof Infos]: number | null };

/** Figures of a list without a value. */
export function none<Infos extends FigureInfos>(infos: Infos): Numbers<Infos> {
  return Object.fromEntries(Object.keys(infos).map((name) => [name, null])) as Numbers<Infos>;
}

// Two sizings side by side. A figure that goes from a to b, with the half-widths w_a and w_b of their 95 % intervals, changes by
//
//   b - a,     against its interval (b - a) / max(w_a, w_b):
//
// below 1 in size the change is less than the figure is uncertain by.

import { AXLES, type Axle } from '../corner/axles.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Units } from '../units.ts';
import type { FigureGroup, FigureInfo } from './sizing/figure.ts';
import type { AxleSizing, Figure, Sizing } from './sizing/result.ts';

/** A figure that is not the same in both, in the library's units. */
export interface FigureChange extends Pick<FigureInfo, 'label' | 'quantity'> {
  readonly whose: Axle | 'car';
  readonly name: string;
  readonly group: FigureGroup;
  /** Null where it has no value. */
  readonly before: number | null;
  readonly after: number | null;
  /** After minus before; null where one of them has no value. */
  readonly change: number | null;
  /** The larger half-width of the two 95 % intervals; null where neither is known. */
  readonly halfWidth: number | null;
  /** Change ÷ half-width; null where there is no change as a number, or nothing makes the figure uncertain. */
  readonly againstInterval: number | null;
}

/** A value that was chosen. */
export type ChoiceValue = number | string | boolean | null;

/** Something chosen that is not the same in both: a spring, a length of the damper, a state. */
export interface ChoiceChange {
  readonly whose: Axle | 'car';
  /** As `spring.name`, `damper.extendedLength`, `damper.specified`. */
  readonly what: string;
  readonly group: FigureGroup;
  /** What numbers are measured in; null for names and for what is true or false. */
  readonly quantity: FigureInfo['quantity'] | null;
  /** Value before, in the library's unit of the quantity; null for none. */
  readonly before: ChoiceValue;
  /** Value after, likewise. */
  readonly after: ChoiceValue;
}

/** What ends the travel on a side, where that is not the same in both. */
export interface LimitChange {
  readonly axle: Axle;
  readonly side: 'bump' | 'droop';
  /** Cause, and travel in mm, droop negative; null where nothing ends it. */
  readonly before: { readonly cause: string; readonly travel: number } | null;
  readonly after: { readonly cause: string; readonly travel: number } | null;
}

/** Two sizings compared. */
export interface SizingComparison {
  readonly names: { readonly before: string | null; readonly after: string | null };
  /** Units of the second document, for sheets. */
  readonly units: Units;
  /** Largest change against its interval first; changes of figures that nothing makes uncertain before them. */
  readonly figures: readonly FigureChange[];
  readonly choices: readonly ChoiceChange[];
  readonly limits: readonly LimitChange[];
  /** Conflicts that only one of the two has, by code and path. */
  readonly conflicts: {
    readonly gone: readonly Diagnostic[];
    readonly added: readonly Diagnostic[];
  };
  /** Checks that only one of the two has. */
  readonly checks: SizingComparison['conflicts'];
  /**
   * What the changes affect. `order`: the coilover itself; `adjustable`: spring, valving or perch only; `car`: neither; `nothing`: no change.
   * Travel and margins that follow, such as those of another tyre, do not affect an order.
   */
  readonly consequence: FigureGroup | 'nothing';
}

/** Share of a value, or of 1, that rounding makes. */
const ROUNDING = 1e-9;

/**
 * Compares two sizings, figure by figure: of two cars, or of one car before and after a change. Lists only what differs by more than
 * rounding.
 */
export function compareSizings(before: Sizing, after: Sizing): SizingComparison {
  refuseOtherThan('sizing', before);
  refuseOtherThan('sizing', after);
  const figures = figureChanges(before, after);
  const choices = choiceChanges(before, after);
  const limits = limitChanges(before, after);
  const conflicts = diagnosticChange(before.conflicts, after.conflicts);
  const checks = diagnosticChange(before.checks, after.checks);
  const groups = new Set(specifiedIn({ figures, choices }).map(({ group }) => group));
  const changes = [
    figures,
    choices,
    limits,
    ...[conflicts, checks].flatMap(({ gone, added }) => [gone, added]),
  ];
  const changed = changes.some((list) => list.length > 0);
  const most = (['order', 'adjustable'] as const).find((group) => groups.has(group));
  return {
    names: { before: before.name ?? null, after: after.name ?? null },
    units: after.units,
    figures,
    choices,
    limits,
    conflicts,
    checks,
    consequence: most ?? (changed ? 'car' : 'nothing'),
  };
}

/** Figures that a coilover, its spring, valving and perch are ordered or set by; all others follow from these and the car. */
const SPECIFIED: ReadonlySet<string> = new Set([
  'designLength',
  'extendedLength',
  'compressedLength',
  'gasForce',
  'springRate',
  'freeLength',
  'perchSetting',
  'compressionDamping',
  'reboundDamping',
]);

/** What of the changes is a change of the order, or of spring, valving or perch. */
export function specifiedIn({
  figures,
  choices,
}: Pick<SizingComparison, 'figures' | 'choices'>): readonly (FigureChange | ChoiceChange)[] {
  return [
    ...choices.filter(({ whose }) => whose !== 'car'),
    ...figures.filter(({ name }) => SPECIFIED.has(name)),
  ];
}

interface Owned {
  readonly whose: Axle | 'car';
  readonly figure: Figure;
  /** Its place among all figures, whether both sizings have that axle or not. */
  readonly place: number;
}

const OWNERS = [...AXLES, 'car'] as const;
/** More than the figures of an axle. */
const PER_OWNER = 10_000;

function figureChanges(before: Sizing, after: Sizing): FigureChange[] {
  const others = new Map(owned(after).map((one) => [key(one), one]));
  const [ours, theirs] = [owned(before), owned(after)];
  const known = new Set(ours.map(key));
  const pairs = [
    ...ours.map((one) => [one, others.get(key(one))] as const),
    ...theirs.filter((one) => !known.has(key(one))).map((one) => [undefined, one] as const),
  ];
  return pairs
    .sort(([a, b], [c, d]) => ((a ?? b)?.place ?? 0) - ((c ?? d)?.place ?? 0))
    .flatMap(([a, b]): FigureChange[] => {
      const { whose, figure } = a ?? b ?? {};
      if (whose === undefined || figure === undefined) return [];
      const { name, label, quantity, group } = figure;
      const [from, to] = [a?.figure.value ?? null, b?.figure.value ?? null];
      if (from === to) return [];
      const change = from === null || to === null ? null : to - from;
      if (
        change !== null &&
        Math.abs(change) <= ROUNDING * Math.max(1, Math.abs(from ?? 0), Math.abs(to ?? 0))
      ) {
        return [];
      }
      const widths = [a, b].flatMap((one) => halfWidthOf(one?.figure) ?? []);
      const halfWidth = widths.length === 0 ? null : Math.max(...widths);
      return [
        {
          whose,
          name,
          label,
          quantity,
          group,
          before: from,
          after: to,
          change,
          halfWidth,
          againstInterval:
            change === null || halfWidth === null || halfWidth === 0 ? null : change / halfWidth,
        },
      ];
    })
    .sort((a, b) => rank(b) - rank(a));
}

function owned({ axles, figures }: Sizing): Owned[] {
  const of = (whose: Owned['whose'], list: readonly Figure[]) =>
    list.map((figure, k) => ({ whose, figure, place: PER_OWNER * OWNERS.indexOf(whose) + k }));
  return [...axles.flatMap(({ axle, figures }) => of(axle, figures)), ...of('car', figures)];
}

const key = ({ whose, figure }: Owned) => `${whose}.${figure.name}`;

function halfWidthOf(figure: Figure | undefined): number | null {
  return figure?.lower == null || figure.upper === null ? null : (figure.upper - figure.lower) / 2;
}

/** For the order of changes: certain ones before uncertain ones, what has come or gone last. */
function rank({ change, againstInterval }: FigureChange): number {
  if (change === null) return -1;
  return againstInterval === null ? Number.MAX_VALUE : Math.abs(againstInterval);
}

/** What is chosen on an axle, and what it concerns. */
const CHOICES: readonly (readonly [
  what: string,
  group: FigureGroup,
  quantity: ChoiceChange['quantity'],
  of: (axle: AxleSizing) => ChoiceValue | undefined,
])[] = [
  ['spring.name', 'adjustable', null, ({ spring }) => spring?.name],
  ['spring.rate', 'adjustable', 'rate', ({ spring }) => spring?.rate],
  ['spring.freeLength', 'adjustable', 'length', ({ spring }) => spring?.freeLength],
  ['damper.extendedLength', 'order', 'length', ({ damper }) => damper?.extendedLength],
  ['damper.compressedLength', 'order', 'length', ({ damper }) => damper?.compressedLength],
  ['damper.specified', 'order', null, ({ damper }) => damper?.specified],
  ['perch.reachesDesign', 'adjustable', null, ({ perch }) => perch?.reachesDesign],
];

function choiceChanges(before: Sizing, after: Sizing): ChoiceChange[] {
  const change = (one: ChoiceChange): ChoiceChange[] => {
    const { before: a, after: b } = one;
    const same =
      typeof a === 'number' && typeof b === 'number'
        ? Math.abs(b - a) <= ROUNDING * Math.max(1, Math.abs(a), Math.abs(b))
        : a === b;
    return same ? [] : [one];
  };
  const on = (sizing: Sizing, axle: Axle) => sizing.axles.find((one) => one.axle === axle);
  return [
    ...AXLES.flatMap((axle) =>
      CHOICES.flatMap(([what, group, quantity, of]) => {
        const [a, b] = [on(before, axle), on(after, axle)];
        const values = [a, b].map((one) => (one === undefined ? null : (of(one) ?? null)));
        return change({ whose: axle, what, group, quantity, before: values[0], after: values[1] });
      }),
    ),
    ...change({
      whose: 'car',
      what: 'designState',
      group: 'car',
      quantity: null,
      before: before.designState,
      after: after.designState,
    }),
  ];
}

/** Limits that have another cause; how far they have moved is a figure. */
function limitChanges(before: Sizing, after: Sizing): LimitChange[] {
  const endOf = ({ axles }: Sizing, axle: Axle, side: 'bump' | 'droop') => {
    const limit = axles.find((one) => one.axle === axle)?.limits[side];
    return limit == null ? null : { cause: limit.cause, travel: limit.travel };
  };
  return AXLES.flatMap((axle) =>
    (['bump', 'droop'] as const).flatMap((side) => {
      const [a, b] = [endOf(before, axle, side), endOf(after, axle, side)];
      return a?.cause === b?.cause ? [] : [{ axle, side, before: a, after: b }];
    }),
  );
}

function diagnosticChange(
  before: readonly Diagnostic[],
  after: readonly Diagnostic[],
): SizingComparison['conflicts'] {
  return { gone: missingIn(after, before), added: missingIn(before, after) };
}

/** Diagnostics of a second list that the first has not, by code and path. */
function missingIn(first: readonly Diagnostic[], second: readonly Diagnostic[]): Diagnostic[] {
  const known = new Set(first.map(identity));
  return second.filter((one) => !known.has(identity(one)));
}

/** Code and path: not its values. */
function identity({ code, path }: Diagnostic): string {
  return `${code} at ${path}`;
}

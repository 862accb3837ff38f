// The anti-roll bar of a corner: sizes that no bar has, a drop link far from vertical, and a stiffness that a bar of its diameter cannot have.
// Bounds are common practice for cars, no source, and generous.

import { DEGREES } from '../../units.ts';
import { roundBarStiffness } from '../round-bar.ts';
import { apart } from '../written.ts';
import type { CheckRule, Found } from './check.ts';
import type { CornerSubject } from './corner-subject.ts';
import { outside, type Range } from './ranges.ts';

/** Degrees from vertical: beyond it a drop link moves its lever by little more than half, and loads it by near twice. */
const MOST_LEAN = 50;
/** Share by which a stiffness may be above that of the round bar: what tape and formula are off by. */
const STIFFER = 1.05;

const SIZES: readonly Range<CornerSubject>[] = [
  {
    what: 'leverLength',
    least: 40,
    most: 600,
    of: ({ corner: { bar } }) => [['bar.leverLength', bar?.leverLength]],
  },
  {
    what: 'linkLength',
    least: 20,
    most: 600,
    of: ({ corner: { bar } }) => [['bar.leverEnd', bar && apart(bar.linkMount, bar.leverEnd)]],
  },
  {
    what: 'diameter',
    least: 5,
    most: 60,
    of: ({ corner: { bar } }) => [['bar.roundBar.diameter', bar?.roundBar?.diameter]],
  },
  {
    what: 'torsionLength',
    least: 40,
    most: 2000,
    of: ({ corner: { bar } }) => [['bar.roundBar.length', bar?.roundBar?.length]],
  },
];

/** The table; sentences by code in `sentences/checks.ts`. */
export const BAR_CHECKS: readonly CheckRule<CornerSubject>[] = [
  outside(
    'length',
    { code: 'sizeUnusual', severity: 'check', unless: ['unitsWrong', 'allCoordinatesExchanged'] },
    SIZES,
  ),
  { code: 'dropLinkLeans', severity: 'check', find: leaningLink },
  { code: 'barStifferThanItsDiameter', severity: 'check', find: stiffBar },
];

function leaningLink({ corner: { bar } }: CornerSubject): Found[] {
  if (bar === undefined || bar.axis !== undefined) return [];
  const { linkMount: mount, leverEnd: end } = bar;
  const lean = Math.atan2(Math.abs(mount[0] - end[0]), Math.abs(mount[1] - end[1])) * DEGREES;
  return lean > MOST_LEAN ? [{ path: 'bar.linkMount', values: { lean, most: MOST_LEAN } }] : [];
}

function stiffBar({ corner: { bar } }: CornerSubject): Found[] {
  if (bar?.torsionalStiffness === undefined || bar.roundBar === undefined) return [];
  const [stiffness, most] = [bar.torsionalStiffness, roundBarStiffness(bar.roundBar)];
  return stiffness > STIFFER * most ? [{ path: 'bar.torsionalStiffness', values: { stiffness, most } }] : [];
}

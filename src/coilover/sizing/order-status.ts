import type { Axle } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { isBought, type Settled, unsettledOn } from './unsettled.ts';

/**
 * Whether a sizing may go to a maker: as an `order`, where all that decides what is made is settled; as an `enquiry`, where something of
 * that is to be agreed; `notForOrder`, where a conflict stands against it or an input cannot be right. `bought` where the coilovers of all
 * axles are bought: nothing is ordered.
 */
export type OrderStatus = 'order' | 'enquiry' | 'notForOrder' | 'bought';

/** Conflicts that cost comfort or time, not the unit: the builder may choose to live with them. */
const ACCEPTABLE: readonly string[] = ['ridesOnBumpStop', 'springFarFromTarget'];

/** Whether a conflict stands against an order. */
export function blocksOrder({ code }: Diagnostic): boolean {
  return !ACCEPTABLE.includes(code);
}

/** Conflicts of an axle: its own, and those of the whole car. */
export function conflictsOn<D extends Pick<Diagnostic, 'path'>>(axle: Axle, conflicts: readonly D[]): D[] {
  return conflicts.filter(({ path }) => !path.startsWith('corners.') || path.startsWith(`corners.${axle}`));
}

/** The status of an order from its conflicts and what is still to be agreed. */
export function orderStatus(conflicts: readonly Diagnostic[], axles: readonly Settled[]): OrderStatus {
  const ordered = axles.filter(({ input }) => !isBought(input));
  if (ordered.length === 0) return 'bought';
  if (conflicts.some(blocksOrder)) return 'notForOrder';
  return ordered.some((sized) => unsettledOn(sized).some(({ essential }) => essential)) ? 'enquiry' : 'order';
}

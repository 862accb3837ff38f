import { strutOf } from '../../corner/corner.ts';
import type { DocumentCorner } from '../../corner/read-corner.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { DamperLengths } from './damper.ts';
import type { Spring } from './listed-springs.ts';

/**
 * Whether a sizing may go to a maker: as an `order`, where nothing is left to agree; as an `enquiry`, where something is; `notForOrder`,
 * where a conflict stands against it or an input cannot be right.
 */
export type OrderStatus = 'order' | 'enquiry' | 'notForOrder';

/** Conflicts that cost comfort or time, not the unit: the builder may choose to live with them. */
const ACCEPTABLE: readonly string[] = ['ridesOnBumpStop', 'springFarFromTarget'];

/** Whether a conflict stands against an order. */
export function blocksOrder({ code }: Diagnostic): boolean {
  return !ACCEPTABLE.includes(code);
}

/** The status of an order from its conflicts and what is still to be agreed. */
export function orderStatus(
  conflicts: readonly Diagnostic[],
  axles: readonly {
    readonly spring: Spring | null;
    readonly damper: DamperLengths | null;
    readonly input: DocumentCorner;
  }[],
): OrderStatus {
  if (conflicts.some(blocksOrder)) return 'notForOrder';
  const agreed = axles.every(({ spring, damper, input }) => {
    const { mounts, bodyEnd } = input.sizing?.order ?? {};
    return (
      spring?.freeLength != null &&
      damper !== null &&
      mounts?.mount !== undefined &&
      mounts.chassis !== undefined &&
      (bodyEnd !== undefined || strutOf(input.corner) !== null)
    );
  });
  return agreed ? 'order' : 'enquiry';
}

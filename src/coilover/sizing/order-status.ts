import { strutOf } from '../../corner/corner.ts';
import type { DocumentCorner } from '../../corner/read-corner.ts';
import { type Diagnostic, isCheck } from '../../diagnostic.ts';
import type { DamperLengths } from './damper.ts';
import type { Spring } from './listed-springs.ts';

/**
 * Whether a sizing may go to a maker: as an `order`, where nothing is left to agree; as an `enquiry`, where something is; `notForOrder`,
 * where a conflict stands against it or an input cannot be right.
 */
export type OrderStatus = 'order' | 'enquiry' | 'notForOrder';

/** Conflicts that cost comfort or time, not the unit: the builder may choose to live with them. */
const ACCEPTABLE: readonly string[] = ['ridesOnBumpStop', 'springFarFromTarget'];

/** Whether something that was found stands against an order. */
export function blocksOrder(found: Partial<Pick<Diagnostic, 'code' | 'severity'>>): boolean {
  return !isCheck(found) && (found.code === undefined || !ACCEPTABLE.includes(found.code));
}

/** The status of an order from what was found and what is still to be agreed. */
export function orderStatus(
  findings: readonly Partial<Pick<Diagnostic, 'code' | 'severity'>>[],
  axles: readonly {
    readonly spring: Spring | null;
    readonly damper: DamperLengths | null;
    readonly input: DocumentCorner;
  }[],
): OrderStatus {
  if (findings.some(blocksOrder)) return 'notForOrder';
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

/** What keeps from what, from a public sweep and the judge's own geometry. */
import { type DoubleWishbone, type SweepOptions, sweep } from 'jounce';
import { toPolygon, toSegment } from '../judges/distance.ts';
import { minus, type Point, plus, times } from '../judges/plane.ts';

export interface Kept {
  readonly upperArm: number;
  readonly springToTyre: number;
  readonly diameter: number;
  readonly seatOffset: number;
  readonly tyre: { readonly overallRadius: number; readonly width: number };
}

const COLUMNS = ['upperOuter', 'shockMount', 'wheelCentre']
  .flatMap((point) => [`${point}Y`, `${point}Z`])
  .concat('camber');

/** By how much the least distance of all rows is more than is to be kept: eyes to the upper arm, spring to the tyre. */
export function leastRoom(corner: DoubleWishbone, kept: Kept, travel: SweepOptions): number {
  const { upperArm, springToTyre, diameter, seatOffset, tyre } = kept;
  let least = Number.POSITIVE_INFINITY;
  for (const row of sweep(corner, { ...travel, columns: COLUMNS }).rows()) {
    const at = (name: string): Point => [row[`${name}Y`] as number, row[`${name}Z`] as number];
    const arm: [Point, Point] = [corner.upperArm.inner, at('upperOuter')];
    const [mount, eye] = [at('shockMount'), corner.coilover.chassisMount as Point];
    const eyes = corner.coilover.on === 'upperArm' ? [eye] : [mount, eye];
    for (const one of eyes) least = Math.min(least, toSegment(one, ...arm) - upperArm);
    const way = minus(eye, mount);
    const unit = times(1 / Math.hypot(...way), way);
    const spring = [plus(mount, times(seatOffset, unit)), minus(eye, times(seatOffset, unit))];
    const lean = ((row.camber as number) * Math.PI) / 180;
    const [out, up]: Point[] = [
      [Math.cos(lean), -Math.sin(lean)],
      [Math.sin(lean), Math.cos(lean)],
    ];
    const corners = [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ].map(([y, z]) =>
      plus(at('wheelCentre'), plus(times(0.5 * y * tyre.width, out), times(z * tyre.overallRadius, up))),
    );
    least = Math.min(least, toPolygon(spring, corners) - diameter / 2 - springToTyre);
  }
  return least;
}

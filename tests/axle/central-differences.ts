/** Columns of an axle beside a pose, and their central differences there. */
import { type AxleColumn, type AxleLinkage, type AxleRow, sweepAxle } from 'jounce';

/** mm or degrees to either side. */
const STEP = 1e-3;
/** Roundings of some 1e-13 over the distance, and its square times a third derivative. */
export const DIFFERENCED = 1e-8;

export function rowAt(axle: AxleLinkage, heave: number, roll: number): AxleRow {
  return sweepAxle(axle, { heave: [heave], roll: [roll] }).rows()[0];
}

/** Pairs of rows beside a pose, up and down, by heave and by roll; and what a column changes by there, per mm and per degree. */
export function besidePose(axle: AxleLinkage, heave: number, roll: number) {
  const byHeave = [rowAt(axle, heave + STEP, roll), rowAt(axle, heave - STEP, roll)] as const;
  const byRoll = [rowAt(axle, heave, roll + STEP), rowAt(axle, heave, roll - STEP)] as const;
  return {
    row: rowAt(axle, heave, roll),
    byHeave,
    slopes: (name: AxleColumn) => {
      const [heaved, rolled] = [byHeave, byRoll].map(([up, down]) => (up[name]! - down[name]!) / (2 * STEP));
      return { byHeave: heaved, byRoll: rolled };
    },
  };
}

/** The axles of a car, front first. */
export const AXLES = ['front', 'rear'] as const;

/** Which axle of a car. */
export type Axle = (typeof AXLES)[number];

/** An axle as a heading has it. */
export function axleName(axle: Axle): string {
  return axle === 'front' ? 'Front' : 'Rear';
}

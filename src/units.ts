/** Degrees in a radian. */
export const DEGREES = 180 / Math.PI;

/** Value, first and second derivative by travel. */
export type Jet = [value: number, first: number, second: number];

export type { Load } from './loads.ts';
export { type Forces, forces, type StaticsOptions } from './statics.ts';

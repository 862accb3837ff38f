import { BOUNDED, INPUT } from './input.ts';
import { LOADS } from './loads.ts';
import type { Sentences } from './say.ts';
import { SPRINGS } from './springs.ts';
import { THIRD_SPRING } from './third-spring.ts';

/** What is said about a car to be sized, forces in a corner, and figures asked for. */
export const SIZING: Sentences = {
  ...INPUT,
  ...BOUNDED,
  ...LOADS,
  ...SPRINGS,
  ...THIRD_SPRING,
  notACar: {
    problem: 'not a car that was read',
    allowed: 'what readCar returns',
    advice: 'give the file, or the value of it, to readCar first',
  },
  unknownFigure: { problem: 'unknown figure' },
  noWheelRateRequired: { problem: 'no wheel rate is required' },
  requiredWheelRateNotPositive: { problem: 'the required wheel rate is not positive' },
  noForceOptions: { problem: 'no options', allowed: '{ sprungMass, unsprungMass, springRate }' },
  notABumpStopTable: {
    problem: 'not a table',
    allowed: '[[compression, force], ...], mm and N',
  },
  notACaseList: { problem: 'not a list of load cases', allowed: '[{ name, tyre, travel }, ...]' },
  notATyreForce: { problem: 'not a force', allowed: '[y, z] in N, or null' },
  notACaseTravel: { problem: 'not a travel' },
};

/** The quiet car of `cars.ts`, its front coilover bought. */
import type { Json } from '../document/support.ts';
import { car } from './cars.ts';

/** A spring of 50 N/mm bought for the front of a car whose target asks for about 40. */
export const boughtFront = () => ({
  revision: 'A',
  date: '2026-03-01',
  damper: { extendedLength: 474.3, compressedLength: 350.7 },
  spring: { name: 'bought', rate: 50.3, freeLength: 210.7, solidLength: 70.1, minLength: 75.3 },
  bumpStop: {
    height: 39.7,
    solidHeight: 12.3,
    table: [
      [9.7, 510],
      [21.3, 3100],
    ],
  },
  valving: { compressionDamping: 1711, reboundDamping: 2533, kneeSpeed: 130, highSpeedFraction: 0.37 },
  perch: { setting: 210.3, min: 150.1, max: 300.7, threadPitch: 1.75 },
});

/** That car, weighed, changed. */
export const weighedCar = (change: (document: Json) => void = () => {}): Json =>
  car((document) => {
    delete document.masses.estimate;
    document.masses.scales = {
      frontLeft: 184,
      frontRight: 171,
      rearLeft: 190,
      rearRight: 186,
      perches: 'untouched',
    };
    document.corners.front.ordered = boughtFront();
    change(document);
  });

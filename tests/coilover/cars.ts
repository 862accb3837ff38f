/** Car documents in metric units for the tests of sizing: a quiet one to change, and random ones with corners of every kind. */
import * as fc from 'fast-check';
import { type AxleSizing, type Figure, readCar, type Sizing, sizeCoilovers } from 'jounce';
import { expect } from 'vitest';
import { carOf } from '../../src/coilover/sizing/car.ts';
import { carStates } from '../../src/coilover/sizing/car-states.ts';
import type { AxleState } from '../../src/coilover/sizing/state.ts';
import type { Json } from '../document/support.ts';
import { wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { rockerCorners, strutCorners } from '../support/rocker-corners.ts';

/** Written down a second time on purpose. */
export const GRAVITY = 9.80665;

const corner = () => ({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 560] },
  limits: {
    damper: { extendedLength: 475, compressedLength: 350 },
    bumpStop: { height: 40, solidHeight: 12 },
  },
  sizing: {
    unsprungMass: 30,
    target: { frequency: 1.6 },
    tyreRate: 200,
    gas: { force: 150 },
    bumpStopTable: [
      [10, 500],
      [20, 3000],
    ],
    damping: { ratio: 0.3 },
  },
});

/** A document that nothing is wrong with, changed; frozen. */
export function car(change: (document: Json) => void = () => {}): Json {
  const document: Json = {
    units: 'metric',
    masses: {
      estimate: { total: 700, frontFraction: 0.48 },
      sprungCentreOfGravityHeight: 450,
      wheelbase: 2350,
    },
    downforce: { speed: 160, force: 600, frontFraction: 0.4, speedsToCheck: [80, 160, 200] },
    travelCases: { lateralAcceleration: 0.4, deceleration: 0.3, roadBump: 15, roadDip: 15, margin: 2 },
    corners: { front: corner(), rear: corner() },
  };
  change(document);
  return deepFreeze(document);
}

export const sized = (change?: (document: Json) => void): Sizing => sizeCoilovers(readCar(car(change)));
export const front = (change?: (front: Json) => void): AxleSizing =>
  sized((document) => change?.(document.corners.front)).axles[0];

/** A figure that must have a value. */
export function valueIn(axle: { readonly figures: readonly Figure[] }, name: string): number {
  const value = axle.figures.find((figure) => figure.name === name)?.value;
  if (value === null || value === undefined) expect.fail(`no value for ${name}`);
  return value;
}

/** The front of a car with its springs as wanted and no damper but the given one: for laws of what the sheet is made of. */
export function frontState(document: Json): AxleState {
  const { car } = carOf(readCar(document));
  const settings = car.axles.map(({ limits }) => ({
    spring: null,
    damper: limits.damper ?? null,
    ends: null,
  }));
  return carStates(car, settings).axles[0].state;
}

/** Corners of every kind, as documents have them. */
export const cornerDocuments: fc.Arbitrary<Json> = fc.oneof(
  { weight: 3, arbitrary: wildCorners },
  { weight: 1, arbitrary: rockerCorners.map((input) => ({ kind: 'pushrod', ...input })) },
  { weight: 1, arbitrary: strutCorners.map((input) => ({ kind: 'strut', ...input })) },
);

/** In steps of a 1000th of the range. */
const between = (min: number, max: number) => fc.nat(1000).map((k) => min + ((max - min) * k) / 1000);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 3 });
const unsure = (min: number, max: number, share = 0.05) =>
  fc.oneof(
    between(min, max),
    fc
      .tuple(between(min, max), between(0, share))
      .map(([value, part]) => ({ value, plusMinus: Math.abs(value * part) })),
  );

const sizing = fc.record({
  unsprungMass: unsure(10, 45),
  target: fc.oneof(
    unsure(0.8, 3).map((frequency) => ({ frequency })),
    unsure(0.8, 2.5).map((frequency) => ({ frequency, withTyre: true })),
    unsure(8, 60).map((wheelRate) => ({ wheelRate })),
    unsure(15, 120).map((springRate) => ({ springRate })),
  ),
  tyreRate: maybe(unsure(100, 300)),
  antiRollBarStiffness: maybe(between(0, 400)),
  gas: maybe(
    fc.oneof(
      unsure(0, 400).map((force) => ({ force })),
      fc.record({ shaftDiameter: between(8, 22), pressure: unsure(0, 20) }),
    ),
  ),
  helper: maybe(
    fc.record({
      rate: between(5, 300),
      freeLength: between(40, 90),
      solidLength: between(10, 35),
      separatorHeight: between(0, 8),
    }),
  ),
  springs: maybe(
    fc
      .array(
        fc.record({ rate: between(15, 120), freeLength: between(150, 250), solidLength: between(50, 130) }),
        {
          minLength: 1,
          maxLength: 3,
        },
      )
      .map((springs) => springs.map((spring, k) => ({ name: `S${k}`, ...spring }))),
  ),
  perch: maybe(fc.record({ setting: maybe(between(120, 260)), threadPitch: between(1, 2) })),
  deadLength: maybe(between(100, 220)),
  damping: maybe(
    fc.record({ ratio: unsure(0.1, 0.9), compressionFraction: between(0, 1), kneeSpeed: between(50, 300) }),
  ),
  unitMass: maybe(fc.record({ new: between(1, 5), replaced: between(1, 5) })),
});

const limits = fc.record({
  damper: maybe(
    fc
      .tuple(between(250, 400), between(60, 200))
      .map(([compressedLength, s]) => ({ compressedLength, extendedLength: compressedLength + s })),
  ),
  bumpStop: maybe(between(20, 60).map((height) => ({ height, solidHeight: height / 3 }))),
});

const axle = fc.tuple(cornerDocuments, sizing, limits).map(([drawn, asked, ends]) => ({
  ...drawn,
  limits: ends,
  sizing: {
    ...asked,
    ...(ends.bumpStop === undefined
      ? {}
      : {
          bumpStopTable: [
            [5, 200],
            [ends.bumpStop.height / 2, 2000],
          ],
        }),
  },
}));

/** Random documents. */
export const carDocuments: fc.Arbitrary<Json> = fc
  .record({
    masses: fc.option(
      fc.record({
        estimate: fc.record({
          total: unsure(400, 1400),
          frontFraction: unsure(0.3, 0.6),
          leftFraction: unsure(0.4, 0.6),
        }),
        sprungCentreOfGravityHeight: maybe(unsure(300, 700)),
        wheelbase: maybe(between(2000, 2800)),
      }),
      { nil: undefined, freq: 10 },
    ),
    downforce: maybe(
      fc.record({ speed: between(80, 200), force: unsure(-400, 3000), frontFraction: unsure(0.2, 0.6) }),
    ),
    front: axle,
    rear: maybe(axle),
  })
  // undefined is left out, as JSON does.
  .map(({ front, rear, ...rest }) =>
    deepFreeze(JSON.parse(JSON.stringify({ units: 'metric', ...rest, corners: { front, rear } }))),
  );

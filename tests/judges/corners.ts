/** Reads tests/fixtures/corners.json, the corners computed with 50 digits by make-corners.py beside it. */
import { readFileSync } from 'node:fs';
import type { CornerInput, Point, TravelReference } from './circle-intersection.ts';

export interface FixturePose {
  readonly travel: number;
  readonly lowerOuter: Point;
  readonly upperOuter: Point;
  readonly wheelCentre: Point;
  readonly contactPatch: Point;
  readonly mount: Point;
  readonly shockLength: number;
  readonly installationRatio: number;
  readonly installationRatioSlope: number;
  readonly camber: number;
}

export interface FixtureCorner {
  readonly name: string;
  readonly input: CornerInput;
  readonly sweeps: readonly {
    readonly travelReference: TravelReference;
    readonly poses: readonly FixturePose[];
  }[];
}

export const fixtureCorners: readonly FixtureCorner[] = (
  JSON.parse(readFileSync(new URL('../fixtures/corners.json', import.meta.url), 'utf8')) as {
    corners: FixtureCorner[];
  }
).corners;

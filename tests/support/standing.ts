/** A linkage that stands as drawn, as a design tries a corner: each coordinate of each point is an input, in the order of the points. */
import type { Drawing, Point } from 'jounce/linkage';
import type { CornerModel } from '../../src/corner/model.ts';
import type { Trial } from '../../src/design/trial.ts';
import type { CheckedDrawing } from '../../src/linkage/drawing.ts';
import { dual } from '../../src/numerics/dual.ts';

/** What a linkage needs to be taken for a corner. */
export interface Carries {
  readonly upright: string;
  /** Where the ground pushes on the upright. */
  readonly wheel: string;
  readonly shock: CornerModel['shock'];
}

export function standing(drawing: Drawing, { upright, wheel, shock }: Carries): Trial {
  const places = drawing.points as Readonly<Record<string, Point>>;
  const inputs = Object.keys(places).flatMap((point) => [0, 1].map((axis) => ({ point, axis })));
  const of = (point: string, axis: 0 | 1) =>
    dual(places[point][axis], () => inputs.map((one) => (one.point === point && one.axis === axis ? 1 : 0)));
  return {
    model: {
      drawing: drawing as CheckedDrawing,
      upright,
      wheelCentre: wheel,
      contactPatch: wheel,
      shock,
      kingpin: null,
      rocker: null,
      camber: 0,
      standsBy: 'both',
      angles: {},
    },
    travel: new Float64Array(1),
    rows: 1,
    ride: 0,
    column: () => dual(0, () => []),
    place: (point) => [of(point, 0), of(point, 1)],
    finer: () => unused(),
    alone: () => unused(),
  };
}

/** The same linkage with an input, by its number, drawn so much farther. */
export function moved(drawing: Drawing, input: number, by: number): Drawing {
  const [point, [x, y]] = Object.entries(drawing.points)[Math.floor(input / 2)];
  return { ...drawing, points: { ...drawing.points, [point]: input % 2 === 0 ? [x + by, y] : [x, y + by] } };
}

function unused(): never {
  throw new Error('a standing linkage has one row');
}

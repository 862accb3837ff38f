// Places in the plane of a picture, [right, up].

export type Point = readonly [number, number];

/** What a picture shows: its view box, and a level ground across it as a path. */
export interface Frame {
  readonly viewBox: string;
  readonly groundAt: (z: number) => string;
}

export function framed(left: number, top: number, right: number, bottom: number): Frame {
  const [x, y, width, height] = [left, -top, right - left, top - bottom].map(Math.round);
  return { viewBox: `${x} ${y} ${width} ${height}`, groundAt: (z) => `M${x} ${-z}h${width}` };
}

/** A place as a path in SVG has it, whose second axis points down. */
export const xy = ([y, z]: Point): string => `${y.toFixed(1)} ${(-z).toFixed(1)}`;

/** The point at a fraction of the way between two. */
export const onWay = ([ay, az]: Point, [by, bz]: Point, fraction: number): Point => [
  ay + fraction * (by - ay),
  az + fraction * (bz - az),
];

/** A broken line along the way between two points, between two fractions of it, as a spring is drawn. */
export function coil(a: Point, b: Point, from: number, to: number): string {
  const length = Math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2);
  const [ny, nz] = [(-(b[1] - a[1]) / length) * 28, ((b[0] - a[0]) / length) * 28];
  const turns = 12;
  return Array.from({ length: turns + 1 }, (_, k) => {
    const [y, z] = onWay(a, b, from + ((to - from) * k) / turns);
    const side = k === 0 || k === turns ? 0 : k % 2 ? 1 : -1;
    return `${k === 0 ? 'M' : 'L'}${xy([y + side * ny, z + side * nz])}`;
  }).join('');
}

export const clamp = (value: number, low: number, high: number): number =>
  Math.min(Math.max(value, low), high);

/** The example linkages of the guide: what they print by closed forms written here, and their pictures as they are kept. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { expect, it, onTestFinished, vi } from 'vitest';
import { expectWithin } from '../support/tolerance.ts';

type Place = readonly [number, number];

const { abs, acos, cos, hypot, PI, sin, sqrt, tan } = Math;
const distance = ([ax, ay]: Place, [bx, by]: Place) => hypot(bx - ax, by - ay);

/** Where circles meet, to the left of the way from p to q (side 1) or to the right of it (side -1). */
function meet(p: Place, a: number, q: Place, b: number, side: 1 | -1): Place {
  const d = distance(p, q);
  const along = (d * d + a * a - b * b) / (2 * d);
  const across = side * sqrt(a * a - along * along);
  const [ux, uy] = [(q[0] - p[0]) / d, (q[1] - p[1]) / d];
  return [p[0] + along * ux - across * uy, p[1] + along * uy + across * ux];
}

/** A third point of a body, as seen from two of its points in one pose, in another pose. */
function carried(drawn: readonly [Place, Place, Place], [p, q]: readonly [Place, Place]): Place {
  const [a, b, c] = drawn;
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [c[0] - a[0], c[1] - a[1]];
  const square = ux * ux + uy * uy;
  const [along, across] = [(vx * ux + vy * uy) / square, (ux * vy - uy * vx) / square];
  const [wx, wy] = [q[0] - p[0], q[1] - p[1]];
  return [p[0] + along * wx - across * wy, p[1] + along * wy + across * wx];
}

/** How far a line passes from a point. */
function arm([a, b]: readonly [Place, Place], about: Place): number {
  return abs((b[0] - a[0]) * (about[1] - a[1]) - (b[1] - a[1]) * (about[0] - a[0])) / distance(a, b);
}

/** Watt's curve, from memory: r^2 = b^2 - (a sin theta ± sqrt(c^2 - a^2 cos^2 theta))^2. */
function watt(): number[] {
  const [a, b, c] = [hypot(200, 60) / 2, 100, 30];
  const A: Place = [b * cos(0.5), b * sin(0.5)];
  const E = meet(A, 2 * c, [200, -60], b, -1);
  const theta = Math.atan2((A[1] + E[1]) / 2 + 30, (A[0] + E[0]) / 2 - 100) - Math.atan2(-60, 200);
  const root = sqrt(c * c - (a * cos(theta)) ** 2);
  const r = sqrt(b * b - (a * sin(theta) - root) ** 2);
  const stop = acos((b * b + 4 * a * a - (b + 2 * c) ** 2) / (4 * a * b)) + Math.atan2(-60, 200);
  return [r, theta, 2, stop];
}

/** Moments about the pins: 10 kN at the tip, by the lever of each cylinder. Turn by the law of cosines. */
function excavator(): number[] {
  const stick =
    (10_000 * (7000 - 4000)) /
    arm(
      [
        [2800, 2600],
        [4300, 2900],
      ],
      [4000, 2000],
    );
  const bucket =
    (10_000 * (7000 - 6500)) /
    arm(
      [
        [5200, 2100],
        [7000, 1000],
      ],
      [6500, 500],
    );
  const [base, eye] = [hypot(600, 900), hypot(600, 500)];
  const corner = (length: number) => acos((base ** 2 + eye ** 2 - length ** 2) / (2 * base * eye));
  return [(10_000 * 7000) / 600, -stick, -bucket, corner(1300) - corner(1400)];
}

/** Circle by circle. */
function walkingLeg(): number[] {
  const foot = (angle: number) => {
    const C: Place = [-38, -7.8];
    const A: Place = [15 * cos(angle), 15 * sin(angle)];
    const B = meet(C, 41.5, A, 50, 1);
    const D = meet(C, 39.3, A, 61.9, -1);
    const E = meet(C, 40.1, B, 55.8, 1);
    const F = meet(D, 36.7, E, 39.4, 1);
    return meet(D, 49, F, 65.7, 1);
  };
  const all = Array.from({ length: 7200 }, (_, k) => foot((k * PI) / 3600));
  const extent = (axis: 0 | 1) => {
    const values = all.map((place) => place[axis]);
    return Math.max(...values) - Math.min(...values);
  };
  return [...foot(2), extent(0), extent(1)];
}

/** Moments about swingarm pivot and rocker pivot; the pose in bump by circles. */
function rearRocker(): number[] {
  const [rocker, mount]: Place[] = [
    [60, 130],
    [-170, 290],
  ];
  const drawn = { axle: [560, -60], foot: [180, -50], eye: [150, 150], shock: [110, 195] } as const;
  // Of a vertical wheel travel: rod per wheel about the swingarm's pivot, shock per rod about the rocker's.
  const ratio = ({ axle, foot, eye, shock }: Record<keyof typeof drawn, Place>) =>
    (arm([foot, eye], [0, 0]) / axle[0]) * (arm([shock, mount], rocker) / arm([foot, eye], rocker));
  const axle: Place = [sqrt(hypot(560, 60) ** 2 - 60 ** 2), 60];
  const foot = carried([[0, 0], drawn.axle, drawn.foot], [[0, 0], axle]);
  const rod = distance(drawn.foot, drawn.eye);
  const eye = meet(foot, rod, rocker, distance(rocker, drawn.eye), -1);
  const shock = carried([rocker, drawn.eye, drawn.shock], [rocker, eye]);
  return [ratio(drawn), ratio({ axle, foot, eye, shock }), distance(shock, mount), 1000 / ratio(drawn)];
}

/** Moments about wrist, guide's pivot, elbow and foot, all cylinders pulled; the pose by circles, from the foot outwards. */
function backhoe(): number[] {
  const [foot, boomBase]: Place[] = [
    [0, 0],
    [-60, 420],
  ];
  const drawn = {
    ...{ boomEye: [820, 1500], stickBase: [760, 1640], elbow: [1500, 2150], stickEye: [1320, 2420] },
    ...{ bucketBase: [1610, 2330], guidePivot: [2180, 1010], wrist: [2280, 800], K: [2390, 1120] },
    ...{ bucketEye: [2530, 900], tip: [2650, 150] },
  } satisfies Record<string, Place>;
  const load = 5000;
  const { tip, K, bucketEye, guidePivot, wrist, elbow } = drawn;
  const link = (load * (tip[0] - wrist[0])) / arm([K, bucketEye], wrist);
  const bucket = (link * arm([K, bucketEye], guidePivot)) / arm([drawn.bucketBase, K], guidePivot);
  const stick = (load * (tip[0] - elbow[0])) / arm([drawn.stickBase, drawn.stickEye], elbow);
  const boom = (load * tip[0]) / arm([boomBase, drawn.boomEye], foot);

  const boomEye = meet(boomBase, 1600, foot, distance(foot, drawn.boomEye), 1);
  const [stickBase, atElbow] = [drawn.stickBase, elbow].map((point) =>
    carried([foot, drawn.boomEye, point], [foot, boomEye]),
  );
  const stickEye = meet(stickBase, 1050, atElbow, distance(elbow, drawn.stickEye), 1);
  const [bucketBase, pivot, atWrist] = [drawn.bucketBase, guidePivot, wrist].map((point) =>
    carried([elbow, drawn.stickEye, point], [atElbow, stickEye]),
  );
  const pin = meet(bucketBase, 1500, pivot, distance(guidePivot, K), 1);
  const eye = meet(pin, distance(K, bucketEye), atWrist, distance(wrist, bucketEye), 1);
  return [-boom, -stick, -bucket, ...carried([wrist, bucketEye, tip], [atWrist, eye])];
}

/** Circle by circle, and the output's angle at 7200 places of the crank. */
function stephenson(): number[] {
  const [D, E]: Place[] = [
    [60, 0],
    [186, 171],
  ];
  const pin = (turn: number): Place => {
    const B: Place = [20 * cos(PI + turn), 20 * sin(PI + turn)];
    const C = meet(B, 80, D, 80, 1);
    const way = Math.atan2(B[1] - C[1], B[0] - C[0]) + (140 * PI) / 180;
    return meet([C[0] + 80 * cos(way), C[1] + 80 * sin(way)], 100.8, E, 60, 1);
  };
  const swing = (half: number) => {
    const angles = Array.from({ length: 7201 }, (_, k) => {
      const [x, y] = pin(half * (k / 3600 - 1));
      return (Math.atan2(y - E[1], x - E[0]) * 180) / PI;
    });
    return Math.max(...angles) - Math.min(...angles);
  };
  return [swing(PI), swing(PI / 3), ...pin(PI / 2)];
}

/** The place in an interval at whose ends f has different signs. */
function bisect(f: (y: number) => number, low: number, high: number): number {
  const sign = Math.sign(f(low));
  let [a, b] = [low, high];
  for (let n = 0; n < 100; n++) {
    const middle = (a + b) / 2;
    if (Math.sign(f(middle)) === sign) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** P = 2 k y (L0/L - 1), and its greatest value in closed form; the roots of P by halving. */
function vonMisesTruss(): number[] {
  const [b, k] = [400, 100];
  const held = (free: number) => (y: number) => 2 * k * y * (free / hypot(b, y) - 1);
  const free = hypot(b, 250);
  const P = 2 * k * free * (1 - Math.cbrt(b / free) ** 2) ** 1.5;
  const top = b * sqrt(Math.cbrt(free / b) ** 2 - 1);
  const at = (load: number, low: number, high: number) => bisect((y) => held(free)(y) - load, low, high);
  const steep = hypot(b, 1200);
  const aside = bisect((y) => hypot(b, y) ** 3 - steep * y * y, sqrt(2) * b, 1200);
  return [
    P,
    top,
    at(P, -1000, -1e-6),
    at(P / 2, top, 250),
    at(P / 2, 1e-6, top),
    at(P / 2, -1000, -1e-6),
    held(steep)(aside),
  ];
}

const FIGURES: Readonly<Record<string, readonly number[]>> = {
  watt: watt(),
  // Virtual work.
  'scissor-lift': [
    3 * sqrt(1000 ** 2 - 800 ** 2),
    -3000 / tan(0.5),
    (3000 * hypot(cos(0.5), 3 * sin(0.5))) / (4 * sin(0.5)),
  ],
  excavator: excavator(),
  'toggle-press': [
    1 / (2 * tan(0.3)),
    sqrt(300 ** 2 - 10 ** 2) / 20,
    -2 * sqrt(300 ** 2 - 200 ** 2),
    2 * 100_000 * tan(0.3),
  ],
  // Willis' equation, from memory.
  planetary: [30 / 102, -30 / 72, 72 / 102, (10 * 72) / 30],
  'walking-leg': walkingLeg(),
  pantograph: [150, 150, 3],
  'rear-rocker': rearRocker(),
  tackle: [40, 200, -400],
  'von-mises-truss': vonMisesTruss(),
  backhoe: backhoe(),
  stephenson: stephenson(),
  // Willis' equation, from memory: 1 - 100 / z for each turn of the arm.
  ferguson: [101, 100, 99].map((z) => 101 * (1 - 100 / z)),
};

it('prints what closed forms give, and draws the pictures that are kept: node docs/examples/linkages/watt.mjs, and so on', async () => {
  const drawn = new Map<string, string>();
  const lines: string[] = [];
  vi.doMock('node:fs', async (original) => ({
    ...(await original<typeof import('node:fs')>()),
    writeFileSync: ({ pathname }: URL, svg: string) => void drawn.set(basename(pathname), svg),
  }));
  vi.spyOn(console, 'log').mockImplementation((...words) => void lines.push(words.join(' ')));
  onTestFinished(() => {
    vi.doUnmock('node:fs');
    vi.restoreAllMocks();
  });
  for (const [name, figures] of Object.entries(FIGURES)) {
    lines.length = 0;
    await import(`../../docs/examples/linkages/${name}.mjs`);
    const printed = lines.map((text) => text.slice(text.lastIndexOf(' ') + 1));
    expect(printed, name).toHaveLength(figures.length);
    printed.forEach((text, k) => {
      const decimals = text.split('.')[1]?.length ?? 0;
      // A unit of the last digit printed.
      expectWithin(Number(text), figures[k], 10 ** -decimals);
    });
  }
  const kept = readdirSync('docs/pictures/linkages');
  expect([...drawn.keys()].sort()).toEqual(kept.sort());
  for (const name of kept) {
    expect(drawn.get(name), name).toBe(readFileSync(`docs/pictures/linkages/${name}`, 'utf8'));
  }
});

// Forces of a linkage from its free bodies, by dense elimination. Unknown are the force on each moving body at each of its points, a
// normal force for each slider and telescope, a moment for each fixed angle, a force for each fixed coordinate, what each ratio does to
// its first measure, a tension for each rope, and the force of the driver. Two forces and a moment vanish on every moving body, two forces on every moving pin.

type Pair = readonly [number, number];
type Names = readonly string[];
type Direction = string | readonly [string, string];

interface Drawn {
  readonly points: Readonly<Record<string, readonly number[]>>;
  readonly ground: Names;
  readonly bodies: Readonly<Record<string, Names>>;
  readonly fixedCoordinates?: readonly ({ readonly x: string } | { readonly y: string })[];
  readonly sliders?: Readonly<
    Record<string, { readonly point: string; readonly on: readonly [string, string] }>
  >;
  readonly fixedAngles?: Readonly<Record<string, readonly Direction[]>>;
  readonly telescopes?: Readonly<Record<string, readonly [string, string]>>;
  readonly ratios?: Readonly<
    Record<string, { readonly of: readonly [Coupled, Coupled]; readonly ratio: number }>
  >;
  readonly ropes?: Readonly<
    Record<
      string,
      readonly (
        | string
        | { readonly about: string; readonly radius: number; readonly side: 'left' | 'right' }
      )[]
    >
  >;
}

type Coupled =
  | { readonly turn: string; readonly relativeTo?: string }
  | { readonly travel: string; readonly along: readonly [string, string] }
  | { readonly x: string }
  | { readonly y: string }
  | { readonly length: readonly [string, string] };

type Acting =
  | { readonly at: string; readonly force: Pair; readonly on?: string }
  | { readonly on: string; readonly moment: number }
  | { readonly between: readonly [string, string]; readonly push: number; readonly offset?: number };

type Framed = { readonly relativeTo?: string };
type Driving =
  | ({ readonly x: string } & Framed)
  | ({ readonly y: string } & Framed)
  | { readonly length: readonly [string, string]; readonly offset?: number }
  | ({ readonly angle: readonly [string, string] } & Framed)
  | ({ readonly turn: string } & Framed);

/** Where a unit of something acts: a force on a pin or on a body at a point, or a moment on a body. */
type Act =
  | { readonly pin: string; readonly force: Pair }
  | { readonly body: string; readonly point: string; readonly force: Pair }
  | { readonly body: string; readonly moment: number };

/** Forces as `forces` of jounce/statics gives them; null where they are not determined. */
export function freeBodies(
  drawing: Drawn,
  loads: readonly Acting[],
  driver?: Driving,
  drivers: readonly Driving[] = [],
  hold: readonly Driving[] = [],
) {
  const { points, bodies, fixedCoordinates = [], sliders = {}, fixedAngles = {}, telescopes = {} } = drawing;
  const { ratios = {}, ropes = {} } = drawing;
  const at = (name: string) => points[name] as Pair;
  const fixed = fixedPoints(drawing);
  const moving = Object.entries(bodies).filter(([, names]) => !names.every((name) => fixed.has(name)));
  // A telescope hangs on its first point; its second presses on it square to its line.
  const members: [string, Names][] = [
    ...moving,
    ...Object.entries(telescopes).map(([name, [a]]): [string, Names] => [name, [a]]),
  ];
  const isMember = (name: string) => members.some(([one]) => one === name);
  const size = Math.max(...Object.keys(points).map((name) => span(at(name), at(Object.keys(points)[0]))));

  const across = ([a, b]: readonly [string, string]): Pair => {
    const length = span(at(a), at(b));
    return [-(at(b)[1] - at(a)[1]) / length, (at(b)[0] - at(a)[0]) / length];
  };
  /** A point presses on a line of a body, or of the ground. */
  const press = (point: string, line: readonly [string, string], body: string | undefined): Act[] => {
    const [x, y] = across(line);
    const own: Act = { pin: point, force: [x, y] };
    return body === undefined ? [own] : [own, { body, point, force: [-x, -y] }];
  };
  const pair = ([a, b]: readonly [string, string], [x, y]: Pair): Act[] => [
    { pin: b, force: [x, y] },
    { pin: a, force: [-x, -y] },
  ];
  const turn = (direction: Direction, moment: number): Act[] => {
    if (typeof direction === 'string') return isMember(direction) ? [{ body: direction, moment }] : [];
    const [x, y] = across(direction);
    const arm = span(at(direction[0]), at(direction[1]));
    return pair(direction, [(x * moment) / arm, (y * moment) / arm]);
  };
  const along = ([a, b]: readonly [string, string], push: number, offset = 0): Act[] => {
    const [x, y] = [at(b)[0] - at(a)[0], at(b)[1] - at(a)[1]];
    const length = Math.sqrt(x * x + y * y + offset * offset);
    return pair([a, b], [(push * x) / length, (push * y) / length]);
  };
  const holder = (line: Names) => moving.find(([, names]) => line.every((name) => names.includes(name)))?.[0];
  const drives = (measure: Driving): Act[] => {
    if ('length' in measure) {
      // Inside a telescope between the two it acts on the telescope, which hangs on its first point.
      const inside = Object.entries(telescopes).find(([, names]) =>
        names.every((name) => measure.length.includes(name)),
      );
      return along(measure.length, 1, measure.offset).map((one) => {
        const isInside = inside !== undefined && 'pin' in one && one.pin === inside[1][0];
        return isInside ? { body: inside[0], point: one.pin, force: one.force } : one;
      });
    }
    const frame = measure.relativeTo;
    if ('x' in measure || 'y' in measure) {
      const [point, x, y] = 'x' in measure ? [measure.x, 1, 0] : [measure.y, 0, 1];
      const own: Act = { pin: point, force: [x, y] };
      return frame === undefined || !isMember(frame) ? [own] : [own, { body: frame, point, force: [-x, -y] }];
    }
    return [
      ...turn('turn' in measure ? measure.turn : measure.angle, 1),
      ...(frame === undefined ? [] : turn(frame, -1)),
    ];
  };
  const scaled = (acts: readonly Act[], by: number): Act[] =>
    acts.map((act) =>
      'moment' in act
        ? { ...act, moment: by * act.moment }
        : { ...act, force: [by * act.force[0], by * act.force[1]] },
    );
  const grows = (measure: Coupled, by: number): Act[] => {
    if ('turn' in measure) {
      const { turn: body, relativeTo } = measure;
      return [...turn(body, by), ...(relativeTo === undefined ? [] : turn(relativeTo, -by))];
    }
    if (!('travel' in measure)) return scaled(drives(measure), by);
    const [a, b] = measure.along;
    const arm = span(at(a), at(b)) / by;
    const force: Pair = [(at(b)[0] - at(a)[0]) / arm, (at(b)[1] - at(a)[1]) / arm];
    const own: Act = { pin: measure.travel, force };
    const body = holder(measure.along);
    return body === undefined ? [own] : [own, { body, point: measure.travel, force: [-force[0], -force[1]] }];
  };
  /** The pull of a rope under unit tension: on both pulleys along the line that touches both. */
  const pulls = (rope: NonNullable<Drawn['ropes']>[string]): Act[] => {
    const centre = (k: number) => {
      const stop = rope[k];
      return typeof stop === 'string' ? stop : stop.about;
    };
    const radius = (k: number) => {
      const stop = rope[k];
      return typeof stop === 'string' ? 0 : stop.side === 'left' ? stop.radius : -stop.radius;
    };
    return rope.slice(1).flatMap((_, k) => {
      const [a, b] = [centre(k), centre(k + 1)];
      const way = Math.atan2(at(b)[1] - at(a)[1], at(b)[0] - at(a)[0]);
      const lean = Math.asin((radius(k + 1) - radius(k)) / span(at(a), at(b)));
      return pair([a, b], [-Math.cos(way - lean), -Math.sin(way - lean)]);
    });
  };
  const reactions = members.flatMap(([body, names]) =>
    names.flatMap((point) =>
      (
        [
          [1, 0],
          [0, 1],
        ] as const
      ).map(([x, y]): Act[] => [
        { body, point, force: [x, y] },
        { pin: point, force: [-x, -y] },
      ]),
    ),
  );
  const ofSliders = Object.values(sliders).map(({ point, on }) => press(point, on, holder(on)));
  const ofAngles = Object.values(fixedAngles).map(([first, second]) =>
    second === undefined ? turn(first, 1) : [...turn(first, 1), ...turn(second, -1)],
  );
  const ofCoordinates = fixedCoordinates.map(drives);
  const ofTelescopes = Object.entries(telescopes).map(([name, [a, b]]) => press(b, [a, b], name));
  const ofRatios = Object.values(ratios).map(({ of: [first, second], ratio }) => [
    ...grows(first, 1),
    ...grows(second, -ratio),
  ]);
  const ofRopes = Object.values(ropes).map(pulls);
  const driving = [...(driver === undefined ? [] : [driver]), ...drivers, ...hold].map(drives);
  const kept = [ofSliders, ofAngles, ofCoordinates, ofTelescopes, ofRatios, ofRopes];
  const joints = [...kept.flat(), ...driving];
  const applied = loads.flatMap((load): Act[] => {
    if ('between' in load) return along(load.between, load.push, load.offset);
    if ('moment' in load) return [{ body: load.on, moment: load.moment }];
    const { at: point, force, on } = load;
    return [on === undefined ? { pin: point, force } : { body: on, point, force }];
  });

  const rowOfBody = new Map(members.map(([name], k) => [name, 3 * k]));
  const pins = Object.keys(points).filter((name) => !fixed.has(name));
  const rowOfPin = new Map(pins.map((name, k) => [name, 3 * members.length + 2 * k]));
  const column = (acts: readonly Act[]): number[] => {
    const values = new Array<number>(3 * members.length + 2 * pins.length).fill(0);
    for (const act of acts) {
      const row = 'pin' in act ? rowOfPin.get(act.pin) : rowOfBody.get(act.body);
      if (row === undefined) continue;
      if ('moment' in act) values[row + 2] += act.moment / size;
      else {
        const [x, y] = act.force;
        values[row] += x;
        values[row + 1] += y;
        if ('pin' in act) continue;
        const [px, py] = at(act.point);
        const [ox, oy] = at(bodies[act.body]?.[0] ?? telescopes[act.body][0]);
        values[row + 2] += ((px - ox) * y - (py - oy) * x) / size;
      }
    }
    return values;
  };
  const { x, open, residual } = solved([...reactions, ...joints].map(column), column(applied));

  /** A force as a sum over unknowns, null where one that is open adds to it. */
  const total = (
    terms: readonly (readonly [unknown: number, x: number, y: number])[],
    [lx, ly]: Pair,
  ): Pair | null => {
    const sum = (of: readonly number[], [sx, sy]: Pair): Pair => [
      terms.reduce((all, [k, tx]) => all + tx * of[k], sx),
      terms.reduce((all, [k, , ty]) => all + ty * of[k], sy),
    ];
    return open.some((vector) => Math.hypot(...sum(vector, [0, 0])) > 1e-7) ? null : sum(x, [lx, ly]);
  };
  let next = 0;
  const reactionAt = new Map<string, number>();
  for (const [body, names] of members)
    for (const name of names) reactionAt.set(`${body} ${name}`, 2 * next++);
  const first = reactions.length;
  const single = (k: number) =>
    open.some((vector) => Math.abs(vector[first + k]) > 1e-7) ? null : x[first + k];
  const row = (from: number, count: number) => Array.from({ length: count }, (_, k) => single(from + k));
  const named = (of: object, from: number) =>
    Object.fromEntries(Object.keys(of).map((name, k) => [name, single(from + k)]));
  const [, angles, coordinates, , ratio, rope] = kept.map((_, k) => kept.slice(0, k).flat().length);
  const onPin = (acts: readonly Act[], name: string) =>
    acts.flatMap((act) => ('pin' in act && act.pin === name ? [act.force] : []));
  const onGround = [...fixed].flatMap((name): [string, Pair | null][] => {
    const terms = members.flatMap(([body, names]) => {
      const k = reactionAt.get(`${body} ${name}`) as number;
      return names.includes(name) ? [[k, -1, 0] as const, [k + 1, 0, -1] as const] : [];
    });
    const held = joints.flatMap((acts, k) =>
      onPin(acts, name).map(([fx, fy]) => [first + k, fx, fy] as const),
    );
    const given = onPin(applied, name);
    const load = given.reduce<Pair>(([sx, sy], [fx, fy]) => [sx + fx, sy + fy], [0, 0]);
    const isIdle = terms.length + held.length + given.length === 0;
    return isIdle ? [] : [[name, total([...terms, ...held], load)]];
  });
  return {
    on: Object.fromEntries(
      members.map(([body, names]) => [
        body,
        Object.fromEntries(
          names.map((name) => {
            const k = reactionAt.get(`${body} ${name}`) as number;
            return [
              name,
              total(
                [
                  [k, 1, 0],
                  [k + 1, 0, 1],
                ],
                [0, 0],
              ),
            ];
          }),
        ),
      ]),
    ),
    ground: Object.fromEntries(onGround),
    sliders: named(sliders, 0),
    fixedAngles: named(fixedAngles, angles),
    fixedCoordinates: row(coordinates, ofCoordinates.length),
    ratios: named(ratios, ratio),
    ropes: named(ropes, rope),
    driver: driver === undefined ? null : single(joints.length - driving.length),
    drivers: row(joints.length - hold.length - drivers.length, drivers.length),
    hold: row(joints.length - hold.length, hold.length),
    residual,
  };
}

function span(a: Pair, b: Pair): number {
  return Math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2);
}

/** Ground points, and all points of bodies that have two of them in two places, and so on. */
function fixedPoints({ points, ground, bodies }: Drawn): Set<string> {
  const fixed = new Set(ground);
  for (let before = -1; before !== fixed.size; ) {
    before = fixed.size;
    for (const names of Object.values(bodies)) {
      const held = names.filter((name) => fixed.has(name));
      if (!held.some((name) => span(points[name] as Pair, points[held[0]] as Pair) > 0)) continue;
      for (const name of names) fixed.add(name);
    }
  }
  return fixed;
}

/** A pivot below this share of the largest entry is rounding. */
const ROUNDING = 1e-10;

/** A solution of sum_k x_k column_k + load = 0 by elimination with complete pivoting, what is open, and what is left over. */
function solved(columns: readonly (readonly number[])[], load: readonly number[]) {
  const count = columns.length;
  const rows = load.map((given, i) => [...columns.map((column) => column[i]), -given]);
  const pivots: number[] = [];
  const most = Math.max(...columns.flat().map(Math.abs));
  for (let step = 0; step < Math.min(count, rows.length); step++) {
    let [r, c] = [step, -1];
    let best = ROUNDING * most;
    for (let i = step; i < rows.length; i++) {
      for (let k = 0; k < count; k++) {
        if (Math.abs(rows[i][k]) > best && !pivots.includes(k)) [r, c, best] = [i, k, Math.abs(rows[i][k])];
      }
    }
    if (c < 0) break;
    [rows[step], rows[r]] = [rows[r], rows[step]];
    pivots.push(c);
    const pivot = rows[step];
    rows.forEach((row, i) => {
      const share = row[c] / pivot[c];
      if (i === step || share === 0) return;
      for (let k = 0; k <= count; k++) row[k] -= share * pivot[k];
    });
  }
  const x = new Array<number>(count).fill(0);
  pivots.forEach((c, i) => {
    x[c] = rows[i][count] / rows[i][c];
  });
  const open = [...x.keys()]
    .filter((k) => !pivots.includes(k))
    .map((free) => {
      const vector = new Array<number>(count).fill(0);
      vector[free] = 1;
      pivots.forEach((c, i) => {
        vector[c] = -rows[i][free] / rows[i][c];
      });
      return vector;
    });
  const residual = Math.max(0, ...rows.slice(pivots.length).map((row) => Math.abs(row[count])));
  return { x, open, residual };
}

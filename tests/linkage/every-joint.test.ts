/** What must hold for joints of every kind: a kind that is half described fails here, or does not compile. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Drawing, InputError, type Measure, mobility, trace } from 'jounce/linkage';
import { forces, type Load, type StaticsOptions } from 'jounce/statics';
import { checkLaws, LawViolation, laws } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import type { CornerModel } from '../../src/corner/model.ts';
import { jointForce } from '../../src/design/joint-force.ts';
import { JOINT_KINDS, type JointKind, jointsIn } from '../../src/linkage/joints.ts';
import { compile } from '../../src/linkage/system.ts';
import { slides } from '../../src/report/poses.ts';
import { freeBodies } from '../judges/free-bodies.ts';
import { deepFreeze } from '../support/freeze.ts';
import { moved, standing } from '../support/standing.ts';
import { expectWithin } from '../support/tolerance.ts';

interface Example {
  /** Of one degree of freedom, with one joint of the kind, and of no other. */
  readonly drawing: Drawing;
  readonly driver: NonNullable<StaticsOptions['driver']>;
  readonly range: readonly [number, number];
  /** The joint in messages. */
  readonly label: string;
  /** What the joint says of the motion, in closed form, at a value of the driver. */
  closedForm(turn: number): readonly (readonly [Measure, number])[];
  /** Lines that a picture shows, by their ends: those that something slides along. */
  readonly slides: readonly (readonly [string, string])[];
}

/** The end of the crank, mm: 50 from its pivot, drawn at (30, 40). */
const crankEnd = (turn: number) =>
  [50 * Math.cos(Math.atan2(40, 30) + turn), 50 * Math.sin(Math.atan2(40, 30) + turn)] as const;
/** Square of the rod's length, from (30, 40) to (140, 10). */
const ROD = 110 ** 2 + 30 ** 2;

/** One linkage for each kind, so that it does not move as it should without its joint. */
const EXAMPLES: { readonly [K in JointKind]: Example } = deepFreeze({
  fixedCoordinates: {
    drawing: {
      points: { O: [0, 0], A: [30, 40], P: [140, 10] },
      ground: ['O'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
      fixedCoordinates: [{ y: 'P' }],
    },
    driver: { turn: 'crank' },
    range: [-0.4, 0.4],
    label: 'fixed y of P',
    // x_P = x_A + sqrt(l² - (y_P - y_A)²), the textbook's slider-crank with an offset.
    closedForm(turn) {
      const [x, y] = crankEnd(turn);
      return [
        [{ y: 'P' }, 10],
        [{ x: 'P' }, x + Math.sqrt(ROD - (10 - y) ** 2)],
      ];
    },
    slides: [],
  },
  sliders: {
    drawing: {
      points: { O: [0, 0], A: [30, 40], P: [140, 10], near: [100, 0], far: [300, 20] },
      ground: ['O', 'near', 'far'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
      sliders: { piston: { point: 'P', on: ['near', 'far'] } },
    },
    driver: { turn: 'crank' },
    range: [-0.4, 0.4],
    label: 'slider piston',
    // P = P0 + s u, u along the line: s = -u·d + sqrt((u·d)² - d·d + l²), d = P0 - A.
    closedForm(turn) {
      const [x, y] = crankEnd(turn);
      const [u, v] = [200 / Math.hypot(200, 20), 20 / Math.hypot(200, 20)];
      const [dx, dy] = [140 - x, 10 - y];
      const along = u * dx + v * dy;
      const s = -along + Math.sqrt(along ** 2 - dx ** 2 - dy ** 2 + ROD);
      return [
        [{ x: 'P' }, 140 + s * u],
        [{ y: 'P' }, 10 + s * v],
      ];
    },
    slides: [['near', 'far']],
  },
  fixedAngles: {
    drawing: {
      points: { O: [0, 0], A: [30, 40], B: [140, 10] },
      ground: ['O'],
      bodies: { crank: ['O', 'A'], table: ['A', 'B'] },
      fixedAngles: { level: ['table'] },
    },
    driver: { turn: 'crank' },
    range: [-0.4, 0.4],
    label: 'fixed angle level',
    closedForm(turn) {
      const [x, y] = crankEnd(turn);
      return [
        [{ turn: 'table' }, 0],
        [{ x: 'B' }, x + 110],
        [{ y: 'B' }, y - 30],
      ];
    },
    slides: [],
  },
  telescopes: {
    drawing: {
      points: { O: [0, 0], A: [30, 40], R: [140, 10] },
      ground: ['O', 'R'],
      bodies: { crank: ['O', 'A'] },
      telescopes: { ram: ['R', 'A'] },
    },
    driver: { turn: 'crank' },
    range: [-0.4, 0.4],
    label: 'telescope ram',
    // Its direction is that of the way between its ends.
    closedForm(turn) {
      const [x, y] = crankEnd(turn);
      return [[{ turn: 'ram' }, Math.atan2(10 - y, 140 - x) - Math.atan2(-30, 110)]];
    },
    slides: [['R', 'A']],
  },
  ratios: {
    drawing: {
      points: { O: [0, 0], A: [30, 40], B: [140, 10], C: [120, -20] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'], wheel: ['C', 'B'] },
      ratios: { mesh: { of: [{ turn: 'wheel' }, { turn: 'crank' }], ratio: -0.4 } },
    },
    driver: { turn: 'crank' },
    range: [-0.4, 0.4],
    label: 'ratio mesh',
    closedForm: (turn) => [[{ turn: 'wheel' }, -0.4 * turn]],
    slides: [],
  },
  ropes: {
    drawing: {
      points: { O: [0, 0], A: [30, 40], B: [140, 10], C: [120, -40], far: [90, 120] },
      ground: ['O', 'C', 'far'],
      bodies: { crank: ['O', 'A'], arm: ['C', 'B'] },
      ropes: { stay: ['A', 'far', 'B'] },
    },
    driver: { turn: 'crank' },
    range: [-0.4, 0.4],
    label: 'rope stay',
    closedForm(turn) {
      const [x, y] = crankEnd(turn);
      const whole = Math.hypot(60, 80) + Math.hypot(50, 110);
      return [[{ length: ['far', 'B'] }, whole - Math.hypot(90 - x, 120 - y)]];
    },
    slides: [
      ['A', 'far'],
      ['far', 'B'],
    ],
  },
});

/** Of a central difference, mm. */
const STEP = 0.01;

const without = (drawing: Drawing, kind: JointKind): Drawing => {
  const { [kind]: _, ...rest } = drawing;
  return rest;
};

/** A joint with another name in the place of each of its own in turn. */
function renamed(value: unknown, name: unknown): unknown[] {
  if (typeof value === 'string') return [name];
  return Object.entries(value as object).flatMap(([key, inner]) =>
    renamed(inner, name).map((one) =>
      Array.isArray(value)
        ? value.map((old, k) => (String(k) === key ? one : old))
        : { ...(value as object), [key]: one },
    ),
  );
}

const asDrawn = (data: Drawing) => data;

const refused = (drawing: unknown) => {
  try {
    compile(drawing as Drawing);
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
};

describe.each(JOINT_KINDS)('a joint among %s', (kind) => {
  const { drawing, driver, range, label, closedForm, slides: shown } = EXAMPLES[kind];
  const all = drawing[kind] as object;
  const [one] = Object.values(all);
  const put = (changed: unknown) => ({
    ...drawing,
    [kind]: Array.isArray(all) ? [changed] : { [Object.keys(all)[0]]: changed },
  });
  const others = without(drawing, kind);
  /** A direction of its own comes with it and is held by it. */
  const hasDirection = jointsIn(drawing)[0].direction !== undefined;

  it('is the only one of its drawing, by its name', () => {
    expect(jointsIn(drawing).map(({ at, label }) => [at.kind, label])).toEqual([[kind, label]]);
  });

  it('is in the guide', () => {
    const guide = readFileSync(join(import.meta.dirname, '../../docs/joints.md'), 'utf8');
    expect(guide).toContain(`\`${kind}: `);
  });

  it('is refused where it has another shape, or is a list in place of names, with what it should be', () => {
    for (const faulty of [
      put(7),
      put({}),
      put([]),
      ...renamed(one, 7).map(put),
      { ...drawing, [kind]: 7 },
      { ...drawing, [kind]: Array.isArray(all) ? {} : [] },
    ]) {
      const [issue, ...more] = refused(faulty);
      expect(more).toEqual([]);
      expect(issue.path.startsWith(kind)).toBe(true);
      expect(issue.allowed).toMatch(/^[[{'].*[\]}']/);
    }
  });

  it('is refused for every name that the drawing has not, at its place', () => {
    const faulty = renamed(one, 'nowhere');
    expect(faulty.length).toBeGreaterThan(0);
    for (const changed of faulty) {
      const issues = refused(put(changed));
      expect(issues.map(({ code }) => code)).toContain('unknownName');
      expect(
        issues[0].path.startsWith(`${kind}${Array.isArray(all) ? '[0]' : `.${Object.keys(all)[0]}`}`),
      ).toBe(true);
    }
  });

  it('holds its points: none of them is on nothing', () => {
    const named = JSON.stringify(one).match(/(?<=")[A-Z]\w*(?=")|near|far/g) ?? [];
    const [joint] = jointsIn(drawing);
    expect([...joint.points].sort()).toEqual(named.filter((name) => name in drawing.points).sort());
  });

  it('takes a degree of freedom for each of its rows, by count and by rank', () => {
    const [held, free] = [mobility(drawing), mobility(others)];
    const { rows } = compile(drawing).structure;
    const own = rows.filter(({ of, defines }) => of.body === undefined && defines === undefined);
    expect(own.map(({ of }) => of.constraint)).toEqual([label]);
    expect([held.kutzbach, held.degreesOfFreedom, held.redundant]).toEqual([1, 1, 0]);
    const freed = hasDirection ? 1 : 2;
    expect([free.kutzbach, free.degreesOfFreedom]).toEqual([freed, freed]);
  });

  it('keeps the laws', () => {
    checkLaws(asDrawn, drawing, { driver, range });
  });

  it('is missed by the laws in a drawing that should be the same, and in a motion', () => {
    const moved = (data: Drawing) => (data === drawing ? drawing : without(data, kind));
    const redrawn = () =>
      laws.mirror(moved, drawing, {
        driver,
        range,
        redraw: (data, { place }) => ({
          ...data,
          points: Object.fromEntries(
            Object.entries(data.points).map(([name, [x, y]]) => [name, place([x, y])]),
          ),
        }),
      });
    expect(redrawn).toThrow(LawViolation);
    expect(redrawn).toThrow(`lacks ${label}`);
    // A direction of its own is free without it.
    if (hasDirection) return;
    const hold: Measure[] = [{ length: ['O', Object.keys(drawing.points)[2]] }];
    const loose = () =>
      laws.keepsLengths(asDrawn, drawing, {
        driver,
        range,
        trace: (data, options) => trace(without(data, kind), { ...options, hold }),
      });
    expect(loose).toThrow(LawViolation);
    expect(loose).toThrow(label);
  });

  it('moves as its closed form says', () => {
    const motion = trace(drawing, { driver, from: range[0], to: range[1] });
    for (const share of [-0.9, -0.3, 0, 0.5, 0.9]) {
      const turn = share * range[1];
      for (const [measure, value] of closedForm(turn)) {
        expectWithin(motion.read(measure)(motion.drawn + turn).value, value, 1e-9);
      }
    }
  });

  it('is drawn by the lines that something slides along', () => {
    const model = { drawing, shock: { outer: '', inner: '' } } as unknown as CornerModel;
    expect(slides(model).map(({ ends }) => ends)).toEqual(shown);
  });

  it('has the exact derivatives of its force in a design', () => {
    const body = Object.keys(drawing.bodies)[1] ?? 'crank';
    const whole: Drawing = {
      ...drawing,
      points: { ...drawing.points, eye: [-60, 120] },
      ground: [...drawing.ground, 'eye'],
    };
    const shock = { outer: 'A', inner: 'eye', foreAftOffset: 15 };
    const carries = { upright: body, wheel: drawing.bodies[body][1], shock };
    const at = (one: Drawing) => jointForce({ joint: 'A', tyre: [70, -200] }, standing(one, carries));
    const { by: rates } = at(whole) ?? expect.fail('no force');
    rates.forEach((rate, k) => {
      const [less, more] = [-STEP, STEP].map((by) => at(moved(whole, k, by))?.value ?? Number.NaN);
      expectWithin(rate, (more - less) / (2 * STEP), 1e-5);
    });
  });

  it('does no work: what holds the linkage is as virtual work has it', () => {
    const loads: Load[] = Object.keys(drawing.points)
      .filter((name) => !drawing.ground.includes(name))
      .map((at, k) => ({ at, force: [70 - 30 * k, -200 + 90 * k] }));
    const motion = trace(drawing, { driver, from: -0.01, to: 0.01 });
    const rate = (of: Measure) => motion.read(of)(motion.drawn).first as number;
    const work = loads.reduce(
      (sum, load) =>
        'force' in load
          ? sum +
            load.force[0] * rate({ x: load.at as string }) +
            load.force[1] * rate({ y: load.at as string })
          : sum,
      0,
    );
    const found = forces(drawing, loads, { driver });
    expectWithin(found.driver, -work, 1e-9 * 1e4);
    expectWithin(found.residual, 0, 1e-9 * 1e3);
  });

  it('carries what free bodies give, with their signs', () => {
    const loads: Load[] = Object.keys(drawing.points)
      .filter((name) => !drawing.ground.includes(name))
      .map((at, k) => ({ at, force: [70 - 30 * k, -200 + 90 * k] }));
    const [found, judged] = [forces(drawing, loads, { driver }), freeBodies(drawing, loads, driver)];
    const flat = (one: unknown): (number | null)[] =>
      typeof one === 'object' && one !== null ? Object.values(one).flatMap(flat) : [one as number | null];
    const { residual: _, diagnostics: ___, ...carried } = found;
    const { residual: __, ...expected } = judged;
    const values = flat(carried);
    expect(Object.keys(carried).sort()).toEqual(Object.keys(expected).sort());
    const other = flat(Object.fromEntries(Object.keys(carried).map((key) => [key, expected[key as 'on']])));
    expect(values.length).toBe(other.length);
    values.forEach((value, k) => {
      expectWithin(value, other[k] ?? Number.NaN, 1e-9 * 1e4);
    });
  });

  it('has a force of its own in the result, or one on the end that its direction hangs on', () => {
    const found = forces(drawing, [{ at: 'A', force: [70, -200] }], { driver });
    const [force, ...more] = Object.values(
      kind in found ? found[kind as 'sliders'] : found.on[Object.keys(all)[0]],
    );
    expect(more).toEqual([]);
    expect([force].flat().every(Number.isFinite)).toBe(true);
  });
});

it('has the type of each shape among the exports of jounce/linkage', () => {
  const read = (path: string) => readFileSync(join(import.meta.dirname, '../../src/linkage', path), 'utf8');
  const source = read('joints.ts');
  const [joints] = /interface Joints<[\s\S]*?\n}/.exec(source) ?? [''];
  const shapes = [...source.matchAll(/^export (?:interface|type) (\w+)/gm)]
    .map(([, name]) => name)
    .filter((name) => joints.includes(`${name}<`));
  expect(shapes).toEqual(expect.arrayContaining(['Slider', 'FixedCoordinate', 'Direction']));
  const exported = /\{ (.*) \} from '.\/joints.ts'/.exec(read('index.ts'))?.[1].split(', ');
  expect(exported).toEqual(expect.arrayContaining(shapes));
});

// A corner stands still at a travel: the ground pushes on the tyre, the unsprung weight hangs at the wheel's centre, and what
// the end eyes of the coilover must bear follows from equilibrium. Its shares are those of spring, gas and stop at that
// length; the rest is metal against metal where a damper is open or closed or a stop solid, and otherwise what would have to be
// added for the wheel to stand there. Links weigh nothing, pins have no friction.

import type { Corner } from '../../corner/corner.ts';
import { modelOf } from '../../corner/corner.ts';
import { CHASSIS, sidesOf } from '../../corner/limits/joints.ts';
import { type Limits, limitsOf } from '../../corner/limits/limits.ts';
import { type CheckedOptions, checkOptions, type LimitOptions } from '../../corner/limits/options.ts';
import { type CornerModel, pivotOf } from '../../corner/model.ts';
import { type Issue, show, throwIfAny } from '../../errors.ts';
import type { Drawing, Point } from '../../linkage/drawing.ts';
import { type Motion, trace } from '../../linkage/motion.ts';
import { type Forces, forces } from '../../linkage/statics.ts';
import { zeroBetween } from '../../numerics/zero.ts';
import { GRAVITY } from '../../units.ts';
import { spaced } from '../../words.ts';
import { type BallJointLoad, ballJointLoad } from './ball-joint.ts';
import { type Bending, bendingOf } from './bending.ts';
import { type CoiloverForce, type EyeForce, eyeForce, type StopTable } from './eye-force.ts';
import { type CaseFactors, type LoadCase, usualCases } from './load-cases.ts';

/** What a corner carries, and with what. */
export interface ForceOptions {
  /** Masses of this corner, kg: what the spring carries, and the rest of the wheel's load. */
  readonly sprungMass: number;
  readonly unsprungMass: number;
  /** N/mm of the spring itself; it carries the sprung mass at the drawn ride height. */
  readonly springRate: number;
  /** N that the damper's gas pushes with; default 0. */
  readonly gasForce?: number;
  /** How far the bump stop is pressed in (mm) and its force (N); without it what the stop bears is in the rest. */
  readonly stopTable?: StopTable;
  /** Damper, stop, ball joints and all else that ends the travel, as for `limits`. */
  readonly limits?: LimitOptions;
  readonly factors?: Partial<CaseFactors>;
  /** Cases of your own, after the usual ones. */
  readonly cases?: readonly LoadCase[];
}

/** Forces in one case, N and N mm; y outboard, z up. */
export interface CaseForces {
  readonly name: string;
  /** Travel, mm, bump +; and the length between the end eyes there. */
  readonly travel: number;
  readonly shockLength: number;
  readonly tyre: Point | null;
  /** What pushes the end eyes apart, its shares, and the rest: metal on metal, or a damper's. */
  readonly shock: EyeForce & { readonly total: number; readonly rest: number };
  /** Force on each body at each of its points, from what is joined to it. */
  readonly on: Forces['on'];
  /** Force on the chassis at each mount. */
  readonly chassis: Forces['ground'];
  /** Axial force in each arm and rod between its two joints, N: tension positive. */
  readonly axial: Readonly<Record<string, number>>;
  /** Bending of the arms that carry more than their two joints. */
  readonly bending: readonly Bending[];
  readonly ballJoints: Readonly<Record<string, BallJointLoad & { readonly articulation: number }>>;
  /** Lateral tyre force times the slope of the line from contact patch to instant centre: what lifts the car, N; null at a dead point. */
  readonly jacking: number | null;
  /** Part of the shock's force across this plane, from its fore-aft offset: not balanced here, N. */
  readonly outOfPlane: number;
}

/** Forces of a corner over its cases. */
export interface CornerForces {
  readonly cases: readonly CaseForces[];
  /** Of each ball joint the case that pulls its stud out hardest, or presses it in least. */
  readonly worst: Readonly<Record<string, { readonly case: string } & BallJointLoad>>;
  readonly sentences: readonly string[];
  /** What these figures are not. */
  readonly cautions: readonly string[];
}

const CAUTIONS = [
  'These are loads, not strengths: sections, welds, fasteners and joints are for a qualified engineer, and whether a car may go on the road is a matter of local codes.',
  'The corner is flat: braking, drive and caster act out of this plane and are not counted; links weigh nothing, pins have no friction.',
  'The factors of the cases are common practice without a source: set your own.',
];

/**
 * Forces in every joint and mount of a corner in the usual load cases (static, full bump, hanging, cornering, kerb strike)
 * and in your own.
 *
 * @throws InputError for options that can't be, with every issue.
 */
export function cornerForces(corner: Corner, options: ForceOptions): CornerForces {
  const model = modelOf(corner);
  throwIfAny('forces', faults(options));
  const { sprungMass, unsprungMass, factors, cases = [] } = options;
  const given = checkOptions(options.limits ?? {}, model);
  const setup = setUp(model, options, given);
  const all = [...usualCases(sprungMass, unsprungMass, factors), ...cases];
  const found = all.map((one) => caseForces(setup, one));
  const worst = Object.fromEntries(
    Object.keys(found[0]?.ballJoints ?? {}).map((name) => {
      const hardest = found.reduce((a, b) => (b.ballJoints[name].axial > a.ballJoints[name].axial ? b : a));
      return [name, { case: hardest.name, ...hardest.ballJoints[name] }];
    }),
  );
  return { cases: found, worst, sentences: sentencesOn(found, worst), cautions: CAUTIONS };
}

interface SetUp {
  readonly model: CornerModel;
  readonly given: CheckedOptions;
  readonly found: Limits;
  readonly motion: Motion;
  readonly coilover: CoiloverForce;
  readonly unsprungWeight: number;
}

function setUp(model: CornerModel, options: ForceOptions, given: CheckedOptions): SetUp {
  const { sprungMass, unsprungMass, springRate, gasForce = 0, stopTable } = options;
  const motion = trace(model.drawing, { driver: { y: model.contactPatch } });
  const { outer, inner, offset } = model.shock;
  const ride = motion.read({ length: [outer, inner], offset })(motion.drawn);
  const ratio = -(ride.first ?? 0);
  throwIfAny(
    'forces',
    ratio > 0
      ? []
      : [
          {
            path: 'corner',
            problem: 'a coilover that bump does not shorten at ride carries nothing',
            got: `an installation ratio of ${ratio}`,
            allowed: 'more than 0',
          },
        ],
  );
  const { damper, bumpStop } = given;
  const contact = damper && bumpStop ? damper.closed + bumpStop.height : null;
  const unsprungWeight = unsprungMass * GRAVITY;
  const tyre: Point = [0, sprungMass * GRAVITY + unsprungWeight];
  return {
    model,
    given,
    found: limitsOf(model, given),
    motion,
    coilover: {
      springRate,
      gasForce,
      stop: contact === null || stopTable === undefined ? null : { contact, table: stopTable },
      rideLength: ride.value,
      rideForce: equilibrium(model, model.drawing, unsprungWeight, tyre).driver ?? 0,
    },
    unsprungWeight,
  };
}

/** Height of the contact patch at a travel, kept in its range against rounding. */
function heightAt({ motion }: SetUp, travel: number): number {
  return Math.min(motion.high.at, Math.max(motion.low.at, motion.drawn + travel));
}

/** Forces of a corner drawn at some travel; the driver's is what the end eyes must bear. */
function equilibrium(
  { wheelCentre, contactPatch, upright, shock }: CornerModel,
  drawing: Drawing,
  unsprungWeight: number,
  tyre: LoadCase['tyre'],
): Forces {
  const { outer, inner, offset } = shock;
  return forces(
    drawing,
    [
      { at: wheelCentre, on: upright, force: [0, -unsprungWeight] },
      ...(tyre === null ? [] : [{ at: contactPatch, on: upright, force: tyre }]),
    ],
    { driver: { length: [outer, inner], offset } },
  );
}

/** What the end eyes must bear at a travel, all forces with it, and what the coilover gives there. */
function standAt(setup: SetUp, travel: number, tyre: LoadCase['tyre']) {
  const { model, coilover, unsprungWeight } = setup;
  const { outer, inner, offset } = model.shock;
  const drawing = { ...model.drawing, points: setup.motion.at(heightAt(setup, travel)) };
  const found = equilibrium(model, drawing, unsprungWeight, tyre);
  const [a, b] = [drawing.points[outer], drawing.points[inner]];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], offset);
  return { drawing, found, length, total: found.driver ?? 0, shares: eyeForce(coilover, length) };
}

function travelOf(setup: SetUp, { travel, tyre }: LoadCase): number {
  const { found, motion } = setup;
  const bump = found.bump?.travel ?? motion.high.at - motion.drawn;
  const droop = found.droop?.travel ?? motion.low.at - motion.drawn;
  if (typeof travel === 'number') return Math.min(bump, Math.max(droop, travel));
  if (travel === 'bumpLimit') return bump;
  if (travel === 'droopLimit') return droop;
  const wanting = (at: number) => {
    const { total, shares } = standAt(setup, at, tyre);
    return total - shares.spring - shares.gas - shares.stop;
  };
  if (wanting(bump) >= 0) return bump;
  return wanting(droop) <= 0 ? droop : zeroBetween(wanting, droop, bump);
}

function caseForces(setup: SetUp, one: LoadCase): CaseForces {
  const { model, motion, given } = setup;
  const travel = travelOf(setup, one);
  const { drawing, found, length, total, shares } = standAt(setup, travel, one.tyre);
  const { offset } = model.shock;
  const patch = motion.read({ x: model.contactPatch })(heightAt(setup, travel));
  const { axial, bending } = alongBodies(setup, drawing, found);
  return {
    name: one.name,
    travel,
    shockLength: length,
    tyre: one.tyre,
    shock: { total, ...shares, rest: total - shares.spring - shares.gas - shares.stop },
    on: found.on,
    chassis: found.ground,
    axial,
    bending,
    ballJoints: jointLoads(setup, given, travel, found),
    jacking: jackingOf(one.tyre, patch.first),
    outOfPlane: Math.abs((total * offset) / length),
  };
}

/** The line to the instant centre is square to how the contact patch moves: its slope is minus that of its path, dy/dz. */
function jackingOf(tyre: LoadCase['tyre'], slide: number | null): number | null {
  if (tyre === null || tyre[0] === 0) return 0;
  return slide === null ? null : -tyre[0] * slide;
}

/** Axial force in what is held at two joints, and bending of what carries more besides. */
function alongBodies({ model }: SetUp, { points, bodies, ground }: Drawing, found: Forces) {
  const axial: Record<string, number> = {};
  const bending: Bending[] = [];
  const { outer, inner } = model.shock;
  const push = found.driver ?? 0;
  const [a, b] = [points[outer], points[inner]];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], model.shock.offset);
  const eyes: Record<string, Point> = {
    [outer]: [(push * (a[0] - b[0])) / length, (push * (a[1] - b[1])) / length],
    [inner]: [(push * (b[0] - a[0])) / length, (push * (b[1] - a[1])) / length],
  };
  for (const [body, names] of Object.entries(bodies)) {
    if (body === model.upright || found.on[body] === undefined) continue;
    const joints = names.filter(
      (name) =>
        ground.includes(name) ||
        Object.entries(bodies).some(([other, more]) => other !== body && more.includes(name)),
    );
    const from = pivotOf(names, ground) ?? joints[0];
    const to = joints.find((name) => name !== from && bodies[model.upright].includes(name)) ?? joints[1];
    if (from === undefined || to === undefined) continue;
    const [p, q] = [points[from], points[to]];
    const span = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const at = found.on[body][to];
    if (at === null || at === undefined) continue;
    axial[body] = (at[0] * (q[0] - p[0]) + at[1] * (q[1] - p[1])) / span;
    const loads = names.map((name) => {
      const force = found.on[body][name] ?? [0, 0];
      return { place: points[name], force };
    });
    if (names.some((name) => name in eyes) || joints.length > 2) bending.push(bendingOf(body, p, q, loads));
  }
  return { axial, bending };
}

/** Loads of the ball joints whose axes are known, and their articulation in degrees. */
function jointLoads(
  setup: SetUp,
  { ballJoints = {} }: CheckedOptions,
  travel: number,
  found: Forces,
): CaseForces['ballJoints'] {
  const { model, motion } = setup;
  const loads: Record<string, BallJointLoad & { articulation: number }> = {};
  const turnOf = (body: string) =>
    body === CHASSIS ? 0 : motion.read({ turn: body })(heightAt(setup, travel)).value;
  for (const [name, joint] of Object.entries(ballJoints)) {
    const axis = joint?.housingAxis ?? joint?.studAxis;
    if (joint === undefined || axis === undefined) continue;
    const sides = sidesOf(model, name, joint.housing);
    // What the stud's body gets there, it gives back to the stud.
    const got = sides.stud === CHASSIS ? found.ground[name] : found.on[sides.stud]?.[name];
    if (got === null || got === undefined) continue;
    const turn = turnOf(sides.housing);
    const stud = joint.studAxis ?? axis;
    const drawn = Math.atan2(axis[0] * stud[1] - axis[1] * stud[0], axis[0] * stud[0] + axis[1] * stud[1]);
    loads[name] = {
      ...ballJointLoad(`${spaced(name)} ball joint`, [-got[0], -got[1]], axis, turn),
      articulation: ((drawn + turnOf(sides.stud) - turn) * 180) / Math.PI,
    };
  }
  return loads;
}

function sentencesOn(cases: readonly CaseForces[], worst: CornerForces['worst']): string[] {
  const whole = (value: number) => value.toFixed(0);
  const each = cases.map(({ name, travel, shock, jacking }) => {
    const rest =
      Math.abs(shock.rest) < 0.5
        ? ''
        : shock.rest > 0
          ? `; metal on metal bears the other ${whole(shock.rest)}`
          : `; ${whole(-shock.rest)} of that is held back inside the damper, which is fully open`;
    const lift =
      jacking === null || Math.abs(jacking) < 0.5
        ? ''
        : ` The lateral force lifts the car with ${whole(jacking)} N.`;
    return `In the case "${name}" (travel ${travel.toFixed(1)} mm) the coilover bears ${whole(shock.total)} N: spring ${whole(shock.spring)}, gas ${whole(shock.gas)}, stop ${whole(shock.stop)}${rest}.${lift}`;
  });
  const joints = Object.values(worst).map((joint) => `Worst in the case "${joint.case}": ${joint.sentence}`);
  return [...each, ...joints];
}

function faults(options: ForceOptions): Issue[] {
  if (typeof options !== 'object' || options === null) {
    return [
      {
        path: '',
        problem: 'no options',
        got: show(options),
        allowed: '{ sprungMass, unsprungMass, springRate }',
      },
    ];
  }
  const issues: Issue[] = [];
  const more = (path: string, value: unknown, least: string, good: (x: number) => boolean) => {
    if (typeof value === 'number' && Number.isFinite(value) && good(value)) return;
    issues.push({
      path,
      problem: value === undefined ? 'missing' : 'out of range',
      ...(value === undefined ? {} : { got: show(value) }),
      allowed: `a number ${least}`,
    });
  };
  more('sprungMass', options.sprungMass, 'greater than 0 (kg)', (x) => x > 0);
  more('unsprungMass', options.unsprungMass, 'of 0 or more (kg)', (x) => x >= 0);
  more('springRate', options.springRate, 'greater than 0 (N/mm)', (x) => x > 0);
  if (options.gasForce !== undefined) more('gasForce', options.gasForce, 'of 0 or more (N)', (x) => x >= 0);
  for (const [name, value] of Object.entries(options.factors ?? {})) {
    more(`factors.${name}`, value, 'of 0 or more', (x) => x >= 0);
  }
  options.stopTable?.forEach(([pressed, force], k) => {
    const [before, forceBefore] = k === 0 ? [0, 0] : (options.stopTable as StopTable)[k - 1];
    if (pressed > before && force >= forceBefore) return;
    issues.push({
      path: `stopTable[${k}]`,
      problem: 'a table that does not rise',
      got: show([pressed, force]),
      allowed: `more than ${before} mm, at least ${forceBefore} N`,
    });
  });
  options.cases?.forEach(({ tyre, travel }, k) => {
    if (tyre !== null && !(Array.isArray(tyre) && tyre.length === 2 && tyre.every(Number.isFinite))) {
      issues.push({
        path: `cases[${k}].tyre`,
        problem: 'not a force',
        got: show(tyre),
        allowed: '[y, z] in N, or null',
      });
    }
    if (!(Number.isFinite(travel) || ['bumpLimit', 'droopLimit', 'balance'].includes(travel as string))) {
      issues.push({
        path: `cases[${k}].travel`,
        problem: 'not a travel',
        got: show(travel),
        allowed: 'mm, bumpLimit, droopLimit, balance',
      });
    }
  });
  return issues;
}

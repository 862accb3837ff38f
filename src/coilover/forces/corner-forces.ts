// A corner stands still at a travel: the ground pushes on the tyre, the unsprung weight hangs at the wheel's centre, and what
// the end eyes of the coilover must bear follows from equilibrium. Its shares are those of spring, gas and stop at that
// length; the rest is metal against metal where a damper is open or closed or a stop solid, and otherwise what would have to be
// added for the wheel to stand there. Links weigh nothing, pins have no friction.
//
// The largest axial force of a coilover is the largest over the cases, which the joint loads are taken from too.

import type { AxialForce } from '../../corner/axial-force.ts';
import type { Corner } from '../../corner/corner.ts';
import type { Side } from '../../corner/limits/first-crossing.ts';
import { CHASSIS, sidesOf } from '../../corner/limits/joints.ts';
import { type CornerModel, pivotOf } from '../../corner/model.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { CheckedDrawing, Point } from '../../linkage/drawing.ts';
import { between, distance } from '../../numerics/plane.ts';
import { zeroBetween } from '../../numerics/zero.ts';
import type { Forces } from '../../statics/statics.ts';
import { type AxialLoad, axialLoad, type BallJointLoad, ballJointLoad } from './ball-joint.ts';
import { type Bending, bendingOf } from './bending.ts';
import { drivenCase } from './driven-case.ts';
import { type LoadCase, standardLoadCases } from './load-cases.ts';
import type { ForceOptions } from './options.ts';
import { restingCase } from './resting-case.ts';
import {
  given,
  heightAt,
  missingForce,
  type SetUp,
  type Standing,
  setUp,
  standAt,
  takenOffShock,
  travelRange,
} from './static-equilibrium.ts';

/** Forces in one case, N and N mm; y outboard, z up. */
export interface CaseForces {
  readonly name: string;
  /** Travel, mm, bump +. */
  readonly travel: number;
  /** Length between the end eyes there, mm. */
  readonly shockLength: number;
  readonly tyre: Point | null;
  /**
   * What pushes the end eyes apart: its parts, their `total`, and `metalContact` at the damper's end stops, positive where it is bottomed
   * out, negative where it is topped out; N.
   */
  readonly shock: AxialForce & { readonly total: number; readonly metalContact: number };
  /** What springs between both wheels take off the coilover, N along the shock; 0 without any. */
  readonly springsBetween: number;
  /** Force on each body at each of its points, from what is joined to it. */
  readonly on: Forces['on'];
  /** Force on the chassis at each mount. */
  readonly chassis: Forces['ground'];
  /**
   * What joints other than pins do, as `forces` of `jounce/statics` has it: sliders, fixed angles and coordinates, ratios and ropes. `chassis` has no
   * reaction to what slides on a line of the chassis: it is the opposite of the slider's force, at the place of its point.
   */
  readonly joints: Pick<Forces, 'sliders' | 'fixedAngles' | 'fixedCoordinates' | 'ratios' | 'ropes'>;
  /** Axial force in each arm and rod between its two joints, N, tension positive. */
  readonly axial: Readonly<Record<string, number>>;
  /** Bending of the arms that carry more than their two joints. */
  readonly bending: readonly Bending[];
  /** Of each ball joint whose axis is given. */
  readonly ballJoints: Readonly<Record<string, LoadedJoint>>;
  /** Of the joints at both ends of the kingpin, for a housing that opens along the kingpin towards the upright. */
  readonly alongKingpin: Readonly<Record<string, AxialLoad>>;
  /** Lateral tyre force × slope of the line from contact patch to instant centre, N, positive lifts the car; null at a dead point. */
  readonly jacking: number | null;
  /** Part of the shock's force across this plane, from its fore-aft offset: not balanced here, N. */
  readonly outOfPlane: number;
}

/** A ball joint under load: the angle of its stud to its housing, and the largest allowed, degrees. */
export interface LoadedJoint extends BallJointLoad {
  readonly articulation: number;
  readonly maxArticulation: number;
}

/** The load of a ball joint in the case that is named. */
export type JointExtreme = { readonly case: string } & BallJointLoad;

/** Forces of a corner over its cases. */
export interface CornerForces {
  readonly cases: readonly CaseForces[];
  /** By ball joint, the case that pulls its stud out with the largest axial load; joints that no case pulls out are left out. */
  readonly maxPullOut: Readonly<Record<string, JointExtreme>>;
  /** By ball joint, the case that pushes its stud in with the largest axial load; joints that no case pushes in are left out. */
  readonly maxPushIn: Readonly<Record<string, JointExtreme>>;
  /** The load on the coilover in each case, and the maximum pull-out and push-in of each ball joint. */
  readonly diagnostics: readonly Diagnostic[];
  /** What these figures are not. */
  readonly cautions: readonly Diagnostic[];
}

const note = (code: string, path = '', values: Diagnostic['values'] = {}): Diagnostic => {
  return { code, severity: 'note', path, values };
};

const CAUTIONS = [
  note('loadsNotStrengths'),
  note('loadsInOnePlane'),
  note('loadFactorsWithoutSource', 'factors'),
];

/**
 * Forces in every joint and mount of a corner in the standard load cases (static, `bump load`, full droop, cornering, kerb strike; with a
 * damper also the case driven to the bump limit, with the wheel load that this takes) and in your own.
 *
 * @throws InputError for invalid options, with every issue.
 */
export function cornerForces(corner: Corner, options: ForceOptions): CornerForces {
  return forcesOf(setUp(corner, options), options);
}

/** Forces of a corner that has been made ready. */
export function forcesOf(setup: SetUp, options: ForceOptions): CornerForces {
  const { sprungMass, unsprungMass, factors, cases = [] } = options;
  const driven = drivenCase(setup);
  const [asDrawn, ...others] = standardLoadCases(sprungMass, unsprungMass, factors);
  const all = [restingCase(setup) ?? asDrawn, ...others, ...(driven === null ? [] : [driven]), ...cases];
  const found = all.map((one) => caseForces(setup, one));
  const maxPullOut: Record<string, JointExtreme> = {};
  const maxPushIn: Record<string, JointExtreme> = {};
  for (const { name, ballJoints } of found) {
    for (const [joint, load] of Object.entries(ballJoints)) {
      const { axial } = load;
      if (axial > (maxPullOut[joint]?.axial ?? 0)) maxPullOut[joint] = { case: name, ...load };
      if (axial < (maxPushIn[joint]?.axial ?? 0)) maxPushIn[joint] = { case: name, ...load };
    }
  }
  const extremes = { maxPullOut, maxPushIn };
  return {
    cases: found,
    ...extremes,
    diagnostics: diagnosticsOn(found, extremes, travelRange(setup)),
    cautions: setup.between === null ? CAUTIONS : [...CAUTIONS, note('bothWheelsAlike')],
  };
}

/** The case with the largest axial force in the coilover. */
export function hardestCase(cases: readonly CaseForces[]): CaseForces {
  return cases.reduce((a, b) => (b.shock.total > a.shock.total ? b : a));
}

function travelOf(setup: SetUp, { travel, tyre }: LoadCase): number {
  const { bump, droop } = travelRange(setup);
  if (typeof travel === 'number') return Math.min(bump, Math.max(droop, travel));
  if (travel === 'bumpLimit') return bump;
  if (travel === 'droopLimit') return droop;
  const wanting = missingForce(setup, tyre);
  if (wanting(bump) >= 0) return bump;
  return wanting(droop) <= 0 ? droop : zeroBetween(wanting, droop, bump);
}

function caseForces(setup: SetUp, one: LoadCase): CaseForces {
  const { model, motion } = setup;
  const travel = travelOf(setup, one);
  const stand = standAt(setup, travel, one.tyre);
  const { drawing, found, length, total, shares } = stand;
  const { foreAftOffset } = model.shock;
  const patch = motion.read({ x: model.contactPatch })(heightAt(setup, travel));
  const { axial, bending } = alongBodies(setup, stand);
  const { sliders, fixedAngles, fixedCoordinates, ratios, ropes } = found;
  return {
    name: one.name,
    travel,
    shockLength: length,
    tyre: one.tyre,
    shock: { total, ...shares, metalContact: total - given(shares) },
    springsBetween: takenOffShock(setup, travel),
    on: found.on,
    chassis: found.ground,
    joints: { sliders, fixedAngles, fixedCoordinates, ratios, ropes },
    axial,
    bending,
    ballJoints: jointLoads(setup, travel, found),
    alongKingpin: kingpinLoads(model, drawing, found),
    jacking: jackingOf(one.tyre, patch.first),
    outOfPlane: Math.abs((total * foreAftOffset) / length),
  };
}

/** The line to the instant centre is square to how the contact patch moves: its slope is minus that of its path, dy/dz. */
function jackingOf(tyre: LoadCase['tyre'], slide: number | null): number | null {
  if (tyre === null || tyre[0] === 0) return 0;
  return slide === null ? null : -tyre[0] * slide;
}

/** Axial force in what is held at two joints, and bending of what carries more besides. */
export function alongBodies({ model }: SetUp, { drawing, found, pushes }: Standing) {
  const { points, bodies, ground } = drawing;
  const axial: Record<string, number> = {};
  const bending: Bending[] = [];
  const { outer, inner } = model.shock;
  const push = found.driver ?? 0;
  const [a, b] = [points[outer], points[inner]];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], model.shock.foreAftOffset);
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
    const span = distance(p, q);
    const at = found.on[body][to];
    if (at === null || at === undefined) continue;
    axial[body] = (at[0] * (q[0] - p[0]) + at[1] * (q[1] - p[1])) / span;
    const loads = names.map((name) => {
      const [y, z] = found.on[body][name] ?? [0, 0];
      const { force } = pushes.find(({ at }) => at === name) ?? { force: [0, 0] };
      return { place: points[name], force: [y + force[0], z + force[1]] as const };
    });
    if (names.some((name) => name in eyes || pushes.some(({ at }) => at === name)) || joints.length > 2)
      bending.push(bendingOf(body, p, q, loads));
  }
  return { axial, bending };
}

/** Loads of the ball joints whose axes are known, and their articulation in degrees. */
export function jointLoads(setup: SetUp, travel: number, found: Forces): CaseForces['ballJoints'] {
  const { model, motion } = setup;
  const { ballJoints = {} } = setup.given;
  const loads: Record<string, LoadedJoint> = {};
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
      ...ballJointLoad(name, [-got[0], -got[1]], axis, turn),
      maxArticulation: joint.maxArticulation,
      articulation: ((drawn + turnOf(sides.stud) - turn) * 180) / Math.PI,
    };
  }
  return loads;
}

function kingpinLoads(
  { kingpin, upright }: CornerModel,
  { points }: CheckedDrawing,
  found: Forces,
): CaseForces['alongKingpin'] {
  if (kingpin === null) return {};
  const { lower, upper } = kingpin;
  const up = between(points[lower], points[upper]);
  return Object.fromEntries(
    [[lower, up] as const, [upper, [-up[0], -up[1]]] as const].flatMap(([joint, axis]) => {
      const onUpright = found.on[upright]?.[joint];
      if (onUpright === null || onUpright === undefined) return [];
      return [[joint, axialLoad([-onUpright[0], -onUpright[1]], axis)]];
    }),
  );
}

/** Where what spring, gas and bump stop do not give comes from, by where the wheel stands. */
function restOf(
  { travel, shock: { metalContact } }: CaseForces,
  { bump, droop }: Record<Side, number>,
): string {
  if (travel === droop && metalContact < 0) return 'toppedOut';
  if (travel === bump) return metalContact > 0 ? 'bottomedOut' : 'notReached';
  return 'unsprungWeight';
}

function diagnosticsOn(
  cases: readonly CaseForces[],
  extremes: Pick<CornerForces, 'maxPullOut' | 'maxPushIn'>,
  range: Record<Side, number>,
): Diagnostic[] {
  const each = cases.map((one) => {
    const { name, travel, shock, jacking } = one;
    return note('loadCase', '', { case: name, travel, ...shock, rest: restOf(one, range), jacking });
  });
  const joints = Object.entries(extremes).flatMap(([code, loads]) =>
    Object.values(loads).map(({ case: name, diagnostic: { path, values } }) =>
      note(code, path, { case: name, ...values }),
    ),
  );
  return [...each, ...joints];
}

// Loads of the ball joints in each load case: along the stud where its axis is known or taken, else the whole force.

import type { AxialLoad } from '../../coilover/forces/ball-joint.ts';
import type { CaseForces } from '../../coilover/forces/corner-forces.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { modelOf } from '../../corner/corner.ts';
import { ballJointName, capital } from '../../words.ts';
import { pointName } from '../names.ts';
import { type Block, paragraph, table } from './blocks.ts';
import { whole } from './mount-loads.ts';
import type { OnPaper } from './on-paper.ts';

/** A column for each ball joint: pulled out or pushed in, and square to that; nothing where no joint has a load. */
export function jointLoads({ forces, input }: AxleSizing, paper: OnPaper): Block[] {
  const { cases } = forces ?? { cases: [] };
  const model = modelOf(input.corner);
  const { drawing, upright } = model;
  const atUpright = drawing.bodies[upright].filter(
    (point) =>
      drawing.ground.includes(point) ||
      Object.entries(drawing.bodies).some(([body, points]) => body !== upright && points.includes(point)),
  );
  const joints = [...new Set([...atUpright, ...cases.flatMap((one) => Object.keys(one.ballJoints))])];
  const ofKind = (is: (one: CaseForces, joint: string) => boolean) =>
    joints.filter((joint) => cases.some((one) => is(one, joint)));
  const known = ofKind(({ ballJoints }, joint) => joint in ballJoints);
  // A mount on the chassis, as the top of a strut, is no ball joint with a stud on the upright.
  const taken = ofKind(
    ({ ballJoints, alongKingpin }, joint) =>
      joint in alongKingpin && !(joint in ballJoints) && !drawing.ground.includes(joint),
  );
  const others = joints.filter((joint) => !known.includes(joint) && !taken.includes(joint));
  if (cases.length === 0 || joints.length === 0) return [];
  const [units] = paper.units;
  return [
    table(
      'Loads of the ball joints',
      [
        'load case',
        ...known.map((joint) => ballJointName(joint)),
        ...taken.map((joint) => `${ballJointName(joint)}, stud taken along the kingpin`),
        ...others.map((joint) => `${pointName(model, joint)}, whole force`),
      ],
      cases.map((one) => [
        one.name,
        ...known.map((joint) => alongStud(one, joint, paper)),
        ...taken.map((joint) => load(one.alongKingpin[joint], paper)),
        ...others.map((joint) => whole(one.on[upright]?.[joint], paper)),
      ]),
      [],
    ),
    ...(taken.length === 0 ? [] : [paragraph(taken.map((joint) => takenWords(joint, input)).join(' '))]),
    ...(others.length === 0
      ? []
      : [paragraph(`Whole force: on the upright, y outboard, z up (${paper.unit('force', units)}).`)]),
  ];
}

/** Why the stud of a joint is taken along the kingpin, and what to give. */
function takenWords(joint: string, { limits }: AxleSizing['input']): string {
  const name = capital(ballJointName(joint));
  return joint in (limits.ballJoints ?? {})
    ? `${name}: no axis given. Its stud is taken along the kingpin, straight in its housing at design ride height; give housingAxis and studAxis.`
    : `${name}: not given. Its stud is taken along the kingpin; give limits.ballJoints.${joint} with housingAxis and studAxis.`;
}

/** `pulled out 314 lbf (1395 N), radial 90 lbf (399 N)`. */
function load(found: AxialLoad | undefined, { both, number, units }: OnPaper): string {
  if (found === undefined) return '–';
  const isNothing = Number(number(Math.abs(found.axial), 'force', units[0])) === 0;
  const axial = isNothing ? 'no' : found.axial > 0 ? 'pulled out' : 'pushed in';
  return `${axial} ${both(Math.abs(found.axial), 'force')}, radial ${both(found.radial, 'force')}`;
}

/** The same with the articulation. */
function alongStud({ ballJoints }: CaseForces, joint: string, paper: OnPaper): string {
  const found = ballJoints[joint];
  if (found === undefined) return '–';
  return `${load(found, paper)}, stud at ${paper.both(found.articulation, 'angle')}`;
}

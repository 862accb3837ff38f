// Loads of the joints at the upright in each load case: along the stud where its axis is known, else the whole force.

import type { CaseForces } from '../../coilover/forces/corner-forces.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { modelOf } from '../../corner/corner.ts';
import { spaced } from '../../words.ts';
import { type Block, paragraph, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** A column for each ball joint: pulled out or pushed in, and square to that; nothing where no joint has a load. */
export function jointLoads({ forces, input }: AxleSizing, paper: OnPaper): Block[] {
  const { cases } = forces ?? { cases: [] };
  const { drawing, upright } = modelOf(input.corner);
  const joints = drawing.bodies[upright].filter(
    (point) =>
      drawing.ground.includes(point) ||
      Object.entries(drawing.bodies).some(([body, points]) => body !== upright && points.includes(point)),
  );
  const known = joints.filter((joint) => cases.some(({ ballJoints }) => joint in ballJoints));
  const others = joints.filter((joint) => !known.includes(joint));
  if (cases.length === 0 || joints.length === 0) return [];
  const [units] = paper.units;
  return [
    table(
      'Loads of the joints at the upright',
      [
        'load case',
        ...known.map((joint) => `${spaced(joint)} joint`),
        ...others.map((joint) => `${spaced(joint)} joint, stud axis not given`),
      ],
      cases.map((one) => [
        one.name,
        ...known.map((joint) => alongStud(one, joint, paper)),
        ...others.map((joint) => whole(one, upright, joint, paper)),
      ]),
      [],
    ),
    ...(others.length === 0
      ? []
      : [
          paragraph(
            `Stud axis not given: the whole force on the upright, y outboard, z up (${paper.unit('force', units)}). With housingAxis in limits.ballJoints the report says whether it pulls the stud out or pushes it in.`,
          ),
        ]),
  ];
}

/** `pulled out 314 lbf (1395 N), radial 90 lbf (399 N)`. */
function alongStud({ ballJoints }: CaseForces, joint: string, { both, number, units }: OnPaper): string {
  const load = ballJoints[joint];
  if (load === undefined) return '–';
  const isNothing = Number(number(Math.abs(load.axial), 'force', units[0])) === 0;
  const axial = isNothing ? 'no' : load.axial > 0 ? 'pulled out' : 'pushed in';
  return `${axial} ${both(Math.abs(load.axial), 'force')}, radial ${both(load.radial, 'force')}, stud at ${both(load.articulation, 'angle')}`;
}

/** `412 lbf (1834 N): y 310, z -271`. */
function whole({ on }: CaseForces, upright: string, joint: string, { both, number, units }: OnPaper): string {
  const force = on[upright]?.[joint];
  if (force === null || force === undefined) return '–';
  const [y, z] = force.map((part) => number(part, 'force', units[0]));
  return `${both(Math.hypot(...force), 'force')}: y ${y}, z ${z}`;
}

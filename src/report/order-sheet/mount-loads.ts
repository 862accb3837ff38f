// What arms and rods bear along themselves, and what the corner puts on the chassis at each mount.

import type { Bending } from '../../coilover/forces/bending.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { modelOf } from '../../corner/corner.ts';
import type { CornerModel } from '../../corner/model.ts';
import type { Point } from '../../linkage/drawing.ts';
import { spaced } from '../../words.ts';
import { pointName } from '../names.ts';
import { type Block, paragraph, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** A column for each arm and rod, then one for each mount on the chassis; nothing without load cases. */
export function mountLoads({ forces, input }: AxleSizing, paper: OnPaper): Block[] {
  const { cases } = forces ?? { cases: [] };
  if (cases.length === 0) return [];
  const model = modelOf(input.corner);
  const links = Object.keys(cases[0].axial).filter((body) => body !== model.rocker?.body);
  const bent = links.filter((body) => cases.some(({ bending }) => bending.some((one) => one.body === body)));
  const mounts = model.drawing.ground.filter((point) => point in cases[0].chassis);
  return [
    ...(links.length === 0
      ? []
      : [
          table(
            'Forces in arms and rods in each load case',
            [
              'load case',
              ...links.flatMap((body) => [
                `${spaced(body)}, along it`,
                ...(bent.includes(body)
                  ? [`${spaced(body)}, largest bending moment`, 'distance from its pivot']
                  : []),
              ]),
            ],
            cases.map(({ name, axial, bending }) => [
              name,
              ...links.flatMap((body) => [
                along(axial[body], paper),
                ...(bent.includes(body)
                  ? bend(
                      bending.find((one) => one.body === body),
                      paper,
                    )
                  : []),
              ]),
            ]),
          ),
          ...(bent.length === 0
            ? []
            : [
                paragraph(
                  `The ${bent.map(spaced).join(' and the ')} ${bent.length === 1 ? 'carries' : 'carry'} the coilover or a rod: the axial force alone does not size the tube, the bending moment must be added. The distance is along the line from the inner pivot to the outer joint.`,
                ),
              ]),
        ]),
    ...(mounts.length === 0
      ? []
      : [
          table(
            `Forces on the chassis in each load case: y outboard, z up (${paper.unit('force', paper.units[0])})`,
            ['load case', ...mounts.map((point) => mountName(model, point))],
            cases.map(({ name, chassis }) => [name, ...mounts.map((point) => whole(chassis[point], paper))]),
            [],
          ),
          paragraph('The force at the pivot of an arm is for both legs of the arm together.'),
        ]),
  ];
}

/** N mm in N m, the unit of a moment on paper. */
const N_MM = 1000;

/** The largest bending moment of an arm, and where. */
function bend(found: Bending | undefined, { both }: OnPaper): string[] {
  if (found === undefined) return ['–', '–'];
  return [both(Math.abs(found.moment) / N_MM, 'moment'), both(found.at, 'length')];
}

function mountName(model: CornerModel, point: string): string {
  return point === model.shock.inner ? 'coilover' : pointName(model, point);
}

/** `tension 314 lbf (1395 N)`. */
function along(force: number, { both, number, units }: OnPaper): string {
  if (Number(number(force, 'force', units[0])) === 0) return '–';
  return `${force > 0 ? 'tension' : 'compression'} ${both(Math.abs(force), 'force')}`;
}

/** `412 lbf (1834 N): y 310, z −271`. */
export function whole(force: Point | null | undefined, { both, number, units }: OnPaper): string {
  if (force === null || force === undefined) return '–';
  const [y, z] = force.map((part) => number(part, 'force', units[0]));
  return `${both(Math.hypot(...force), 'force')}: y ${y}, z ${z}`;
}

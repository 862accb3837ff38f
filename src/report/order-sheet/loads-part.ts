import type { CaseForces } from '../../coilover/forces/corner-forces.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { type Block, heading, paragraph, table } from './blocks.ts';
import { jointLoads } from './joint-loads.ts';
import { mountLoads } from './mount-loads.ts';
import type { OnPaper } from './on-paper.ts';

/** What coilover, joints, links and mounts of an axle bear in each load case. */
export function loadsPart(sized: AxleSizing, paper: OnPaper): Block[] {
  const { forces } = sized;
  if (forces === null) return [];
  const { cases } = forces;
  return [
    heading(3, 'Loads on mounts and joints'),
    table(
      'Load cases: force of the ground at the contact patch, and travel',
      ['load case', 'up', 'sideways, outboard +', 'travel from design ride height, bump +'],
      cases.map((one) => caseRow(one, paper)),
    ),
    paragraph(
      `The wheel stands where the coilover balances the load of the case, or at the limit if it cannot.${topsOut(sized) ? ' At full droop the damper is topped out and holds the wheel up.' : ''} There is no braking force in these cases. Each force is rounded by itself: the parts of the axial force may differ from it by 1 or 2.`,
    ),
    table(
      'Axial force of the coilover in each load case, compression +',
      [
        'load case',
        'axial force, compression +',
        'spring',
        'gas',
        'bump stop',
        'topping out or metal contact',
      ],
      cases.map((one) => axialRow(one, paper)),
    ),
    ...jointLoads(sized, paper),
    ...mountLoads(sized, paper),
  ];
}

const NOTHING = '–';

/** Whether the damper holds the wheel up at full droop. */
function topsOut({ forces, limits }: AxleSizing): boolean {
  if (limits.droop?.cause !== 'damperExtended') return false;
  return (forces?.cases ?? []).some(({ tyre, shock }) => tyre === null && shock.metalContact < 0);
}

/** A case by what the ground does, and where the wheel stands. */
function caseRow({ name, tyre, travel }: CaseForces, { both }: OnPaper): string[] {
  const [sideways, up] = tyre ?? [0, 0];
  return [
    name,
    ...[up, sideways].map((force) => (force === 0 ? NOTHING : both(force, 'force'))),
    both(travel, 'length'),
  ];
}

/** A case with the parts of the axial force. */
function axialRow({ name, shock }: CaseForces, { both, number, units }: OnPaper): string[] {
  const given = [shock.spring, shock.gas, shock.bumpStop];
  const isNothing = units.every((of) => Number(number(shock.metalContact, 'force', of)) === 0);
  const parts = isNothing ? given : [...given, shock.metalContact];
  const total = isNothing ? given.reduce((all, part) => all + part, 0) : shock.total;
  return [
    name,
    both(total, 'force'),
    ...parts.map((part) => both(part, 'force')),
    ...(isNothing ? [NOTHING] : []),
  ];
}

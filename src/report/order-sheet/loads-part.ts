import type { CaseForces } from '../../coilover/forces/corner-forces.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { type Block, heading, paragraph, table } from './blocks.ts';
import { jointLoads } from './joint-loads.ts';
import { mountLoads } from './mount-loads.ts';
import type { OnPaper } from './on-paper.ts';
import { partsOnPaper } from './parts-on-paper.ts';

/** What coilover, joints, links and mounts of an axle bear in each load case. */
export function loadsPart(sized: AxleSizing, paper: OnPaper): Block[] {
  const { forces } = sized;
  if (forces === null) return [];
  const { cases } = forces;
  const rows = cases.map((one) => axialRow(one, paper));
  const differs = rows.some((row) => row.at(-1) !== NOTHING);
  return [
    heading(3, 'Loads on mounts and joints'),
    table(
      'Axial force of the coilover in each load case',
      ['load case', 'travel', 'axial force', 'spring', 'gas', 'bump stop', 'difference'],
      rows,
    ),
    paragraph(
      `Travel is from design ride height, bump +: where the coilover balances the wheel load of the case, or the limit if it cannot.${differs ? ' Difference: axial force less spring, gas and bump stop. At full droop the extended damper holds it back; in bump it is metal on metal.' : ''}`,
    ),
    ...jointLoads(sized, paper),
    ...mountLoads(sized, paper),
  ];
}

const NOTHING = '–';

/** A case with parts that add up to the axial force as it is printed; the spring takes what rounding leaves over. */
function axialRow({ name, travel, shock }: CaseForces, paper: OnPaper): string[] {
  const { both, number, units } = paper;
  const given = [shock.spring, shock.gas, shock.bumpStop];
  const isNothing = units.every((of) => Number(number(shock.metalContact, 'force', of)) === 0);
  const parts = isNothing ? given : [...given, shock.metalContact];
  const total = isNothing ? given.reduce((all, part) => all + part, 0) : shock.total;
  return [
    name,
    both(travel, 'length'),
    both(total, 'force'),
    ...partsOnPaper(parts, 0, 'force', paper),
    ...(isNothing ? [NOTHING] : []),
  ];
}

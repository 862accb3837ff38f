// Whether a car stands in roll: the roll stiffness of its axles about the middle of the ground must be more than what its weight takes off,
// m_s g h, h the height of the centre of gravity of the sprung part.

import { totalPush } from '../corner/axial-force.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { GRAVITY, NEWTON_METRE_PER_DEGREE } from '../units.ts';
import type { AxleLinkage } from './axle.ts';
import { type Coupled, coupledBy } from './coupling.ts';
import type { CarSetUp } from './rest-equations.ts';
import { stiffnessThere, type WheelState } from './roll-stiffness.ts';
import type { WheelAt } from './wheel-at.ts';

/** A car with its wheels as drawn. */
export interface DrawnCar extends CarSetUp {
  readonly names: readonly ('front' | 'rear')[];
  readonly linkages: readonly AxleLinkage[];
  readonly drawn: readonly WheelAt[];
}

/** Times the springs' roll stiffness above which a bar is remarked. */
const STIFF_BAR = 3;

/** What is worth knowing of a car as drawn: whether it stands in roll, bars that do more than the springs, springs that move the wrong way. */
export function diagnosticsOn({
  names,
  linkages,
  axles,
  wheels,
  drawn,
  sprungMass,
  centre,
}: DrawnCar): Diagnostic[] {
  const found = names.map((name, k) => {
    const [l, r] = [2 * k, 2 * k + 1];
    const springs = [l, r].map((i) => totalPush(wheels[i].coilover, drawn[i].shock[0]));
    const coupled = coupledBy(axles[k].couplings, drawn[l], drawn[r]);
    return {
      path: linkages[k].bar === null ? `${name}.antiRollBarStiffness` : `${name}.linkage.bar`,
      moves: coupled.flatMap((one) => oddMoves(one, `${name}.linkage.${one.name}`)),
      stiffness: stiffnessThere(coupled, [wheelState(1, drawn[l]), wheelState(-1, drawn[r])], 0, springs),
    };
  });
  const total = found.reduce((sum, { stiffness }) => sum + stiffness.total, 0);
  const required = (sprungMass * GRAVITY * centre[1]) / NEWTON_METRE_PER_DEGREE;
  const falls: Diagnostic[] =
    total > required
      ? []
      : [{ code: 'rollsOver', severity: 'conflict', path: '', values: { stiffness: total, required } }];
  return [
    ...falls,
    ...found.flatMap(({ moves }) => moves),
    ...found.flatMap(({ path, stiffness: { bar, springs, changingRatio } }): Diagnostic[] => {
      const alone = springs + changingRatio;
      if (!(bar > STIFF_BAR * alone)) return [];
      return [
        {
          code: 'barLeadsRollStiffness',
          severity: 'note',
          path,
          values: { bar, springs: alone, times: STIFF_BAR },
        },
      ];
    }),
  ];
}

/** Share of its movement with one wheel that a bar or a roll spring may have in heave. */
const STILL = 0.25;

/** A third spring that heave does not shorten, a bar or roll spring that it moves. */
function oddMoves({ name, left, right }: Coupled, path: string): Diagnostic[] {
  const [inHeave, apart] = [left + right, Math.abs(left) + Math.abs(right)];
  if (name === 'thirdSpring' && !(inHeave < 0))
    return [{ code: 'thirdSpringNotShortened', severity: 'check', path, values: { ratio: 0 - inHeave } }];
  if (name === 'bar' && Math.abs(inHeave) > STILL * apart)
    return [{ code: 'barTwistsInHeave', severity: 'check', path, values: { share: STILL } }];
  if (name === 'rollSpring' && Math.abs(inHeave) > STILL * apart)
    return [
      {
        code: 'rollSpringMovesInHeave',
        severity: 'check',
        path,
        values: { ratio: 0 - inHeave, share: STILL },
      },
    ];
  return [];
}

/** A wheel that has been read, as roll stiffness takes it. */
export function wheelState(side: 1 | -1, at: WheelAt): WheelState {
  const { travel, halfTrack, shock, lever, thirdSpring, rollSpring } = at;
  return { side, travel, y: halfTrack, shock, lever, thirdSpring, rollSpring };
}

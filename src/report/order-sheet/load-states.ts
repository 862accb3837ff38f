import { axleName } from '../../coilover/sizing/inputs.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { type Block, heading, paragraph, table } from './blocks.ts';
import type { Say } from './words.ts';

/** The states in which the car is used, and where it stands in each; nothing for a car without states. */
export function loadStatesPart(axles: readonly AxleSizing[], designState: string | null, say: Say): Block[] {
  if (designState === null) return [];
  const orDash = (value: number | null, quantity: Parameters<Say>[1]) =>
    value === null ? '–' : say(value, quantity);
  return [
    heading(2, 'Load states'),
    paragraph(
      `Ride height and all lengths mean the state "${designState}". In the other states the perch stays as it is. Required travel covers all of them.`,
    ),
    table(
      [
        'state',
        'axle',
        'sprung mass',
        'travel from design ride height',
        'bump left',
        'to the bump stop',
        'droop left',
        'frequency',
      ],
      axles.flatMap(({ axle, loadStates }) =>
        loadStates.map((state) => [
          state.name,
          axleName(axle),
          orDash(state.sprungMass, 'mass'),
          state.state === null || state.state === 'onSpring'
            ? orDash(state.staticTravel, 'length')
            : 'on its limit',
          orDash(state.bumpTravelLeft, 'length'),
          orDash(state.travelToContact, 'length'),
          orDash(state.droopTravelLeft, 'length'),
          orDash(state.frequency, 'frequency'),
        ]),
      ),
      [2, 3, 4, 5, 6, 7],
    ),
  ];
}

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { type Block, heading, paragraph, pictureOf, table } from './blocks.ts';
import { loadStatesPicture, narrowLoadStates } from './load-states-picture.ts';
import type { OnPaper } from './on-paper.ts';

/** The states in which the car is used, and where it stands in each; nothing for a car without states. */
export function loadStatesPart(
  axles: readonly AxleSizing[],
  designState: string | null,
  paper: OnPaper,
): Block[] {
  if (designState === null) return [];
  const { orDash } = paper;
  const title = 'Load states: where each axle stands in its travel';
  return [
    heading(2, 'Load states'),
    paragraph(
      `Ride height and all lengths mean the state "${designState}". In the other states the perch stays as it is. Required travel covers all of them.`,
    ),
    ...pictureOf(
      title,
      () => loadStatesPicture(axles, title, paper),
      () => narrowLoadStates(axles, title, paper),
    ),
    table(
      'Load states',
      [
        'state',
        'axle',
        'sprung mass',
        'travel from design ride height, bump +',
        'bump travel left',
        'to the bump stop',
        'droop travel left',
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

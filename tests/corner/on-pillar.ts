import { customCorner } from 'jounce';

/** An upright on a straight pillar: nothing but the coilover, 330 mm below its top, ends the travel. */
export const onPillar = customCorner({
  drawing: {
    points: {
      foot: [640, 200],
      head: [640, 460],
      low: [640, 260],
      high: [640, 380],
      hub: [690, 300],
      patch: [690, 0],
      eye: [600, 280],
      top: [500, 610],
    },
    ground: ['foot', 'head', 'top'],
    bodies: { upright: ['low', 'high', 'hub', 'patch', 'eye'] },
    sliders: {
      lower: { point: 'low', on: ['foot', 'head'] },
      upper: { point: 'high', on: ['foot', 'head'] },
    },
  },
  upright: 'upright',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});

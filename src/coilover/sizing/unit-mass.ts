// What of a coilover's mass counts as unsprung. Its two eyes move with v_o and v_i a mm of wheel travel; with the mass spread evenly
// between them its kinetic energy is that of a mass at the wheel of the share
//
//   s = (|v_o|^2 + v_o . v_i + |v_i|^2) / 3,
//
// a third for an eye that moves with the wheel and one that stands still.

import type { FigureInfos, Numbers } from './figure.ts';
import type { AxleState } from './state.ts';

export const UNIT_FIGURES = {
  massSaving: {
    label: 'mass saved by the new coilover, each',
    quantity: 'mass',
    group: 'order',
    definition: 'mass of the coilover that is replaced − mass of the new one',
  },
  unitUnsprungFraction: {
    label: 'unsprung fraction of the coilover',
    quantity: 'ratio',
    group: 'car',
    definition:
      'from the kinetic energy of the solved motion at ride height, its mass spread evenly from eye to eye',
  },
  unsprungMassSaving: {
    label: 'unsprung mass saved, each corner',
    quantity: 'mass',
    group: 'order',
    definition: 'mass saved × unsprung share',
  },
} as const satisfies FigureInfos;

export function unitNumbers({ shock, given }: AxleState): Numbers<typeof UNIT_FIGURES> {
  const {
    outer: [oy, oz],
    inner: [iy, iz],
  } = shock.eyes(0);
  const share = (oy * oy + oz * oz + oy * iy + oz * iz + iy * iy + iz * iz) / 3;
  const { new: bought, replaced } = given.sizing.unitMass ?? {};
  const saved = bought === undefined || replaced === undefined ? null : replaced - bought;
  return {
    massSaving: saved,
    unitUnsprungFraction: share,
    unsprungMassSaving: saved === null ? null : saved * share,
  };
}

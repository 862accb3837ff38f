/** Inputs of every kind of corner that the library draws: all points that a kind may have are in one or another of its inputs. */
import { KINDS, type Kind, MODELS } from '../../src/corner/kinds.ts';
import { deepFreeze } from './freeze.ts';

type InputOf<Name extends Kind> = Parameters<(typeof KINDS)[Name]['make']>[0];

const wishbones = {
  lowerArm: { inner: [248, 158], outer: [628, 149] },
  upperArm: { inner: [297, 338], outer: [588, 357] },
  wheel: { centre: [698, 311], camber: -0.8 },
} as const;
const rocker = {
  rod: { on: 'lowerArm', mount: [556, 166], rockerMount: [342, 468] },
  rocker: { pivot: [258, 397] },
} as const;
const strutted = {
  lowerArm: { inner: [330, 190], outer: [689, 171] },
  strut: { topMount: [559, 857], lowerMount: [641, 330] },
  wheel: { centre: [744, 302], contactPatch: [747, 1] },
} as const;

/** The first of each kind is plain: nothing in its file makes one ask. */
export const INPUTS: { readonly [Name in Kind]: readonly [InputOf<Name>, ...InputOf<Name>[]] } = deepFreeze({
  doubleWishbone: [
    { ...wishbones, coilover: { on: 'lowerArm', mount: [505, 168], chassisMount: [350, 470] } },
    {
      ...wishbones,
      wheel: { centre: [698, 311], contactPatch: [702, 1] },
      coilover: {
        on: 'upright',
        mount: [600, 201],
        otherEnd: { on: 'upperArm', mount: [420, 420] },
        foreAftOffset: 20,
      },
    },
  ],
  pushrod: [
    { ...wishbones, ...rocker, coilover: { rockerMount: [232, 498], chassisMount: [12, 472] } },
    {
      ...wishbones,
      ...rocker,
      wheel: { centre: [698, 311], contactPatch: [702, 1] },
      coilover: { rockerMount: [232, 498], otherEnd: { on: 'lowerArm', mount: [400, 160] } },
    },
  ],
  strut: [
    strutted,
    { ...strutted, coilover: { on: 'lowerArm', mount: [590, 185], chassisMount: [480, 560] } },
    {
      ...strutted,
      coilover: { on: 'lowerArm', mount: [590, 185], otherEnd: { on: 'upright', mount: [640, 500] } },
    },
  ],
});

/** All kinds, each with its descriptor, its functions and its inputs. */
export const ALL_KINDS = (Object.keys(MODELS) as Kind[]).map((kind) => {
  const { input, make } = KINDS[kind];
  return { kind, input, make: make as (given: never) => ReturnType<typeof make>, inputs: INPUTS[kind] };
});

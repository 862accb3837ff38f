// The campaigns: what each draws, what judges it, how many cases there are to be, and how many a part has.

/** Laws of the suite: the files that they stand in, and their names or those of what they are about; all of the files if none. */
export interface Laws {
  readonly files: readonly string[];
  readonly named?: readonly string[];
}

export interface Campaign {
  readonly what: string;
  readonly against: string;
  readonly cases: number;
  /** Cases of a part; of laws, the runs of each. */
  readonly part: number;
  /** Those that it runs; none where it judges its cases by itself. */
  readonly laws?: Laws;
}

export const CAMPAIGNS: Readonly<Record<string, Campaign>> = {
  corners: {
    what: 'random corners of three kinds, in mm, inches, and a thousand times smaller and larger',
    against: 'the closed form of each kind, at five places of the travel',
    cases: 1_000_000,
    part: 20_000,
  },
  linkages: {
    what: 'random linkages of up to ten bars',
    against: 'rigid bodies, ways home, extremes, mirror images, other drivers',
    cases: 100_000,
    part: 200,
    laws: { files: ['linkage/laws', 'linkage/invariance', 'linkage/layers'] },
  },
  joints: {
    what: 'random linkages with sliders, telescopes, angles, couplings and several drivers',
    against: 'circles, turns and lines; free bodies and virtual work',
    cases: 100_000,
    part: 200,
    laws: {
      files: [
        'linkage/couplings',
        'linkage/drivers',
        'linkage/excavator',
        'linkage/joints',
        'linkage/sliders',
        'linkage/statics',
      ],
    },
  },
  'change-points': {
    what: 'linkages drawn at, and moved through, their change points',
    against: 'loop equations to second order, the antiparallelogram',
    cases: 100_000,
    part: 1000,
    laws: { files: ['linkage/change-points', 'linkage/driven-change-points', 'linkage/close-passes'] },
  },
  gaps: {
    what: 'four-bars that miss a change point by 1e-2 down to 1e-14 of their size',
    against: 'the assembly drawn, lengths to rounding; from 1e-11 on full turns',
    cases: 100_000,
    part: 5000,
  },
  units: {
    what: 'linkages in units of length from 1e-8 to 1e8',
    against: 'the same linkage in its own unit',
    cases: 20_000,
    part: 500,
    laws: { files: ['linkage/layers'], named: ['a linkage in any unit of length'] },
  },
  'far-away': {
    what: 'linkages drawn a million sizes from the origin, or moved by powers of two',
    against: 'the same linkage at the origin',
    cases: 20_000,
    part: 500,
    laws: { files: ['linkage/invariance'], named: ['moved a million', 'moved by whole powers'] },
  },
  documents: {
    what: 'car and corner files, spoilt at random, and texts that are hardly JSON',
    against: 'a refusal that can be read, or figures that are numbers',
    cases: 100_000,
    part: 5000,
  },
  arguments: {
    what: 'every public function with arguments spoilt at random',
    against: 'a refusal that can be read, or an answer; nothing given is changed',
    cases: 100_000,
    part: 5000,
  },
};

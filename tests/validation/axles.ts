import type { Section } from './check.ts';

export const axles: Section = {
  title: 'Axles',
  checks: [
    {
      what: 'two unlike corners over heave and roll: travels and contact patches',
      file: 'axle/sweep-axle.test.ts',
      tests: 'an axle > stands where the general solver',
      against: 'the general solver on one drawing of both corners and the road',
      known: 'derived',
      unit: 'mm',
    },
    {
      what: 'swing axles in heave and roll: travel, camber to the ground, roll centre',
      file: 'axle/sweep-axle.test.ts',
      tests: 'an axle > of two swing axles',
      against: 'a turn about the pivot',
      known: 'derived',
      unit: 'mm, deg or 1',
    },
    {
      what: 'parallel level arms: camber to the ground, roll centre on the ground',
      file: 'axle/sweep-axle.test.ts',
      tests: 'an axle > with parallel level arms',
      against: 'camber that goes by roll alone',
      known: 'derived',
      unit: 'deg',
    },
    {
      what: 'wheels of an axle, and its roll centre when level',
      file: 'axle/sweep-axle.test.ts',
      tests: ['an axle > has of each wheel', 'an axle > level has the roll centre'],
      against: 'sweeps of its corners',
      unit: 'mm, deg or 1',
    },
    {
      what: 'derivatives of an axle by heave and roll',
      file: 'axle/sweep-axle.test.ts',
      tests: 'an axle > has exact derivatives',
      against: 'central differences',
      known: 'derived',
      unit: 'mm or deg, by mm or deg',
    },
    {
      what: 'length of the drop links of an anti-roll bar, in space',
      file: 'axle/sweep-axle.test.ts',
      tests: 'an axle > keeps the length',
      against: 'the length as drawn',
      known: 'derived',
      unit: 'mm',
    },
    {
      what: 'torsional stiffness of a round bar and of a tube',
      file: 'axle/sweep-axle.test.ts',
      tests: 'a round bar',
      against: 'handbook formula of torsion',
      known: 'from memory',
      unit: 'N·m/deg',
    },
    {
      what: 'roll stiffness in any pose, and its parts',
      file: 'axle/roll-stiffness.test.ts',
      tests: 'roll stiffness > is the slope',
      against: 'central differences of the energy of springs and bar',
      known: 'derived',
      unit: '1, or N·m/deg',
    },
    {
      what: 'roll stiffness of a level axle',
      file: 'axle/roll-stiffness.test.ts',
      tests: 'roll stiffness > of a level axle',
      against:
        'half the wheel rate times the square of the track, with the load on the roll centre, from a sweep of the corner',
      known: 'derived',
      unit: 'N·m/deg',
    },
  ],
};

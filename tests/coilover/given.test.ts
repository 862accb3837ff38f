/** What hangs on what: which figures are open when one thing is not given, and what is said of it. */
import { readCar, sentence, sizeCoilovers, uncertaintyBands } from 'jounce';
import { describe, expect, it } from 'vitest';
import type { Json } from '../document/support.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { car, GRAVITY, sized, valueIn } from './cars.ts';

/** A car of which everything is known. */
const everything = (document: Json) => {
  for (const corner of [document.corners.front, document.corners.rear] as Json[]) {
    corner.thirdSpring = { on: 'lowerArm', mount: [275, 280], rate: 4, preload: 100 };
    corner.rollSpring = {
      on: 'lowerArm',
      mount: [275, 280],
      right: { on: 'lowerArm', mount: [270, 40] },
      rate: 4,
    };
  }
  for (const { sizing } of [document.corners.front, document.corners.rear] as Json[]) {
    sizing.springs = [{ name: 'A', rate: 26, freeLength: 260, minLength: 90, innerDiameter: 60 }];
    sizing.helper = { rate: 4, freeLength: 60, solidLength: 20, separatorHeight: 5 };
    sizing.perch = { threadPitch: 1.5, min: 60, max: 200 };
    sizing.unitMass = { new: 2.1, replaced: 3 };
    sizing.antiRollBarStiffness = 90;
    sizing.deadLength = 200;
    sizing.rateStep = 5;
    sizing.damping = { ratio: 0.3, compressionFraction: 0.4, kneeSpeed: 150, highSpeedFraction: 0.3 };
    sizing.order = {
      mounts: { mount: { type: 'eye' }, chassis: { type: 'eye' } },
      bodyEnd: 'up',
      bodyDiameter: 50,
      adjusters: 'rebound',
      lengthTolerance: 1,
    };
  }
  for (const { limits } of [document.corners.front, document.corners.rear] as Json[]) {
    limits.bearings = {
      mount: { boltAxis: 'longitudinal', maxMisalignment: 14 },
      chassis: { boltAxis: 'longitudinal', maxMisalignment: 14 },
    };
  }
};
const all = (change: (document: Json) => void = () => {}) =>
  sized((document) => {
    everything(document);
    change(document);
  });

/** Figures without a value: of the car, and of its front axle. */
function open({ figures, axles }: ReturnType<typeof all>): string[] {
  return [...figures, ...axles[0].figures].filter(({ value }) => value === null).map(({ name }) => name);
}

const DAMPING = [
  'meanDamping',
  'compressionDamping',
  'reboundDamping',
  'dampingRatioAtDroop',
  'staticDampingRatio',
  'dampingRatioAtBump',
  'wheelHopDampingRatio',
];
const BY_FREE_LENGTH = [
  'springTravelMargin',
  'freeLength',
  'staticSpringLength',
  'perchSetting',
  'springTravelRequired',
];

describe('what is not given leaves open what hangs on it, and nothing else', () => {
  it('where all is given nothing is open', () => {
    expect(open(all())).toEqual([]);
  });

  it.each<[string, (front: Json, document: Json) => void, string[]]>([
    [
      'the rate of the tyre',
      ({ sizing }) => delete sizing.tyreRate,
      ['frequencyWithTyre', 'rideRate', 'wheelHopDampingRatio'],
    ],
    ['the damping', ({ sizing }) => delete sizing.damping, DAMPING],
    ['the helper', ({ sizing }) => delete sizing.helper, ['helperSolidTravel']],
    ['the pitch of the perch', ({ sizing }) => delete sizing.perch.threadPitch, ['rideHeightPerTurn']],
    ['the units', ({ sizing }) => delete sizing.unitMass, ['massSaving', 'unsprungMassSaving']],
    ['the old unit', ({ sizing }) => delete sizing.unitMass.replaced, ['massSaving', 'unsprungMassSaving']],
    [
      'the bar',
      ({ sizing }) => delete sizing.antiRollBarStiffness,
      ['rollStiffnessWithBar', 'leftRightHeightDifferenceWithBar'],
    ],
    ['the third spring', (front) => delete front.thirdSpring, ['thirdSpringLoad', 'thirdSpringWheelRate']],
    ['the roll spring', (front) => delete front.rollSpring, ['rollSpringStiffness']],
    [
      'the springs to be had',
      ({ sizing }) => delete sizing.springs,
      BY_FREE_LENGTH.filter((name) => name !== 'springTravelRequired'),
    ],
    [
      'downforce',
      (_, document) => delete document.downforce,
      ['topSpeedDownforce', 'topSpeedRideHeightLoss', 'topSpeedBumpTravelLeft', 'topSpeedFrequency'],
    ],
    [
      'the height of the centre',
      (_, document) => delete document.masses.sprungCentreOfGravityHeight,
      ['innerWheelTravel', 'outerWheelTravel', 'rollGradient', 'rollGradientWithBars'],
    ],
  ])('%s', (_, take, hanging) => {
    const changed = all((document) => take(document.corners.front, document));
    expect(open(changed).sort()).toEqual([...hanging].sort());
  });

  it('the masses: what is borne by the coilover', () => {
    const bare = all((document) => delete document.masses);
    const [front] = bare.axles;
    for (const name of [
      'designLength',
      'installationRatio',
      'extendedLength',
      'stroke',
      'bumpTravelAvailable',
      'unitUnsprungFraction',
      'rollCentreHeight',
      'gasForce',
      'unsprungMass',
      'massSaving',
    ]) {
      // The gas is told as far as it is carried.
      if (name === 'gasForce') continue;
      valueIn(front, name);
    }
    for (const name of [
      'springRate',
      'preload',
      'frequency',
      'rollStiffness',
      'meanDamping',
      'leftRightHeightDifference',
      'sprungMass',
      'helperSolidTravel',
    ] as const) {
      expect(front.figure(name).value).toBeNull();
    }
    expect([front.spring, front.curves, front.forces, front.perch]).toEqual([null, null, null, null]);
    expect([front.rateTable, front.dampingTable]).toEqual([[], []]);
  });
});

describe('figures by their definitions', () => {
  const car = all();
  it('the frequency on the tyre is that of the rates in series', () => {
    for (const axle of car.axles) {
      const [k, m, t] = [valueIn(axle, 'wheelRate'), valueIn(axle, 'sprungMass'), 200];
      const both = 1 / (1 / k + 1 / t);
      expectClose(valueIn(axle, 'rideRate'), both, { times: 16, scale: both });
      const f = Math.sqrt((1000 * both) / m) / (2 * Math.PI);
      expectClose(valueIn(axle, 'frequencyWithTyre'), f, { times: 16, scale: f });
      const [c, ratio, u] = [valueIn(axle, 'meanDamping'), valueIn(axle, 'installationRatio'), 30];
      const rest = axle.curves?.at(valueIn(axle, 'staticTravel')) ?? {};
      const R = rest.installationRatio ?? ratio;
      const hop = (c * R * R) / (2 * Math.sqrt((k + t) * 1000 * u));
      expectClose(valueIn(axle, 'wheelHopDampingRatio'), hop, { times: 64, scale: hop });
    }
  });

  it('the rear by the front, the share in front, what a side is lower by', () => {
    const [front, rear] = car.axles;
    const [f, r] = [front, rear].map((axle) => valueIn(axle, 'frequency'));
    expectClose(valueIn(car, 'frequencyRatio'), r / f, { times: 4, scale: 1 });
    expectClose(valueIn(car, 'frontFraction'), 0.48, { times: 8, scale: 1 });
    const uneven = all((document) => {
      document.masses.estimate.leftFraction = 0.52;
      // Springs between both wheels have another rate in roll.
      delete document.corners.front.thirdSpring;
      delete document.corners.front.rollSpring;
    });
    const [axle] = uneven.axles;
    const [left, right] = [valueIn(axle, 'leftWheelMass'), valueIn(axle, 'rightWheelMass')];
    expectClose(left / (left + right), 0.52, { times: 8, scale: 1 });
    const lower = ((left - right) * GRAVITY) / valueIn(axle, 'wheelRate');
    expectClose(valueIn(axle, 'leftRightHeightDifference'), lower, { times: 16, scale: Math.abs(lower) });
  });

  it('a spring is compressed from free: at rest, fully open, at the end of bump', () => {
    const [axle] = car.axles;
    const stiffness = { main: 26, helper: 4 };
    const whole = valueIn(axle, 'freeLength');
    expectWithin(whole, 260 + 60 + 5, 1e-9);
    const atRest = valueIn(axle, 'staticSpringCompression');
    expectClose(valueIn(axle, 'staticSpringLength'), whole - atRest, { times: 8, scale: whole });
    // The helper is shut by 40 mm at 160 N; the main spring goes on alone from there.
    const force = 4 * 40 + stiffness.main * (atRest - 40 - (4 * 40) / stiffness.main);
    expectClose(valueIn(axle, 'staticSpringForce'), force, { times: 64, scale: force });
    expectClose(valueIn(axle, 'staticAxialForce'), force + 150, { times: 64, scale: force });
    expectWithin(
      valueIn(axle, 'springTravelMargin') + valueIn(axle, 'springTravelRequired'),
      260 - 90 + 40,
      1e-9,
    );
    expectClose(
      valueIn(axle, 'preload'),
      atRest -
        (valueIn(axle, 'extendedLength') - (axle.curves?.at(valueIn(axle, 'staticTravel')).shockLength ?? 0)),
      { times: 64, scale: 500 },
    );
  });
});

describe('at the end of bump', () => {
  const [axle] = all().axles;
  const [bare] = all((document) => delete document.corners.front.sizing.bumpStopTable).axles;
  const end = axle.curves?.end.bump.travel ?? Number.NaN;
  const pose = axle.curves?.at(end) ?? {};
  it('the stop bears what its table says, by the ratio there', () => {
    // Touched at 350 + 40 mm between the eyes; 3000 N at 20 mm, and 250 N/mm on from there.
    const pressed = 390 - (pose.shockLength ?? 0);
    expect(pressed).toBeGreaterThan(20);
    const force = (3000 + 250 * (pressed - 20)) * (pose.installationRatio ?? 0);
    expectWithin((pose.wheelLoad ?? 0) - (bare.curves?.at(end).wheelLoad ?? 0), force, 1e-9 * force);
  });

  it('the spring is shorter by what the shock is since rest', () => {
    const rest = axle.curves?.at(valueIn(axle, 'staticTravel')).shockLength ?? Number.NaN;
    const needed = valueIn(axle, 'staticSpringCompression') + rest - (pose.shockLength ?? 0);
    expectWithin(valueIn(axle, 'springTravelRequired'), needed, 1e-9 * needed);
  });

  it('top speed is the last of the speeds', () => {
    expectWithin(valueIn(axle, 'topSpeedDownforce'), (600 * (200 / 160) ** 2 * 0.4) / 2, 1e-9);
    expectWithin(
      axle.speedRows[axle.speedRows.length - 1].downforce,
      valueIn(axle, 'topSpeedDownforce'),
      1e-12,
    );
  });
});

describe('coordinates that are unsure', () => {
  const inner = (document: Json, plusMinus: number) => {
    document.corners.front.lowerArm.inner = [{ value: 255, plusMinus }, 165];
  };
  it('give the lengths of their own axle the intervals that bands have, and no other axle any', () => {
    const document = car((one) => {
      everything(one);
      inner(one, 0.5);
    });
    const { corner } = readCar(document).corners.front;
    const { travel, columns } = uncertaintyBands(corner, undefined, { bump: 10, droop: 10, step: 10 });
    const ride = travel.indexOf(0);
    const [front, rear] = all((one) => inner(one, 0.5)).axles;
    for (const [name, column] of [
      ['designLength', 'shockLength'],
      ['installationRatio', 'installationRatio'],
    ] as const) {
      const { value, lower, upper, contributions } = front.figure(name);
      const width = columns[column][ride] as number;
      // The interval takes the input to both its ends, the band its exact slope: they part by curvature.
      expectWithin(((upper as number) - (lower as number)) / 2, width, 1e-5 * width + 1e-9);
      expectWithin(value, ((upper as number) + (lower as number)) / 2, 2e-3 * width + 1e-9);
      if (width > 1e-6)
        expect(contributions.map(({ input }) => input)).toEqual(['corners.front lowerInnerY']);
      const other = rear.figure(name);
      expect([other.lower, other.upper]).toEqual([other.value, other.value]);
    }
    expect(front.figure('staticSpringForce').contributions.length).toBeGreaterThan(0);
  });
});

describe('what is taken for granted, and what is open', () => {
  const said = (change: (document: Json) => void = () => {}) => {
    const { assumptions, openQuestions } = all(change);
    return [...assumptions, ...openQuestions];
  };
  it.each<[string, (document: Json) => void, code: string, values: object]>([
    [
      'travel cases',
      (document) => delete document.travelCases,
      'travelCasesAssumed',
      { lateralAcceleration: 1, deceleration: 1, roadBump: 40, roadDip: 40, margin: 5 },
    ],
    [
      'one travel case',
      (document) => delete document.travelCases.margin,
      'travelCasesAssumed',
      { margin: 5 },
    ],
    [
      'steps of rates',
      (document) => delete document.corners.front.sizing.rateStep,
      'rateStepAssumed',
      { axle: 'front', rateStep: 5 },
    ],
    [
      'a damper',
      (document) => delete document.corners.rear.limits.damper,
      'damperFromTravel',
      { axle: 'rear' },
    ],
    [
      'the centre',
      (document) => delete document.masses.sprungCentreOfGravityHeight,
      'travelPartOmitted',
      { axle: 'front', part: 'roll', needs: 'centreOfGravityHeight', state: '' },
    ],
    ['masses', (document) => delete document.masses, 'massesMissing', {}],
    ...(
      [
        ['target', ({ sizing }) => delete sizing.target],
        ['tyreRate', ({ sizing }) => delete sizing.tyreRate],
        ['damping', ({ sizing }) => delete sizing.damping],
        ['bearings', ({ limits }) => delete limits.bearings],
        ['mounts', ({ sizing }) => delete sizing.order.mounts],
        ['bodyEnd', ({ sizing }) => delete sizing.order.bodyEnd],
        ['bodyDiameter', ({ sizing }) => delete sizing.order.bodyDiameter],
        ['adjusters', ({ sizing }) => delete sizing.order.adjusters],
        ['lengthTolerance', ({ sizing }) => delete sizing.order.lengthTolerance],
      ] satisfies [string, (front: Json) => void][]
    ).map(([name, take]): [string, (document: Json) => void, string, object] => [
      name,
      ({ corners }) => take(corners.front),
      'inputsMissing',
      { axle: 'front', missing: [name] },
    ]),
    [
      'springs',
      (document) => delete document.corners.rear.sizing.springs,
      'springLengthsOpen',
      { axle: 'rear' },
    ],
  ])('%s not given: it is said, and else it is not', (_, take, code, values) => {
    const one = expect.objectContaining({ code, severity: 'note', values });
    expect(said(take)).toContainEqual(one);
    expect(said()).not.toContainEqual(one);
  });

  it('estimated masses are to be weighed, downforce goes by its square', () => {
    const codes = (change?: (document: Json) => void) => said(change).map(({ code }) => code);
    expect(codes()).toContain('massesEstimated');
    expect(codes()).toContain('downforceWithSpeedSquared');
    expect(codes((document) => delete document.downforce)).not.toContain('downforceWithSpeedSquared');
    const text = 'The arch is not cut yet.';
    expect(said((document) => (document.openQuestions = [text]))).toContainEqual({
      code: 'ownQuestion',
      severity: 'note',
      path: 'openQuestions[0]',
      values: { text },
    });
  });

  it('each has its sentence', () => {
    const words = said((document) => {
      delete document.travelCases;
      delete document.corners.front.sizing.rateStep;
      delete document.corners.front.limits.bearings;
      delete document.masses.wheelbase;
    }).map((one) => sentence(one));
    expect(words).toEqual(
      expect.arrayContaining([
        'Travel cases from common practice, without a source: cornering at 1 g, braking at 1 g, a road bump of 40.0 mm, a dip of 40.0 mm, a margin of 5.0 mm.',
        'Front springs are taken to be available in steps of 5.0 N/mm (common practice).',
        'Not given yet at the front: end bearings.',
        'The required travel of the front axle does not count dive and lift under braking: that depends on the wheelbase; give masses.wheelbase.',
        'The masses are estimated; weigh the car on four scales when it stands, and run this again.',
      ]),
    );
  });
});

it('a document that was not read is told', () => {
  expect(() => sizeCoilovers(car() as never)).toThrow(/readCar/);
});

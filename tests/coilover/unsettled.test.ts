/** What an order leaves to be agreed: what, of which end, by whom, and whether it decides what is made. */
import { readCar, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { ENDS, holdOf, type Settled, unsettledOn } from '../../src/coilover/sizing/unsettled.ts';
import type { Json } from '../document/support.ts';
import { boughtFront } from './bought.ts';
import { car } from './cars.ts';

const eye = () => ({ type: 'eye', bore: 12, width: 30, spacers: 'none' });
const stud = () => ({
  type: 'stud',
  bore: 12,
  threadPitch: 1.25,
  referenceFace: 'the shoulder',
  fixing: 'nut and two washers',
});

/** A front axle of which the order says all there is to say. */
function settle(front: Json): void {
  front.limits.bearings = {
    mount: { boltAxis: 'longitudinal', maxMisalignment: 14 },
    chassis: { boltAxis: 'longitudinal', maxMisalignment: 14 },
  };
  Object.assign(front.sizing, {
    springs: [{ name: 'S', rate: 40, freeLength: 210, solidLength: 70, minLength: 75, innerDiameter: 60 }],
    perch: { min: 180, max: 320, threadPitch: 1.5 },
    gas: { shaftDiameter: 14, pressure: 1 },
    deadLength: 225,
    damping: { ratio: 0.3, compressionFraction: 0.4, kneeSpeed: 150 },
    bumpStopTable: [
      [10, 500],
      [20, 1500],
      [28, 3000],
    ],
    order: {
      quantity: 2,
      handed: 'alike',
      bodyEnd: 'up',
      mounts: { mount: eye(), chassis: eye() },
      bodyDiameter: 50,
      maxSpringOuterDiameter: 100,
      lengthAdjustment: 0,
      adjusters: 'none',
      reservoir: 'none',
      springSupplier: 'the maker',
      bumpStopSupplier: 'the maker',
      lengthTolerance: 1,
      rateTolerance: 0.03,
      forceTolerance: 0.1,
    },
  });
}

/** The same with a strut that is the coilover, clamped by its upright. */
function settleStrut(front: Json): void {
  settle(front);
  for (const part of ['upperArm', 'coilover']) delete front[part];
  Object.assign(front, {
    kind: 'strut',
    lowerArm: { inner: [330, 190], outer: [690, 172] },
    strut: { topMount: [560, 857], lowerMount: [641, 330] },
    wheel: { centre: [743, 298], camber: -0.5 },
  });
  front.limits = { bumpStop: front.limits.bumpStop, damper: { extendedLength: 610, compressedLength: 445 } };
  front.sizing.deadLength = 280;
  delete front.sizing.order.bodyEnd;
  front.sizing.order.mounts = {
    mount: { type: 'clamp', clampDiameter: 51 },
    chassis: { type: 'stud', bore: 14, threadPitch: 1.5, fixing: 'nut', bearing: 'ball bearing' },
  };
}

type Start = (front: Json) => void;
type Change = (front: Json) => void;

/** A car of one axle. */
function carOf(start: Start, change: Change) {
  return readCar(
    car((document) => {
      delete document.downforce;
      delete document.corners.rear;
      start(document.corners.front);
      change(document.corners.front);
    }),
  );
}

/** What is to be agreed, one a line, as "builder, essential: bore of mount". */
function linesOf(settled: Settled): string[] {
  return unsettledOn(settled).map(
    ({ item, end, who, essential }) =>
      `${who}, ${essential ? 'essential' : 'later'}: ${item}${end === undefined ? '' : ` of ${end}`}`,
  );
}

type Case = readonly [what: string, expected: readonly string[], change: Change];

/** Cases in which the order says something else, and the sizing stays. */
function written(start: Start, cases: readonly Case[]): void {
  const axle = sizeCoilovers(carOf(start, () => {})).axles[0];
  it.each(cases)('%s', (_, expected, change) => {
    expect(linesOf({ ...axle, input: carOf(start, change).corners.front })).toEqual(expected);
  });
}

/** Cases that are sized. */
function sized(start: Start, cases: readonly Case[]): void {
  it.each(cases)('%s', (_, expected, change) => {
    expect(linesOf(sizeCoilovers(carOf(start, change)).axles[0])).toEqual(expected);
  });
}

const inOrder =
  (change: (order: Json) => void): Change =>
  ({ sizing }) =>
    change(sizing.order);
const inSizing =
  (change: (sizing: Json) => void): Change =>
  ({ sizing }) =>
    change(sizing);
const onSpring = (change: (spring: Json) => void) => inSizing(({ springs }) => change(springs[0]));
const withStud = (change: (stud: Json) => void) =>
  inOrder(({ mounts }) => {
    mounts.chassis = stud();
    change(mounts.chassis);
  });

describe('what an order of a double wishbone leaves to be agreed', () => {
  sized(settle, [
    ['nothing, where it says all', [], () => {}],
    [
      'all, where a corner has no sizing',
      [
        'builder, essential: end of mount',
        'builder, essential: boltAxis of mount',
        'builder, essential: end of chassis',
        'builder, essential: boltAxis of chassis',
        'builder, essential: spring',
        'builder, essential: handed',
        'builder, essential: bodyEnd',
        'builder, essential: valving',
        'builder, essential: quantity',
        'builder, essential: maxSpringOuterDiameter',
        'maker, essential: strokeFits',
        'maker, essential: lengthTolerance',
        'maker, essential: bodyDiameter',
        'maker, essential: lengthAdjustment',
        'maker, essential: adjusters',
        'maker, essential: reservoir',
        'builder and maker, essential: gasForce',
        'maker, essential: shaftDiameter',
        'maker, essential: perchRange',
        'maker, essential: perchPitch',
        'maker, later: bumpStopTable',
        'maker, later: bumpStopSupplier',
      ],
      (front) => {
        delete front.sizing;
        delete front.limits.bearings;
      },
    ],
    [
      'the lengths, where the spring is too soft for the car to stand',
      ['builder, essential: lengths', 'builder, essential: valving'],
      ({ limits, sizing }) => {
        delete limits.damper;
        sizing.springs[0].rate = 2;
      },
    ],
    [
      'the stroke of a damper that follows from the travel',
      ['maker, essential: strokeFits'],
      ({ limits }) => delete limits.damper,
    ],
    [
      'the spring, of which only a rate is known',
      [
        'builder and maker, essential: freeLength',
        'spring maker, essential: solidLength',
        'spring maker, essential: minLength',
        'maker, essential: innerDiameter',
      ],
      inSizing((sizing) => delete sizing.springs),
    ],
    [
      'spring and valving, and no tolerance of what is not known',
      ['builder, essential: spring', 'builder, essential: valving'],
      inSizing((sizing) => {
        for (const what of ['springs', 'target']) delete sizing[what];
        for (const what of ['rateTolerance', 'forceTolerance', 'springSupplier']) delete sizing.order[what];
      }),
    ],
    [
      'the solid length',
      ['spring maker, later: solidLength'],
      onSpring((spring) => delete spring.solidLength),
    ],
    [
      'an estimated minimum length',
      ['spring maker, later: minLength'],
      onSpring((spring) => delete spring.minLength),
    ],
    [
      'an assumed minimum length and the inner diameter',
      ['maker, essential: innerDiameter', 'spring maker, later: minLength'],
      onSpring((spring) => {
        delete spring.minLength;
        delete spring.innerDiameter;
      }),
    ],
    ['the valving', ['builder, essential: valving'], inSizing((sizing) => delete sizing.damping)],
    [
      'compression against rebound, and the knee',
      ['maker, essential: highSpeedForces', 'builder and maker, essential: compressionFraction'],
      inSizing((sizing) => (sizing.damping = { ratio: 0.3 })),
    ],
  ]);

  written(settle, [
    [
      'both ends',
      ['builder, essential: end of mount', 'builder, essential: end of chassis'],
      inOrder((order) => delete order.mounts),
    ],
    ['an end', ['builder, essential: end of chassis'], inOrder(({ mounts }) => delete mounts.chassis)],
    ['a bore', ['builder, essential: bore of mount'], inOrder(({ mounts }) => delete mounts.mount.bore)],
    [
      'a width',
      ['builder, essential: width of chassis'],
      inOrder(({ mounts }) => delete mounts.chassis.width),
    ],
    [
      'spacers',
      ['builder, essential: spacers of mount'],
      inOrder(({ mounts }) => delete mounts.mount.spacers),
    ],
    [
      'the axis of a bolt',
      ['builder, essential: boltAxis of mount'],
      ({ limits }) => delete limits.bearings.mount,
    ],
    [
      'the axes of both bolts',
      ['builder, essential: boltAxis of mount', 'builder, essential: boltAxis of chassis'],
      ({ limits }) => delete limits.bearings,
    ],
    ['nothing of a clevis', [], inOrder(({ mounts }) => (mounts.mount.type = 'clevis'))],
    ['nothing of a stud that is described', [], withStud(() => {})],
    ['the thread of a stud', ['builder, essential: thread of chassis'], withStud((one) => delete one.bore)],
    ['its pitch', ['builder, essential: threadPitch of chassis'], withStud((one) => delete one.threadPitch)],
    [
      'its face',
      ['builder, essential: referenceFace of chassis'],
      withStud((one) => delete one.referenceFace),
    ],
    ['its nut', ['builder, later: fixing of chassis'], withStud((one) => delete one.fixing)],
    [
      'its nut after what is essential',
      ['maker, essential: reservoir', 'builder, later: fixing of chassis'],
      inOrder((order) => {
        const { fixing: _, ...rest } = stud();
        order.mounts.chassis = rest;
        delete order.reservoir;
      }),
    ],
    ['left and right', ['builder, essential: handed'], inOrder((order) => delete order.handed)],
    ['the end of the body', ['builder, essential: bodyEnd'], inOrder((order) => delete order.bodyEnd)],
    [
      'the bump stop',
      ['builder, essential: bumpStop'],
      (front) => {
        delete front.limits.bumpStop;
        delete front.sizing.order.bumpStopSupplier;
      },
    ],
    ['the quantity', ['builder, essential: quantity'], inOrder((order) => delete order.quantity)],
    [
      'the room for the spring',
      ['builder, essential: maxSpringOuterDiameter'],
      inOrder((order) => delete order.maxSpringOuterDiameter),
    ],
    [
      'whether the stroke fits',
      ['maker, essential: strokeFits'],
      inSizing((sizing) => delete sizing.deadLength),
    ],
    [
      'the tolerances',
      [
        'maker, essential: lengthTolerance',
        'maker, essential: rateTolerance',
        'maker, essential: forceTolerance',
      ],
      inOrder((order) => {
        for (const what of ['length', 'rate', 'force']) delete order[`${what}Tolerance`];
      }),
    ],
    ['the body', ['maker, essential: bodyDiameter'], inOrder((order) => delete order.bodyDiameter)],
    [
      'a length to be set',
      ['maker, essential: lengthAdjustment'],
      inOrder((order) => delete order.lengthAdjustment),
    ],
    ['adjusters', ['maker, essential: adjusters'], inOrder((order) => delete order.adjusters)],
    ...['rebound', 'two, and none of them by hand', 'nonesuch'].map(
      (adjusters): Case => [
        `the setting of adjusters: ${adjusters}`,
        ['maker, essential: adjusterSetting'],
        inOrder((order) => Object.assign(order, { adjusters })),
      ],
    ),
    ...['None, please', ' none'].map(
      (adjusters): Case => [
        `no setting of adjusters: ${adjusters}`,
        [],
        inOrder((order) => Object.assign(order, { adjusters })),
      ],
    ),
    [
      'no setting of adjusters that is given',
      [],
      inOrder((order) => Object.assign(order, { adjusters: 'rebound', adjusterSetting: 'closed' })),
    ],
    ['the reservoir', ['maker, essential: reservoir'], inOrder((order) => delete order.reservoir)],
    [
      'the gas',
      ['builder and maker, essential: gasForce', 'maker, essential: shaftDiameter'],
      inSizing((sizing) => (sizing.gas = { force: 150 })),
    ],
    [
      'the gas, not given at all',
      ['builder and maker, essential: gasForce', 'maker, essential: shaftDiameter'],
      inSizing((sizing) => delete sizing.gas),
    ],
    [
      'the pressure of the gas',
      ['builder and maker, essential: gasForce'],
      inSizing((sizing) => (sizing.gas = { force: 150, shaftDiameter: 14 })),
    ],
    [
      'the perch',
      ['maker, essential: perchRange', 'maker, essential: perchPitch'],
      inSizing((sizing) => delete sizing.perch),
    ],
    [
      'the lower end of the perch',
      ['maker, essential: perchRange'],
      inSizing(({ perch }) => delete perch.min),
    ],
    [
      'the upper end of the perch',
      ['maker, essential: perchRange'],
      inSizing(({ perch }) => delete perch.max),
    ],
    [
      'the forces of the bump stop',
      ['maker, later: bumpStopTable'],
      inSizing((sizing) => delete sizing.bumpStopTable),
    ],
    [
      'its force where it is solid',
      ['maker, later: bumpStopSolidForce'],
      inSizing(({ bumpStopTable }) => (bumpStopTable[2][0] = 27.9)),
    ],
    [
      'nothing of a stop whose table goes on beyond',
      [],
      inSizing(({ bumpStopTable }) => (bumpStopTable[2][0] = 28.1)),
    ],
    [
      'who supplies what, after what is essential',
      ['maker, essential: reservoir', 'maker, later: bumpStopSupplier', 'maker, later: springSupplier'],
      inOrder((order) => {
        for (const what of ['bumpStopSupplier', 'springSupplier', 'reservoir']) delete order[what];
      }),
    ],
  ]);
});

describe('what the order of a strut leaves to be agreed', () => {
  written(settleStrut, [
    ['nothing, where it says all', [], () => {}],
    [
      'how it is held, with the bearing at its top',
      [
        'builder, essential: end of mount',
        'builder, essential: end of chassis',
        'builder, essential: topBearing',
      ],
      inOrder((order) => delete order.mounts),
    ],
    [
      'the bearing',
      ['builder, essential: topBearing'],
      inOrder(({ mounts }) => delete mounts.chassis.bearing),
    ],
    [
      'the diameter in its clamp',
      ['builder, essential: clampDiameter of mount'],
      inOrder(({ mounts }) => delete mounts.mount.clampDiameter),
    ],
    ['no diameter where it is welded', [], inOrder(({ mounts }) => (mounts.mount = { type: 'weldOn' }))],
    [
      'the bolt of an eye',
      ['builder, essential: boltAxis of mount'],
      inOrder(({ mounts }) => (mounts.mount = eye())),
    ],
  ]);
});

describe('what is left of a bought coilover', () => {
  const { revision, date, valving } = boughtFront();
  const bought = (parts: Json) => (front: Json) => {
    delete front.sizing.damping;
    front.ordered = { revision, date, ...parts };
  };
  sized(settle, [
    ['nothing of its valving', [], bought({ valving })],
    [
      'its forces at high speed, without a knee',
      ['maker, essential: highSpeedForces'],
      bought({ valving: { compressionDamping: 1711, reboundDamping: 2533 } }),
    ],
    [
      'its forces, where only the damper was bought',
      ['maker, essential: highSpeedForces', 'builder and maker, essential: compressionFraction'],
      (front) => {
        front.sizing.damping = { ratio: 0.3 };
        front.ordered = { revision, date, damper: boughtFront().damper };
      },
    ],
    [
      'nothing of its force table',
      [],
      bought({
        valving: {
          forceTable: [
            [50, 100, 150],
            [150, 250, 400],
          ],
        },
      }),
    ],
  ]);
});

describe('an end of which nothing is said', () => {
  it('is held by a bolt; of a strut by the upright and by the nut at its top', () => {
    const held = (start: Start) => {
      const { front } = carOf(
        start,
        inOrder((order) => delete order.mounts),
      ).corners;
      return ENDS.map((end) => holdOf(front, end));
    };
    expect(held(settle)).toEqual(['bolt', 'bolt']);
    expect(held(settleStrut)).toEqual(['upright', 'nut']);
  });
});

describe('the status', () => {
  it('is that of an order where nothing essential is left, bought with the damper', () => {
    const statusOf = (change: Change) => sizeCoilovers(carOf(settle, change)).status;
    expect(statusOf(() => {})).toBe('order');
    expect(statusOf(inOrder((order) => delete order.springSupplier))).toBe('order');
    expect(statusOf(inOrder((order) => delete order.reservoir))).toBe('enquiry');
    const { damper, perch } = boughtFront();
    expect(statusOf((front) => (front.ordered = { damper }))).toBe('bought');
    expect(statusOf((front) => (front.ordered = { perch }))).toBe('order');
  });
});

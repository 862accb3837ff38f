import type { Quantity } from '../units.ts';
import type { Words } from './plain.ts';
import type { Say, Sentences } from './say.ts';

/** What a number is, of which a range is usual. */
const WHAT: Readonly<Record<string, string>> = {
  wheelbase: 'distance between the axles',
  length: 'length',
  pivotDistance: "distance from the rocker's pivot",
  mountDistance: 'distance between the mounts',
  endDistance: 'distance between the ends',
  height: 'height above the ground',
  centrelineDistance: 'distance from the centreline',
  archDistance: 'distance from centreline or ground',
  freeHeight: 'free height',
  travel: 'travel',
  radius: 'radius',
  width: 'width',
  bore: 'bore',
  diameter: 'diameter',
  threadPitch: 'travel of the perch per turn',
  freeLength: 'free length',
  leverLength: 'length of the lever',
  linkLength: 'length of the drop link',
  torsionLength: 'length in torsion',
  innerDiameter: 'inner diameter',
  tyreRate: 'rate of a tyre',
  wheelRate: 'wheel rate',
  springRate: 'spring rate',
  unsprungMass: 'unsprung mass of one corner',
  sprungMass: 'sprung mass of one corner',
};

/** A value outside its range: `unusual length`, with the range that is usual. */
function unusual(say: Say, quantity: Quantity): Words {
  const unit = say.unit(quantity);
  return {
    problem: `unusual ${WHAT[say.text('what')]}`,
    got: `${say.short('value', quantity)} ${unit}`,
    usual: `${say.short('least', quantity, 2)} to ${say.short('most', quantity, 2)} ${unit}`,
  };
}

function rangeOf(quantity: Quantity): (say: Say) => Words {
  return (say) => ({
    ...unusual(say, quantity),
    advice: `check the digits and the decimal point${say.has('unit') ? `; was it measured in ${say.text('unit')}? It was read in ${say.plural(quantity)}` : ''}`,
  });
}

/** `check it, or the unit: kg?` */
function unitAsked(say: Say, advice: string): string {
  return say.has('unit') ? `${advice}; is it in ${say.text('unit')}?` : advice;
}

const SIGN = 'check its sign';

/** What is said about inputs that look wrong; they are used as they are written. */
export const CHECKS: Sentences = {
  rightHandCorner: {
    problem:
      'a right-hand corner (y is negative): it was mirrored, and is treated as a left-hand corner, y outboard',
  },
  wheelOnOtherSide: (say) => ({
    problem: 'the wheel lies on the other side of the car than most points',
    got: say.point('y', 'z'),
    advice: `${SIGN}; the side with the wheel is taken as outboard`,
  }),
  pointOnOtherSide: (say) => ({
    problem: 'it lies on the other side of the car than the wheel',
    got: say.point('y', 'z'),
    advice: SIGN,
  }),
  coiloverAcrossCentreline: (say) => ({
    problem: 'the coilover crosses the centreline, into the space of the coilover on the other side',
    got: `${say.length('by')} across`,
    advice: SIGN,
  }),
  pointBelowGround: (say) => ({
    problem: 'below the ground',
    got: `z = ${say.length('z')}`,
    advice: SIGN,
  }),
  allCoordinatesExchanged: (say) => ({
    problem: 'y and z seem to be exchanged in all points: every arm is steeper than 45 deg',
    got: `the wheel centre at ${say.point('y', 'z')}, higher above the ground than far from the centreline`,
    advice: 'write [y, z]: outboard first, then up',
  }),
  coordinatesExchanged: (say) => ({
    problem: 'y and z seem to be exchanged',
    got: `${say.point('y', 'z')}, higher above the ground than far from the centreline`,
    advice: 'write [y, z]: outboard first, then up',
  }),
  armsExchanged: (say) => ({
    problem: 'upperArm and lowerArm seem to be exchanged: both ends of the upper arm are the lower ones',
    got: `its ball joint ${say.length('below')} below that of lowerArm`,
    advice: 'exchange the two arms',
  }),
  outerPointsExchanged: (say) => ({
    problem: 'the outer points, or the arms, seem to be exchanged',
    got: `its ball joint ${say.length('below')} below that of lowerArm`,
    advice: 'exchange the two outer points, or the two arms',
  }),
  armEndsExchanged: () => ({
    problem: 'inner and outer seem to be exchanged',
    got: 'its outer point nearer to the centreline than its inner one',
    advice: 'exchange the two points',
  }),
  endsExchanged: (say) => ({
    problem: 'the two ends seem to be exchanged',
    got: `its ${say.text('one')} ${say.text('lies') === 'below' ? 'below' : 'nearer to the centreline than'} its ${say.text('another')}`,
    advice: 'exchange the two points',
  }),
  wheelInboardOfJoints: (say) => ({
    problem: `the wheel centre lies inboard of ${say.number('joints') > 1 ? 'both ball joints' : 'the ball joint'}`,
    got: `${say.length('by')} inboard`,
    advice: 'check the point',
  }),
  mountBeyondJoint: (say) => ({
    problem: `it lies beyond the ball joint of ${say.text('part')}, on which it is mounted`,
    got: `${say.length('by')} beyond`,
    advice: 'check the point',
  }),
  mountOffPart: (say) => ({
    problem: `it lies off ${say.text('part')}, on which it is mounted`,
    got: `${say.length('by')} away`,
    advice: 'check the point, and the part that it is on',
  }),
  unitsWrong: (say) => ({
    problem: `sizes that no car has: the file was read in ${say.plural('length')}`,
    got: sizes(say),
    advice: `if it was measured in ${say.text('unit')}, write ${remedy(say)}`,
  }),
  sizeUnusual: rangeOf('length'),
  rateUnusual: rangeOf('rate'),
  massUnusual: rangeOf('mass'),
  sprungMassUnusual: (say) => ({
    ...unusual(say, 'mass'),
    advice: `check that it is the mass on one corner, in ${say.unit('mass')}`,
  }),
  tyreDiameterForRadius: (say) => ({
    problem: 'an unusual radius of a tyre, near twice the height of the wheel centre',
    got: `${say.length('radius')}, with the wheel centre ${say.length('loaded')} above the ground`,
    advice: `if it is the diameter, write ${say.short('half', 'length')}`,
  }),
  overallRadiusNotAboveLoaded: (say) => ({
    problem: `the overall radius of the tyre is ${say.is('isLess') ? 'less than' : 'equal to'} its loaded radius`,
    got: `${say.length('overall')}, with the wheel centre ${say.length('loaded')} above the ground`,
    advice:
      'give the radius without load; the height of the wheel centre is the loaded radius, measured with the wheel on the ground under the weight of the car',
  }),
  frequencyPerMinute: (say) => ({
    problem: 'an unusual frequency',
    got: `${say.short('frequency', 'frequency')} Hz`,
    usual: '8 Hz at most',
    advice: `if it is in cycles per minute, write ${say.short('perSecond', 'frequency')}`,
  }),
  frequencyUnusual: (say) => ({
    problem: 'an unusual frequency',
    got: `${say.short('frequency', 'frequency')} Hz`,
    usual: `${say.short('least', 'frequency')} to ${say.short('most', 'frequency')} Hz`,
    advice: 'check the number',
  }),
  camberUnusual: (say) => ({
    problem: 'an unusual camber',
    got: `${say.short('camber', 'angle')} deg`,
    usual: `${say.short('most', 'angle')} deg at most, either way`,
    advice: 'check the number',
  }),
  camberSignReversed: (say) => ({
    problem: 'the sign of camber seems to be reversed: top outboard is positive',
    got: `${say.short('camber', 'angle')} deg, where centre and contact patch give ${say.short('drawn', 'angle')}`,
    advice: SIGN,
  }),
  camberAgainstContactPatch: (say) => ({
    problem: 'camber and contact patch contradict each other',
    got: `${say.short('camber', 'angle')} deg, where centre and contact patch give ${say.short('drawn', 'angle')}`,
    advice:
      'measure again, or leave one out; until then the load acts at the contact patch, and the camber is shown as given',
  }),
  contactPatchOffGround: (say) => ({
    problem: 'the contact patch is off the ground',
    got: `z = ${say.length('z')}`,
    usual: '0: heights are measured from the ground',
    advice: 'check the height',
  }),
  pointCopied: (say) => ({
    problem: `in the same place as ${say.text('of')}`,
    advice: 'check whether it was copied and not changed',
  }),
  mountOnPivot: (say) => ({
    problem: `it lies on the pivot of ${say.text('pivot')}, on which it is mounted: the wheel moves without moving the ${say.text('moved')}`,
    advice: 'check the point',
  }),
  dropLinkLeans: (say) => ({
    problem: 'the drop link leans far from vertical: little of its movement turns the lever',
    got: `${say.short('lean', 'angle')} deg`,
    usual: `${say.short('most', 'angle')} deg at most`,
    advice: 'check linkMount and leverEnd',
  }),
  barStifferThanItsDiameter: (say) => ({
    problem: 'the bar is stiffer than its diameter and length allow',
    got: `${say.short('stiffness', 'rollStiffness')} ${say.unit('rollStiffness')}`,
    usual: `${say.short('most', 'rollStiffness')} ${say.unit('rollStiffness')} at most: bends, links, levers and bushes make it softer`,
    advice: 'check the stiffness, the diameter and the length; the stiffness is taken',
  }),
  scaleReadingOff: (say) => ({
    problem: 'one scale reads far from the others',
    got: say.mass('reading'),
    usual: `${say.mass('others')}, the middle one of the other three`,
    advice: 'check for a digit missing or too many',
  }),
  partsIncomplete: (say) => ({
    problem: 'the parts add up to less than a whole car',
    got: `${say.mass('total')} in ${say.text('count')} parts`,
    usual: `${say.mass('least', 2)} or more`,
    advice: unitAsked(say, 'check for a missing part'),
  }),
  totalMassUnusual: (say) => ({
    problem: 'an unusual mass of the whole car',
    got: say.mass('total'),
    usual: `${say.mass('least', 2)} to ${say.mass('most', 2)}`,
    advice: unitAsked(say, 'check the number'),
  }),
  massTooSure: (say) => ({
    problem: 'an estimate as certain as a weighing',
    got: `${say.mass('total')} ± ${say.mass('plusMinus')}`,
    usual: `± ${say.mass('usual', 2)} or more for an estimate`,
    advice: 'give scales if the car was weighed; else a wider plusMinus',
  }),
  surveyUnitsWrong: (say) => ({
    problem: `a length that no suspension corner has: the file was read in ${say.plural('length')}`,
    got: `${say.length('largest')}, the largest`,
    advice: `if it was measured in ${say.text('unit')}, write ${remedy(say)}`,
  }),
  readingInOtherUnit: (say) => ({
    problem: 'a reading far from the first estimates',
    got: say.length('value'),
    usual: `${say.length('estimated', 3)} between the first estimates`,
    advice: `if it was read in ${say.text('unit')}, convert it`,
  }),
  angleFromOtherAxis: (say) => {
    const [from, other] = say.is('isLean') ? ['vertical', 'horizontal'] : ['horizontal', 'vertical'];
    return {
      problem: 'an angle far from the first estimates',
      got: `${say.short('value', 'angle')} deg from ${from}`,
      usual: `${say.short('estimated', 'angle', 3)} deg between the first estimates`,
      advice: `if it was read from ${other}, write ${say.short('complement', 'angle')} with its sign`,
    };
  },
};

/** `lowerArm 647 in, wheel.centre 312 in`. */
function sizes(say: Say): string {
  const [lengths, what] = [say.lengths('sizes'), say.list('what')];
  return say
    .list('paths')
    .map((path, k) => `${path} ${lengths[k]} (${WHAT[what[k]]})`)
    .join(', ');
}

/** What to write for a file whose numbers are in another unit. */
function remedy(say: Say): string {
  const unit = say.text('unit');
  if (unit === 'inches') return '"units": "imperial"';
  if (unit === 'mm') return '"units": "metric"';
  return `them in ${say.plural('length')}`;
}

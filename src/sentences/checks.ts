import type { Quantity } from '../units.ts';
import type { Words } from './plain.ts';
import type { Say, Sentences } from './say.ts';

const AS_WRITTEN = 'It was read as written.';
const BOTH_AS_WRITTEN = 'They were read as written.';

/** What a number is, after it and its unit. */
const WHAT: Readonly<Record<string, string>> = {
  wheelbase: 'between the axles',
  length: 'long',
  pivotDistance: "from the rocker's pivot",
  mountDistance: 'between its mounts',
  endDistance: 'between its ends',
  height: 'above the ground',
  centrelineDistance: 'from the centreline',
  archDistance: 'at most from centreline or ground',
  freeHeight: 'high',
  travel: 'of travel',
  radius: 'of radius',
  width: 'wide',
  bore: 'of bore',
  diameter: 'across',
  threadPitch: 'per turn of the perch',
  freeLength: 'of free length',
  innerDiameter: 'of inner diameter',
  tyreRate: 'for a tyre',
  wheelRate: 'at the wheel',
  springRate: 'for a spring',
  unsprungMass: 'unsprung at one corner',
  sprungMass: 'on one corner',
};

/** A value outside its range: `375 in long, where 3.9 to 35 in is usual`. */
function unusual(say: Say, quantity: Quantity): string {
  const unit = say.unit(quantity);
  const range = `${say.short('least', quantity, 2)} to ${say.short('most', quantity, 2)}`;
  return `${say.short('value', quantity)} ${unit} ${WHAT[say.text('what')]}, where ${range} ${unit} is usual`;
}

function rangeOf(quantity: Quantity): (say: Say) => Words {
  return (say) => {
    const guess = `${say.has('unit') ? `${say.text('unit')}, or ` : ''}a digit or a point too many?`;
    return { problem: `${unusual(say, quantity)}: ${guess} It was read in ${say.plural(quantity)}.` };
  };
}

/** `Is it in kg?` */
function unitAsked(say: Say): string {
  return say.has('unit') ? ` Is it in ${say.text('unit')}?` : '';
}

/** What is said about inputs that look wrong. */
export const CHECKS: Sentences = {
  rightHandCorner: () => ({
    problem:
      'a right-hand corner (y is negative). It was mirrored, and is counted as a left-hand one: y outboard.',
  }),
  wheelOnOtherSide: (say) => ({
    problem: `${say.point('y', 'z')} lies on the other side of the car than most points: is its sign right? It was read as written, and the side with the wheel counts as the outer one.`,
  }),
  pointOnOtherSide: (say) => ({
    problem: `${say.point('y', 'z')} lies on the other side of the car than the wheel: is its sign right? ${AS_WRITTEN}`,
  }),
  coiloverAcrossCentreline: (say) => ({
    problem: `it lies ${say.length('by')} across the centreline, where the coilover of the other side has its place: is its sign right? ${AS_WRITTEN}`,
  }),
  pointBelowGround: (say) => ({
    problem: `z is ${say.length('z')}, below the ground: is its sign right? ${AS_WRITTEN}`,
  }),
  allCoordinatesExchanged: (say) => ({
    problem: `every arm stands nearer to upright than to level, and the wheel centre ${say.point('y', 'z')} is higher above the ground than far from the centreline: are y and z exchanged in all points? Write [y, z]: outboard first, then up. ${BOTH_AS_WRITTEN}`,
  }),
  coordinatesExchanged: (say) => ({
    problem: `${say.point('y', 'z')} is higher above the ground than far from the centreline: are y and z exchanged? ${AS_WRITTEN}`,
  }),
  armsExchanged: (say) => ({
    problem: `its ball joint lies ${say.length('below')} below that of lowerArm, and its pivot lies lower too: upperArm and lowerArm seem to be exchanged. ${BOTH_AS_WRITTEN}`,
  }),
  outerPointsExchanged: (say) => ({
    problem: `its ball joint lies ${say.length('below')} below that of lowerArm: are the two outer points exchanged, or the arms? ${BOTH_AS_WRITTEN}`,
  }),
  armEndsExchanged: () => ({
    problem: `its outer point is nearer to the centreline than its inner one: inner and outer seem to be exchanged. ${BOTH_AS_WRITTEN}`,
  }),
  endsExchanged: (say) => ({
    problem: `its ${say.text('one')} lies ${say.text('lies') === 'below' ? 'below' : 'nearer to the centreline than'} its ${say.text('another')}: are the two exchanged? ${BOTH_AS_WRITTEN}`,
  }),
  wheelInboardOfJoints: (say) => ({
    problem: `it lies ${say.length('by')} inboard of ${say.number('joints') > 1 ? 'both ball joints' : 'the ball joint'}: is it right? ${AS_WRITTEN}`,
  }),
  mountBeyondJoint: (say) => ({
    problem: `it lies ${say.length('by')} beyond the ball joint of ${say.text('part')}, on which it is mounted: is it right? ${AS_WRITTEN}`,
  }),
  mountOffPart: (say) => ({
    problem: `it lies ${say.length('by')} from ${say.text('part')}, on which it is mounted: is it right, and is the part? ${AS_WRITTEN}`,
  }),
  unitsWrong: (say) => ({
    problem: `no car has such sizes (${sizes(say)}). Were they measured in ${say.text('unit')}? Then write ${remedy(say)}. They were read in ${say.plural('length')}.`,
  }),
  sizeUnusual: rangeOf('length'),
  rateUnusual: rangeOf('rate'),
  massUnusual: rangeOf('mass'),
  sprungMassUnusual: (say) => ({
    problem: `${unusual(say, 'mass')}: is it that of one corner, in ${say.unit('mass')}? ${AS_WRITTEN}`,
  }),
  tyreDiameterForRadius: (say) => ({
    problem: `a radius of ${say.length('radius')}, with the wheel centre ${say.length('loaded')} above the ground: is it the diameter? Then write ${say.short('half', 'length')}. ${AS_WRITTEN}`,
  }),
  overallRadiusNotAboveLoaded: (say) => {
    const how = say.is('isLess')
      ? `less than the height of the wheel's centre, ${say.length('loaded')}`
      : "equal to the height of the wheel's centre";
    return {
      problem: `an overall radius of ${say.length('overall')}, ${how}. The overall radius is that of the tyre with no load on it; the centre stands at the loaded radius, which is less. Was one of the two taken for the other?`,
    };
  },
  frequencyPerMinute: (say) => ({
    problem: `${say.short('frequency', 'frequency')} Hz, where no car is above 8 Hz: is it in cycles a minute? Then write ${say.short('perSecond', 'frequency')}. ${AS_WRITTEN}`,
  }),
  frequencyUnusual: (say) => ({
    problem: `${say.short('frequency', 'frequency')} Hz, where ${say.short('least', 'frequency')} to ${say.short('most', 'frequency')} Hz is usual: is it right? ${AS_WRITTEN}`,
  }),
  camberUnusual: (say) => ({
    problem: `a camber of ${say.short('camber', 'angle')} deg, where at most ${say.short('most', 'angle')} either way is usual: is it right? ${AS_WRITTEN}`,
  }),
  camberSignReversed: (say) => ({
    problem: `${say.short('camber', 'angle')} deg, where centre and contact patch lean the wheel ${say.short('drawn', 'angle')}: is its sign right? Top outboard is positive. ${AS_WRITTEN}`,
  }),
  camberAgainstContactPatch: (say) => ({
    problem: `with it and the centre the wheel leans ${say.short('drawn', 'angle')} deg, and camber says ${say.short('camber', 'angle')}. The contact patch counts for where the load acts, the camber for what is shown: measure again, or leave one out.`,
  }),
  contactPatchOffGround: (say) => ({
    problem: `z is ${say.length('z')}, where the ground has 0: heights count from the ground. ${AS_WRITTEN}`,
  }),
  pointCopied: (say) => ({
    problem: `in the same place as ${say.text('of')}: copied and not changed? ${AS_WRITTEN}`,
  }),
  mountOnPivot: (say) => ({
    problem: `it lies on the pivot of ${say.text('pivot')}, on which it is mounted: the wheel moves without moving the ${say.text('moved')}. ${AS_WRITTEN}`,
  }),
  scaleReadingOff: (say) => ({
    problem: `${say.mass('reading')}, where the middle one of the other three reads ${say.mass('others')}: is a digit missing or too many? ${AS_WRITTEN}`,
  }),
  partsIncomplete: (say) => ({
    problem: `${say.text('count')} parts add to ${say.mass('total')}, where a whole car has at least ${say.mass('least', 2)}: is something missing?${unitAsked(say)} ${BOTH_AS_WRITTEN}`,
  }),
  totalMassUnusual: (say) => ({
    problem: `${say.mass('total')} for the whole car, where ${say.mass('least', 2)} to ${say.mass('most', 2)} is usual: is it right?${unitAsked(say)} ${AS_WRITTEN}`,
  }),
  massTooSure: (say) => ({
    problem: `an estimate of ${say.mass('total')} ± ${say.mass('plusMinus')}: was it weighed? An estimate is rarely good to better than ${say.mass('usual', 2)}. ${AS_WRITTEN}`,
  }),
  surveyUnitsWrong: (say) => ({
    problem: `the largest length is ${say.length('largest')}, which no suspension corner has. Was it measured in ${say.text('unit')}? Then write ${remedy(say)}. It was read in ${say.plural('length')}.`,
  }),
  readingInOtherUnit: (say) => ({
    problem: `${say.length('value')}, where the first estimates are ${say.length('estimated', 3)} apart: was it read in ${say.text('unit')}? ${AS_WRITTEN}`,
  }),
  angleFromOtherAxis: (say) => {
    const [from, other] = say.is('isLean') ? ['vertical', 'horizontal'] : ['horizontal', 'vertical'];
    return {
      problem: `${say.short('value', 'angle')} deg from ${from}, where the first estimates say ${say.short('estimated', 'angle', 3)}: was it read from ${other}? Then write ${say.short('complement', 'angle')} with its sign. ${AS_WRITTEN}`,
    };
  },
};

/** `lowerArm 647 in long, wheel.centre 312 in above the ground`. */
function sizes(say: Say): string {
  const [lengths, what] = [say.lengths('sizes'), say.list('what')];
  return say
    .list('paths')
    .map((path, k) => `${path} ${lengths[k]} ${WHAT[what[k]]}`)
    .join(', ');
}

/** What to write for a file whose numbers are in another unit. */
function remedy(say: Say): string {
  const unit = say.text('unit');
  if (unit === 'inches') return '"units": "imperial"';
  if (unit === 'mm') return '"units": "metric"';
  return `them in ${say.plural('length')}`;
}

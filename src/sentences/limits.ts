import { ballJointName, spaced } from '../words.ts';
import type { Words } from './plain.ts';
import type { Say, Sentences } from './say.ts';

const eyeToEye = (say: Say, name: string) => `${say.measure(name, 'length')} eye to eye`;
const ballJoint = (say: Say) => `the ${ballJointName(say.text('joint'))}`;
/** `arch[2], [720, 700],` */
const point = (say: Say) => `${say.text('part')}, ${say.point('y', 'z')},`;

const ENDS: Readonly<Record<string, string>> = {
  mount: 'the mount',
  chassis: 'the chassis end',
  otherEnd: 'the other end',
};
const bearing = (say: Say) => `the bearing at ${ENDS[say.text('end')]} of the coilover`;

const FACES: Readonly<Record<string, string>> = {
  inner: 'the inner side',
  outer: 'the outer side',
  tread: 'the tread',
};

/** What is at a dead point, and what follows. */
const DEAD: Readonly<Record<string, readonly [what: string, why: string]>> = {
  '': ['the linkage is', ''],
  arms: ['the arms are', ''],
  rodAndRocker: ['the rod is', ", in line with the rocker's arm"],
};

/** About what a part turns, or two parts against each other. */
function centre(say: Say): string {
  const [one, other] = say.list('of').map(spaced);
  if (say.text('centre') === 'direction') return 'the direction in which its end can move';
  if (other !== undefined) return `the point about which ${one} and ${other} turn against each other`;
  return `the ${say.text('centre') === 'pivot' ? 'pivot' : 'instant centre'} of the ${one}`;
}

/** Why the installation ratio is zero. */
const WHY: Readonly<Record<string, (say: Say) => string>> = {
  eyesTogether: () => 'the two ends of the coilover come together',
  eyesMoveAlike: () => 'the two ends of the coilover move alike',
  rockerStands: (say) => `the rocker stands still there, its rod in line with ${centre(say)}`,
  carrierStands: () => 'the part that carries the coilover stands still there',
  squareToMotion: () => 'the coilover is square to the motion of its ends',
  throughCentre: (say) => `the line of the coilover passes through ${centre(say)}`,
};

/** A limit: what is said of it, with its place in the travel. */
const limit = (words: (say: Say, at: string) => string) => (say: Say) => ({
  problem: words(
    say,
    say.isNothing('travel', 'length') ? 'at design ride height' : `at ${say.travel('travel')}`,
  ),
});

/** A damper or a bump stop that does not go with the length at ride height. */
const lengthOff = (what: string, way: string, than: string) => (say: Say) => ({
  problem: `${what}: the length at design ride height is ${eyeToEye(say, 'length')}, ${say.measure('by', 'length')} ${way} than ${than.replace('#', say.measure('than', 'length'))}`,
});

/** A damper at its end at ride height. */
const nearEnd = (end: string) => (say: Say) => ({
  problem: `the damper is almost ${end} at design ride height (${say.measure('length', 'length', 'end')} of ${say.measure('end', 'length', 'length')}): there is no ${say.text('side')} travel left`,
});

const required = (say: Say, words: string): Words => ({
  problem: `${say.text('side')} travel: ${words}`,
});

/** What is said about what ends the travel, what does not fit, and the travel that is required. */
export const LIMITS: Sentences = {
  damperExtended: limit((say, at) => `the damper is topped out ${at} (${eyeToEye(say, 'length')})`),
  damperCompressed: limit((say, at) => `the damper is bottomed out ${at} (${eyeToEye(say, 'length')})`),
  bumpStopSolid: limit((say, at) => `the bump stop is solid ${at} (${eyeToEye(say, 'length')})`),
  bumpStopContact: limit((say, at) => `the bump stop makes contact ${at} (${eyeToEye(say, 'length')})`),
  springMinLength: limit(
    (say, at) => `the spring is at its minimum permissible length ${at} (${eyeToEye(say, 'length')})`,
  ),
  ballJointArticulation: limit(
    (say, at) =>
      `${ballJoint(say)} is at its largest articulation angle ${at}: its stud is ${say.measure('max', 'angle')} from the axis of its housing`,
  ),
  bearingMisalignment: limit(
    (say, at) => `${bearing(say)} is at its largest misalignment ${at}: ${say.measure('max', 'angle')}`,
  ),
  tyreContact: limit(
    (say, at) => `${FACES[say.text('face')]} of the tyre makes contact with ${point(say)} ${at}`,
  ),
  groundContact: limit((say, at) => `the chassis makes contact with the ground: ${point(say)} ${at}`),
  deadPoint: limit((say, at) => {
    const [what, why] = DEAD[say.text('part')];
    return `${what} at a dead point ${at}${why}: the wheel cannot go ${say.text('side') === 'bump' ? 'higher' : 'lower'}`;
  }),
  ratioZero: limit(
    (say, at) =>
      `the installation ratio is zero ${at}: ${WHY[say.text('why')](say)}. The wheel moves there without moving the coilover, and beyond it the coilover moves the other way`,
  ),
  locked: limit(
    (say, at) =>
      `the linkage locks ${at}: ${say.has('constraint') ? say.text('constraint') : 'a length'} cannot be kept any farther`,
  ),
  bifurcation: limit((_, at) => `the motion is not determined beyond a bifurcation ${at}`),

  damperTooShort: lengthOff('the damper is too short', 'more', 'the extended length of #'),
  damperTooLong: lengthOff('the damper is too long', 'less', 'the compressed length of #'),
  bumpStopTooHigh: lengthOff('the bump stop is too high', 'less', 'the # at which the stop is solid'),
  bumpStopCompressed: (say) => ({
    problem: `the bump stop is compressed by ${say.measure('by', 'length')} at design ride height`,
  }),
  bumpStopSolidAtRide: () => ({ problem: 'the bump stop is solid at design ride height' }),
  springTooLong: (say) => ({
    problem: `the spring is too long: at design ride height it is ${say.measure('by', 'length')} shorter than its minimum permissible length`,
  }),
  ballJointDoesNotFit: (say) => ({
    problem: `${ballJoint(say)} does not fit: at design ride height its stud is ${say.measure('angle', 'angle')} from the axis of its housing, ${say.measure('by', 'angle')} more than it allows`,
  }),
  bearingDoesNotFit: (say) => ({
    problem: `${bearing(say)} does not fit: at design ride height its misalignment is ${say.measure('angle', 'angle')}, ${say.measure('by', 'angle')} more than it allows`,
  }),
  tyreDoesNotFit: (say) => ({
    problem: `the tyre does not fit: at design ride height ${point(say)} lies ${say.measure('by', 'length')} inside it`,
  }),
  chassisBelowGround: (say) => ({
    problem: `the chassis is below the ground: at design ride height ${point(say)} lies ${say.measure('by', 'length')} below it`,
  }),

  travelMargin: (say) =>
    required(
      say,
      `${say.measure('available', 'length')} available, ${say.measure('required', 'length')} required; margin ${say.difference('available', 'required', 'length')}`,
    ),
  travelWithoutLimit: (say) => required(say, `no limit found, ${say.measure('required', 'length')} required`),
  travelNotKnown: (say) =>
    required(
      say,
      `${say.measure('required', 'length')} required; what is available is not known until everything fits at design ride height`,
    ),

  bumpLengthensCoilover: () => ({
    problem: 'bump lengthens the coilover at design ride height: is it mounted as intended?',
  }),
  damperAlmostExtended: nearEnd('topped out'),
  damperAlmostCompressed: nearEnd('bottomed out'),
  bumpStopAlwaysCompressed: (say) => ({
    problem: `the bump stop is ${say.measure('height', 'length')} high and the damper has a stroke of ${say.measure('stroke', 'length')}: the stop is compressed through the whole travel`,
  }),
  noAxisOfBallJoint: (say) => ({
    problem: `no axis of ${ballJoint(say)} is given: its limit takes the stud to be straight in its housing at design ride height`,
    advice: 'give housingAxis and studAxis',
  }),
  oneAxisOfBallJoint: (say) => ({
    problem: `only ${say.text('given')} of ${ballJoint(say)} is given: the stud is taken to be straight in its housing at design ride height`,
    advice: 'give both axes if it is not',
  }),
  shoulderBelowTread: (say) => ({
    problem: `with the camber as drawn the ${say.text('side')} shoulder of a tyre ${say.measure('width', 'length')} wide is ${say.measure('by', 'length')} lower than the middle of its tread, where the contact patch is taken: the tyre carries farther ${say.text('side') === 'inner' ? 'in' : 'out'}`,
    advice: 'give wheel.contactPatch to count that',
  }),
};

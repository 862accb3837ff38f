import { INPUT, meant } from './input.ts';
import type { PlainSay, PlainSentences } from './plain.ts';

const named = (one: string) => [one, `{ name: ${one}, ... }`] as const;
const listed = (one: string) => [one, `[${one}, ...]`] as const;

/** What the parts of a drawing look like: one of them, and all. */
const DRAWN: Readonly<Record<string, readonly [one: string, all: string]>> = {
  points: named('[x, y]'),
  ground: listed("'A'"),
  bodies: named("['A', 'B']"),
  fixedCoordinates: listed("{ x: 'P' } or { y: 'P' }"),
  sliders: named("{ point: 'P', on: ['A', 'B'] }"),
  telescopes: named("['A', 'B']"),
  fixedAngles: named("['body', ['A', 'B']], or one of the two alone"),
  ratios: named("{ of: [{ turn: 'wheel' }, { turn: 'pinion' }], ratio: -0.5 }"),
  ropes: named("['A', 'B', 'C'], a pulley in it as { about: 'B', radius: 20, side: 'left' }"),
};

function asDrawn(say: PlainSay): string {
  const [one, all] = DRAWN[say.text('part')];
  return say.is('one') ? one : all;
}

/** What is said about a drawing, a measure, a motion and loads. */
export const LINKAGE: PlainSentences = {
  ...INPUT,
  unknownName: (say) => ({
    problem: `unknown ${say.text('what')}`,
    advice: meant(say, `correct the name or add the ${say.text('what')} to the drawing`),
  }),
  partMissing: (say) => ({ problem: 'missing', allowed: asDrawn(say) }),
  partNotAsDrawn: (say) => ({ problem: 'wrong kind of value', allowed: asDrawn(say) }),
  notADrawing: { problem: 'not a drawing', allowed: '{ points, ground, bodies }' },
  notAPoint: { problem: 'not a point', allowed: 'two finite numbers [x, y]' },
  pointTwice: { problem: 'point named twice', advice: 'take one out' },
  bodyOfOnePoint: {
    problem: 'a body needs two points or more',
    advice: 'add the point where it is pinned, or take the body out',
  },
  bodyOfNoLength: (say) => ({
    problem: say.number('points') === 2 ? 'a bar of no length' : 'all points of the body coincide',
    advice:
      'give the points different places, or make them one point: bodies that share a point are pinned there',
  }),
  pointUnused: {
    problem: 'point on no body and not ground',
    advice: 'add it to a body or to ground, or take it out',
  },
  coincidentPoints: (say) => ({
    problem: `${COINCIDENT[say.text('of')]} two points in one place`,
    advice: 'name two points that lie apart',
  }),
  telescopeOfNoLength: {
    problem: 'a telescope of no length as drawn',
    advice: 'name two points that lie apart',
  },
  notARatio: { problem: 'not a ratio', allowed: 'a finite number other than 0' },
  notARadius: { problem: 'not a radius', allowed: 'a finite number, 0 or greater' },
  ropeOfNoLength: {
    problem: 'no straight rope between two stops',
    allowed: 'two points that lie apart, pulleys that do not touch where the rope crosses over between them',
    advice: 'move a point, or make a pulley smaller',
  },
  lineBetweenBodies: {
    problem: 'a line between two bodies',
    allowed: 'two points of one body, or of the ground',
    advice: 'add the point to a body, or use a telescope',
  },
  slidesOnItsOwnBody: {
    problem: 'a point of the body on which it should slide',
    advice: 'take it out of the body, or the slider out of the drawing',
  },
  namedAsBody: { problem: 'named as a body', advice: 'give it a name of its own' },
  sizeOutOfRange: (say) => ({
    problem: 'size that cannot be computed with',
    got: `${say.number('size')} from end to end of the ${say.is('whole') ? 'drawing' : 'longest bar'}`,
    allowed: `${say.number('min')} to ${say.number('max')}`,
    advice: 'draw it in another unit of length',
  }),
  unknownMeasure: {
    problem: 'unknown measure',
    allowed: '{ x }, { y }, { length: [a, b] }, { angle: [a, b] }, { turn: body }',
  },
  notAPair: { problem: 'not two points', allowed: "['A', 'B']" },
  severalInOne: (say) => ({
    problem: `${say.list('kinds').length} ${say.text('what')}s in one (${say.text('kinds')})`,
    advice: `write one ${say.text('what')}, or each as a ${say.text('what')} of its own`,
  }),
  notHeldByAJoint: {
    problem: 'a place relative to a moving body, which no joint holds',
    allowed: '{ x }, { y }, { length }, { angle }, { turn }',
    advice: 'hold a length or an angle in its place',
  },
  driverOfNoLength: {
    problem: 'a length of zero as drawn, whose rate does not exist',
    advice: 'drive something else, or draw the linkage in another pose',
  },
  driverNeverChanges: {
    problem: 'never changes when the linkage moves',
    advice: 'drive something that moves',
  },
  rangeWithoutDrawnPose: (say) => ({
    problem: 'range without the drawn pose',
    allowed: say.has('min') ? `${say.text('min')} or more` : `${say.text('max')} or less`,
  }),
  outsideMotion: (say) => ({
    problem: 'outside the motion',
    allowed: `${say.text('min')} (${say.text('minStatus')}) to ${say.text('max')} (${say.text('maxStatus')})`,
    ...(say.number('min') === say.number('max') && say.text('minStatus') === 'deadPoint'
      ? {
          advice:
            'the linkage is drawn at a dead point of the driver: drive something else, or draw another pose',
        }
      : {}),
  }),
  severalFreedoms: (say) => ({
    problem: `underdetermined: ${say.text('degreesOfFreedom')} degrees of freedom in the drawn pose, and one driver`,
    got: `points that can move: ${say.text('moving')}`,
    allowed: 'one degree of freedom for the one driver',
    advice:
      'add a body or a ground point, or hold measures with `hold`; if the linkage lies flat, draw it in another pose',
  }),
  drawnAtBifurcation: (say) => ({
    problem: `drawn at a bifurcation (change point): ${say.text('branches')} branches cross there`,
    allowed: 'a choice for the drawn pose',
    advice: `choose one with \`branch\`: a number below ${say.text('branches')}, or { measure, sign } on whose side the driver moves; or draw the linkage in another pose`,
  }),
  drawnBranchMissing: (say) => ({
    problem: `not a branch on which the driver moves from the drawn pose, a bifurcation (change point) of ${say.text('branches')} branches`,
    allowed: `a number below ${say.text('branches')}, or { measure, sign }`,
    advice: "'straight' has no meaning there: it continues a motion that comes to a bifurcation",
  }),
  notABranch: {
    problem: 'not a branch',
    allowed: "'straight', a whole number from 0, { measure: { turn: 'rocker' }, sign: 1 }, or a list of them",
  },
  notASign: { problem: 'not a sign', allowed: '1 or -1' },
  nothingFree: {
    problem: 'nothing can move: every point is ground, or on a body fixed to the ground',
    advice: 'remove the points that move from ground',
  },
  overDetermined: (say) => {
    const redundant = say.number('redundant');
    const misfits = say.list('misfits').map((misfit) => Number(Number(misfit).toPrecision(3)));
    const bars = say.list('bodies').map((body, k) => `${body} by ${misfits[k]}`);
    return {
      problem: 'overdetermined: nothing can move in the drawn pose',
      got: `${say.text('rows')} constraints (${say.text('constraints')}) on ${say.text('unknowns')} coordinates${redundant > 0 ? `, ${redundant} of them redundant` : ''}`,
      allowed: 'one degree of freedom for the one driver',
      advice:
        bars.length > 0
          ? `the rest moves if the length of one of these may change: ${bars.join(', or ')}. Correct that length, or allow this tolerance`
          : 'remove a body or a ground point',
    };
  },
  notALength: { problem: 'not a length', allowed: 'a number greater than 0' },
  notBetweenTwoJoints: (say) => ({
    problem: 'not between two joints',
    got: `${say.text('count')} (${say.text('joints')})`,
    allowed: 'a rod or arm that is held at two points',
    advice: 'measure the changed part and draw it anew',
  }),
  notAPinOfTwoBodies: (say) => ({
    problem: 'not a pin between two bodies and nothing else, nor a point of one body on one slide',
    got: say.has('bodies') ? `on ${say.text('bodies')}` : 'on no body',
    advice: 'name the point where the two bodies meet, or the one that slides',
  }),
  notAtOneOtherJoint: (say) => ({
    problem: 'not joined at one other point',
    got: say.has('joints') ? say.text('joints') : 'none',
    advice: 'draw the other assembly mode by hand',
  }),
  noOtherAssembly: { problem: 'both bodies turn about one place: there is no other assembly mode' },
  noDriver: { problem: 'no driver', allowed: '[{ driver: { turn: "crank" }, to: 1 }, ...]' },
  notADriver: { problem: 'not a driver', allowed: '{ driver: { turn: "crank" }, to: 1 }' },
  notAListOfMeasures: { problem: 'not a list of measures', allowed: '[{ turn: "crank" }, ...]' },
  toleranceNotPositive: {
    problem: 'not a tolerance',
    allowed: 'a finite number greater than 0, in the unit of the drawing',
  },
  notLoads: { problem: 'not a list of loads', allowed: "[{ at: 'P', force: [x, y] }, ...]" },
  notALoad: { problem: 'not a load', allowed: '{ at, force }, { on, moment }, { between, push }' },
  notAForce: { problem: 'not a force', allowed: 'two finite numbers [x, y]' },
  loadOutOfRange: (say) => ({
    problem: 'load that cannot be computed with',
    allowed: `-${say.text('max')} to ${say.text('max')}`,
  }),
  pointNotOnBody: { problem: 'point not on that body' },
};

const COINCIDENT: Readonly<Record<string, string>> = {
  line: 'a line through',
  direction: 'a direction between',
  load: 'a load between',
};

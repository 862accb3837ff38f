// Every public function with arguments spoilt at random: it must answer, or refuse with an InputError that can be read, and
// change nothing that it was given.

import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import * as jounce from 'jounce';
import { InputError } from 'jounce';
import * as linkages from 'jounce/linkage';
import * as statics from 'jounce/statics';
import * as syntheses from 'jounce/synthesis';
import * as testing from 'jounce/testing';
import { CAR } from '../axle/car.ts';
import { BAR, CORNER } from '../axle/roadster.ts';

type Call = readonly [made: (...given: never[]) => unknown, given: () => readonly unknown[]];

const example = (name: string) =>
  readFileSync(new URL(`../../../docs/examples/${name}`, import.meta.url), 'utf8');
const json = (name: string) => JSON.parse(example(name));

const DEGREE = Math.PI / 180;
const fourBar = () => ({
  points: { A: [0, 0], B: [0, 40], C: [110, 75], D: [100, 0], P: [60, 90] },
  ground: ['A', 'D'],
  bodies: { crank: ['A', 'B'], coupler: ['B', 'C', 'P'], rocker: ['D', 'C'] },
});
const column = () => ({
  points: { O: [0, 0], A: [0, 100], B: [0, 200] },
  ground: ['O'],
  bodies: { lower: ['O', 'A'], upper: ['A', 'B'] },
});
const columnSprings = () => [
  { along: { turn: 'lower' }, rate: 1000, freeAt: 0 },
  { along: { turn: 'upper', relativeTo: 'lower' }, rate: 1000, freeAt: 0 },
];
const toggle = linkages.linkage({
  points: { O: [0, 0], A: [80, 60], B: [160, 0], near: [100, 0], far: [300, 0] },
  ground: ['O', 'near', 'far'],
  bodies: { first: ['O', 'A'], second: ['A', 'B'] },
  sliders: { foot: { point: 'B', on: ['near', 'far'] } },
});
const snapping = linkages.trace(toggle, { driver: { y: 'A' }, from: -80, to: 70 });
const motion = linkages.trace(fourBar() as never, { driver: { turn: 'crank' } }) as linkages.Motion;
const spring = () => ({ along: { x: 'B' }, rate: 2, freeAt: 160 });

const corner = () => json('front-corner.json');
const swept = jounce.sweep(CORNER, { bump: 40, droop: 40, step: 20 });
const whole = jounce.axle({ left: CORNER, bar: BAR });
const carFile = jounce.readCar(example('car.json'));
const sizing = jounce.sizeCoilovers(carFile);
const weighed = jounce.sizeCoilovers(jounce.readCar(example('car-weighed.json')));
const compared = jounce.compareSizings(sizing, weighed);
const sheet = jounce.orderSheet(sizing);
const measured = jounce.survey(example('survey.json'));
const loadCase = () => ({
  sprungMass: 160,
  unsprungMass: 30,
  springRate: 40,
  limits: { damper: { extendedLength: 385, compressedLength: 300 } },
});
const carried = jounce.cornerForces(CORNER, loadCase());
const goals = () => ({
  mounts: {
    shockMount: { y: [450, 580], z: [140, 195] },
    shockChassisMount: { y: [300, 460], z: [440, 540] },
  },
  objectives: [{ quantity: 'maxLength', max: 385 }],
  travel: { bump: 30, droop: 30 },
  starts: 1,
});
const found = jounce.design(CORNER, goals() as never);
const hand = jounce.handMethod(CORNER);
const damper = { extendedLength: 385, compressedLength: 270 };
const [finding] = jounce
  .readCar(JSON.stringify({ ...json('car.json'), corners: { front: json('car.json').corners.front } }))
  .notes.concat(sizing.conflicts);
const damping = () => [
  { speed: 0, compression: 0, rebound: 0 },
  { speed: 100, compression: 200, rebound: 300 },
];
const wheelSprings = () => ({ left: { rate: 30, force: 2000 }, right: { rate: 30, force: 2000 } });

/** A call of each function with what it takes; the whole of a folder by its name. */
const CALLS: Readonly<Record<string, Call>> = {
  adviceLines: [jounce.adviceLines, () => [sizing.axles[0].advice, 'imperial']],
  approximationLabel: [jounce.approximationLabel, () => ['levelArm']],
  axle: [jounce.axle, () => [{ left: CORNER, bar: { ...BAR } }]],
  axleMonteCarlo: [
    jounce.axleMonteCarlo,
    () => [whole, { lowerInnerY: 1 }, { draws: 100, seed: 1, sweep: { heave: [0], roll: [1] } }],
  ],
  axleSensitivities: [jounce.axleSensitivities, () => [whole, { heave: [0], roll: [1] }]],
  axleSensitivityRanking: [
    jounce.axleSensitivityRanking,
    () => [whole, { column: 'rollCentreZ', heave: 0, roll: 1 }],
  ],
  axleUncertaintyBands: [
    jounce.axleUncertaintyBands,
    () => [whole, { lowerInnerY: 1 }, { heave: [0], roll: [1] }],
  ],
  axleLimits: [jounce.axleLimits, () => [whole, { left: { damper }, heave: [-20, 20], roll: [-2, 2] }]],
  bearingMisalignment: [
    jounce.bearingMisalignment,
    () => [{ kind: 'rodEnd', bore: 8, ball: 13, width: 9, head: 6 }],
  ],
  changeArmLengths: [jounce.changeArmLengths, () => [CORNER, { lowerArm: 400, upperArm: 310 }]],
  chooseBar: [jounce.chooseBar, () => [CAR, { axle: 'front', lateralAcceleration: 0.8, roll: 4 }]],
  coilSpring: [
    jounce.coilSpring,
    () => [{ wireDiameter: 10, meanDiameter: 70, activeCoils: 8, freeLength: 250 }],
  ],
  compareSizings: [jounce.compareSizings, () => [sizing, weighed]],
  comparisonSheet: [jounce.comparisonSheet, () => [compared]],
  cornerForces: [jounce.cornerForces, () => [CORNER, loadCase()]],
  customCorner: [
    jounce.customCorner,
    () => [
      {
        drawing: {
          points: { O: [90, 260], W: [650, 290], P: [650, 0], E: [420, 250], F: [300, 600] },
          ground: ['O', 'F'],
          bodies: { shaft: ['O', 'W', 'P', 'E'] },
        },
        upright: 'shaft',
        wheelCentre: 'W',
        contactPatch: 'P',
        shock: { outer: 'E', inner: 'F' },
      },
    ],
  ],
  describeIssue: [jounce.describeIssue, () => [finding, 'imperial']],
  describeSweepEnd: [jounce.describeSweepEnd, () => [swept.end.bump, 'metric']],
  design: [jounce.design, () => [CORNER, goals()]],
  doubleWishbone: [jounce.doubleWishbone, () => [corner()]],
  drawAxle: [jounce.drawAxle, () => [whole, { heave: -10, roll: 2 }]],
  drawCorner: [jounce.drawCorner, () => [CORNER, [-40, 0, 40], { title: 'A corner' }]],
  drawDesign: [jounce.drawDesign, () => [CORNER, found, { title: 'A design' }]],
  drawForces: [jounce.drawForces, () => [CORNER, carried.cases[0], { units: 'imperial' }]],
  drawLinkage: [jounce.drawLinkage, () => [fourBar(), { title: 'A linkage' }]],
  drawResiduals: [jounce.drawResiduals, () => [measured, 'Residuals']],
  drawSweep: [jounce.drawSweep, () => [CORNER, fc, swept, { title: 'A sweep' }]],
  equilibrium: [jounce.equilibrium, () => [CAR, { lateralAcceleration: 0.5 }]],
  forceCurves: [jounce.forceCurves, () => [CORNER, loadCase()]],
  handMethod: [jounce.handMethod, () => [CORNER, { springRate: 40 }]],
  heaveRate: [jounce.heaveRate, () => [whole, { ...wheelSprings(), heave: 5 }]],
  issueLines: [jounce.issueLines, () => [finding, 'metric']],
  limits: [jounce.limits, () => [CORNER, { damper, bumpStop: { height: 36, solidHeight: 10 } }]],
  monteCarlo: [
    jounce.monteCarlo,
    () => [CORNER, { lowerInnerY: 1 }, { draws: 4, seed: 1, sweep: { bump: 10, droop: 10, step: 10 } }],
  ],
  monteCarloSizing: [jounce.monteCarloSizing, () => [carFile, { draws: 2, seed: 1 }]],
  orderSheet: [jounce.orderSheet, () => [sizing]],
  perchMoves: [jounce.perchMoves, () => [CAR, { crossWeight: 0.51, threadPitch: 1.5 }]],
  plotAxleLimits: [
    jounce.plotAxleLimits,
    () => [whole, { left: { damper } }, { heave: [-20, 20], roll: [-2, 2] }],
  ],
  plotCurves: [jounce.plotCurves, () => [swept, { columns: ['shockLength'] }]],
  plotDampingForce: [jounce.plotDampingForce, () => [damping(), 'Damping', { units: 'metric' }]],
  plotHandMethod: [jounce.plotHandMethod, () => [hand, { title: 'Hand method' }]],
  pushrod: [jounce.pushrod, () => [json('pushrod-corner.json')]],
  readCar: [jounce.readCar, () => [json('car.json')]],
  readCorner: [jounce.readCorner, () => [corner()]],
  migrateFile: [jounce.migrateFile, () => [json('car.json')]],
  reportSheet: [jounce.reportSheet, () => [sizing, {}]],
  rollStiffness: [jounce.rollStiffness, () => [whole, { ...wheelSprings(), roll: 1 }]],
  sensitivities: [jounce.sensitivities, () => [CORNER, { bump: 10, droop: 10, step: 10 }]],
  sensitivityRanking: [jounce.sensitivityRanking, () => [CORNER, { travel: 10 }]],
  sentence: [jounce.sentence, () => [finding, 'metric']],
  sheetData: [jounce.sheetData, () => [sheet]],
  sheetHtml: [jounce.sheetHtml, () => [sheet]],
  sheetJson: [jounce.sheetJson, () => [sheet]],
  sheetMarkdown: [jounce.sheetMarkdown, () => [sheet]],
  show: [jounce.show, () => [CORNER]],
  sizeCoilovers: [jounce.sizeCoilovers, () => [carFile]],
  sizingSummary: [jounce.sizingSummary, () => [sizing]],
  standardLoadCases: [jounce.standardLoadCases, () => [160, 30, { bump: 3 }]],
  steadyCornering: [jounce.steadyCornering, () => [CAR, { lateralAccelerations: [0, 0.5] }]],
  strut: [jounce.strut, () => [json('strut-corner.json')]],
  survey: [jounce.survey, () => [json('survey.json')]],
  surveyedCorner: [jounce.surveyedCorner, () => [measured, {}]],
  sweep: [jounce.sweep, () => [CORNER, { bump: 40, droop: 40, step: 10, columns: ['camber'] }]],
  sweepAxle: [jounce.sweepAxle, () => [whole, { heave: [-20, 0], roll: [0, 1], along: 'grid' }]],
  sweepCsv: [jounce.sweepCsv, () => [swept, { units: 'imperial' }]],
  sweepTable: [jounce.sweepTable, () => [swept, ['travel', 'camber'], 'metric']],
  torsionalStiffness: [jounce.torsionalStiffness, () => [{ diameter: 20, length: 800 }]],
  tyreFromSize: [jounce.tyreFromSize, () => ['195/50R15']],
  uncertaintyBands: [
    jounce.uncertaintyBands,
    () => [CORNER, { lowerInnerY: 1 }, { bump: 10, droop: 10, step: 10 }],
  ],
  vegaCurves: [jounce.vegaCurves, () => [swept, { columns: ['camber'] }]],
  writeSurveyedCorner: [jounce.writeSurveyedCorner, () => [json('car.json'), measured, { corner: 'front' }]],

  drive: [linkages.drive, () => [fourBar(), [{ driver: { turn: 'crank' }, to: 0.3 }], {}]],
  linkage: [linkages.linkage, () => [fourBar()]],
  mobility: [linkages.mobility, () => [fourBar()]],
  otherAssemblyMode: [linkages.otherAssemblyMode, () => [fourBar(), 'C']],
  placePoints: [linkages.placePoints, () => [{ A: [0, 0], B: { from: 'A', length: 40, angle: 1 } }]],
  range: [linkages.range, () => [fourBar(), { driver: { turn: 'crank' } }]],
  trace: [linkages.trace, () => [fourBar(), { driver: { turn: 'crank' }, from: -1, to: 1 }]],
  withLengths: [linkages.withLengths, () => [fourBar(), { crank: 41 }, { x: 'B' }]],

  equilibria: [statics.equilibria, () => [snapping, [spring(), { at: 'A', force: [0, -20] }], { parts: 50 }]],
  equilibriaFrom: [
    statics.equilibriaFrom,
    () => [column(), [...columnSprings(), { at: 'B', force: [0, -5] }], {}],
  ],
  followEquilibrium: [
    statics.followEquilibrium,
    () => [snapping, [spring()], [{ at: 'A', force: [0, -1] }], { to: 10 }],
  ],
  followEquilibriumFrom: [
    statics.followEquilibriumFrom,
    () => [column(), columnSprings(), [{ at: 'B', force: [0, -1] }], { to: 2 }],
  ],
  forces: [statics.forces, () => [fourBar(), [{ at: 'P', force: [0, -10] }], { driver: { turn: 'crank' } }]],

  couplerCurve: [syntheses.couplerCurve, () => [motion, 'P', { samples: 20 }]],
  extremeValues: [syntheses.extremeValues, () => [motion, { turn: 'rocker' }]],
  mechanicalAdvantage: [syntheses.mechanicalAdvantage, () => [motion, { turn: 'rocker' }]],
  synthesise: [
    syntheses.synthesise,
    () => [
      fourBar(),
      {
        driver: { turn: 'crank' },
        from: 0,
        to: 60 * DEGREE,
        move: { B: { x: [-10, 90], y: [-50, 50] } },
        objectives: [{ quantity: { turn: 'rocker' }, extreme: 'range', target: 20 * DEGREE }],
        starts: 1,
      },
    ],
  ],
  transmissionAngle: [
    syntheses.transmissionAngle,
    () => [motion, { coupler: ['B', 'C'], output: ['C', 'D'] }],
  ],

  checkLaws: [
    testing.checkLaws as Call[0],
    () => [() => fourBar(), null, { driver: { turn: 'crank' }, runs: 1 }],
  ],
  doubleWishbones: [testing.doubleWishbones, () => [fc as unknown, {}]],
  fourBars: [testing.fourBars, () => [fc as unknown, {}]],
  linkages: [testing.linkages, () => [fc as unknown, { minPairs: 1, maxPairs: 2 }]],
  pushrods: [testing.pushrods, () => [fc as unknown, {}]],

  'Motion.at': [motion.at, () => [0.3]],
  'Motion.read': [motion.read, () => [{ turn: 'rocker' }]],
  'Sweep.at': [swept.at, () => [10]],
  'AxleSizing.figure': [sizing.axles[0].figure, () => ['springRate']],
};

/** Functions that take nothing, and what is no function of ours. */
const WITHOUT = ['InputError', 'LawViolation', 'carJsonSchema', 'cornerJsonSchema', 'surveyJsonSchema'];

for (const entry of [jounce, linkages, statics, syntheses, testing])
  for (const [name, value] of Object.entries(entry))
    if (typeof value === 'function' && !WITHOUT.includes(name) && !(name in CALLS))
      throw new Error(`${name} is not among the calls`);

const circle: Record<string, unknown> = {};
circle.self = circle;
const hostile = fc.oneof(
  fc.constantFrom<unknown>(
    undefined,
    null,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    -1,
    -0,
    5e-324,
    1e308,
    2 ** 53,
    '',
    'x',
    '__proto__',
    true,
    10n,
    Symbol('s'),
    () => 1,
    new Date(0),
    new Map([[1, 2]]),
    new Float64Array([1, 2]),
    circle,
    Object.create(null),
    new Proxy([], {}),
    [],
    [undefined],
    {},
    { at: 1 },
    { x: 'A', y: 'B' },
    ['A', 'B'],
    ['A'],
    CORNER,
    sizing,
    motion,
  ),
  fc.double(),
  fc.integer(),
  fc.string(),
  fc.anything({ maxDepth: 2 }),
);

type Holder = Record<PropertyKey, unknown>;
const isPlain = (value: unknown): value is Holder =>
  Array.isArray(value) ||
  (typeof value === 'object' &&
    value !== null &&
    [Object.prototype, null].includes(Object.getPrototypeOf(value)));

/** What the library made: it is left out or exchanged as a whole. */
const OURS = new Set<unknown>([
  CORNER,
  fc,
  swept,
  whole,
  carFile,
  sizing,
  weighed,
  compared,
  sheet,
  measured,
  carried.cases[0],
  found,
  hand,
  finding,
  swept.end.bump,
  sizing.axles[0].advice,
  snapping,
  motion,
  toggle,
  CAR.front.linkage,
  CAR.rear.linkage,
]);

const isOpen = (value: unknown): value is Holder => isPlain(value) && !OURS.has(value);

function copied(value: unknown): unknown {
  if (!isOpen(value)) return value;
  if (Array.isArray(value)) return value.map(copied);
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, copied(item)]));
}

/** Some places of a value, as what holds each and its key: those near the top sooner than those deep down. */
function placeIn(value: Holder, turns: Iterator<number>): [Holder, string] {
  let [holder, key] = [value, ''];
  for (;;) {
    const keys = Object.keys(holder);
    key = keys[turns.next().value % keys.length];
    const next = holder[key];
    if (!isOpen(next) || Object.keys(next).length === 0 || turns.next().value % 4 === 0) return [holder, key];
    holder = next;
  }
}

const ways = ['put', 'put', 'put', 'put', 'delete', 'add', 'more'] as const;
const damage = fc.record({
  way: fc.constantFrom(...ways),
  value: hostile,
  turns: fc.infiniteStream(fc.nat(1e6)),
});

function spoilt(
  given: readonly unknown[],
  { way, value, turns }: { way: string; value: unknown; turns: Iterator<number> },
) {
  const args = copied(given) as unknown[];
  const [holder, key] = placeIn(args as unknown as Holder, turns);
  if (way === 'delete') {
    if (Array.isArray(holder)) holder.splice(Number(key), 1);
    else delete holder[key];
  } else if (way === 'add' && !Array.isArray(holder)) holder[`${key}x`] = value;
  else if (way === 'more' && Array.isArray(holder)) holder.push(value);
  else holder[key] = value;
  return args;
}

const inWords = (value: unknown) => {
  try {
    return JSON.stringify(value, (_, v) =>
      typeof v === 'bigint' || typeof v === 'symbol' ? String(v) : v,
    )?.slice(-400);
  } catch {
    return String(value);
  }
};

/** Calls of a seed, as many of each function. */
export function* spoiltCalls(seed: number, cases: number): Generator<() => string | null> {
  const names = Object.keys(CALLS);
  for (const name of names) {
    const [made, given] = CALLS[name];
    for (const spoiling of fc.sample(damage, { numRuns: Math.ceil(cases / names.length), seed })) {
      const args = spoilt(given(), spoiling);
      yield () => {
        const fault = faultOf(name, () => made(...(args as never[])));
        return fault === null ? null : `${fault}\n${inWords(args)}`;
      };
    }
  }
}

/** What is wrong with the answer of a function; null where it refuses in words that can be read. */
function faultOf(name: string, call: () => unknown): string | null {
  try {
    call();
    return null;
  } catch (error) {
    if (name === 'checkLaws' && error instanceof testing.LawViolation) return null;
    if (!(error instanceof InputError))
      return `${name}: ${error instanceof Error ? String(error.stack).split('\n').slice(0, 3).join(' ') : `no error: ${String(error)}`}`;
    const isRead =
      error.issues.length > 0 && !/undefined\b(?!,)|\[object/.test(error.message.replace(/got [^\n]*/g, ''));
    return isRead ? null : `${name}, unreadable: ${error.message}`;
  }
}

/**
 * Diagnostics and their sentences: every code has one, every one is used, and nothing but what is read depends on them. The words
 * themselves are checked where each is found.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  cornerForces,
  customCorner,
  type DesignOptions,
  type Diagnostic,
  describeIssue,
  design,
  doubleWishbone,
  handMethod,
  InputError,
  type Issue,
  limits,
  migrateFile,
  pushrod,
  readCar,
  readCorner,
  type SurveyInput,
  sentence,
  sizeCoilovers,
  survey,
  tyreFromSize,
} from 'jounce';
import { forces } from 'jounce/statics';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { diagnosticsOn as designDiagnostics } from '../src/design/diagnostics.ts';
import { ASSUMPTIONS, OPEN_QUESTIONS } from '../src/sentences/assumptions.ts';
import { DESIGNED } from '../src/sentences/designed.ts';
import { DOCUMENT, kindSentences } from '../src/sentences/document.ts';
import { DONOR_DAMPER } from '../src/sentences/donor.ts';
import { FILE } from '../src/sentences/file.ts';
import { FORCES } from '../src/sentences/forces.ts';
import { HAND_METHOD } from '../src/sentences/hand-method.ts';
import { BOUNDED, INPUT } from '../src/sentences/input.ts';
import { LIMITS } from '../src/sentences/limits.ts';
import { SURVEY } from '../src/sentences/survey.ts';
import { diagnosticsOn as surveyDiagnostics } from '../src/survey/diagnostics.ts';
import { car } from './coilover/cars.ts';
import { onPillar } from './corner/on-pillar.ts';
import { exampleText, type Json, roadsterText } from './document/support.ts';

import { isTable, type Table } from './messages/tables.ts';
import { givenUp } from './support/words.ts';

const source = join(import.meta.dirname, '../src');
const filesOf = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join(folder, file));

/** The tables of sentences: what the modules of `src/sentences` export that has words, or what makes them, under each name. */
const tables: Table[] = [];
for (const file of filesOf(join(source, 'sentences'))) {
  const exported: unknown[] = Object.values(await import(file));
  tables.push(...exported.filter(isTable));
}

/** What a source has in quotes, which of that it gives as the code of something, and what names it puts together end in. */
function quotedIn(text: string): { quoted: string[]; codes: string[]; endings: string[] } {
  const file = ts.createSourceFile('source.ts', text, ts.ScriptTarget.Latest, true);
  /** Which argument of a function is a code: it is called so. */
  const places = new Map([
    ['fault', 0],
    ['found', 1],
    ['having', 2],
  ]);
  const quoted: string[] = [];
  const endings: string[] = [];
  const codes: string[] = [];
  const each = (node: ts.Node, visit: (inner: ts.Node) => void) => {
    visit(node);
    node.forEachChild((inner) => each(inner, visit));
  };
  const literalsIn = (node: ts.Node) => {
    if (ts.isStringLiteral(node)) return [node.text];
    return ts.isConditionalExpression(node)
      ? [node.whenTrue, node.whenFalse].filter(ts.isStringLiteral).map(({ text }) => text)
      : [];
  };
  each(file, (node) => {
    if (!ts.isFunctionLike(node)) return;
    const place = node.parameters.findIndex(({ name }) => name.getText() === 'code');
    const holder = ts.isFunctionDeclaration(node) ? node : node.parent;
    if (place >= 0 && 'name' in holder && holder.name !== undefined) {
      places.set((holder.name as ts.Node).getText(), place);
    }
  });
  each(file, (node) => {
    if (ts.isStringLiteral(node)) quoted.push(node.text);
    if (ts.isTemplateTail(node) && /^[A-Z]\w{5}/.test(node.text)) endings.push(node.text);
    if (ts.isPropertyAssignment(node) && node.name.getText() === 'code') {
      codes.push(...literalsIn(node.initializer));
    }
    if (!(ts.isCallExpression(node) || ts.isNewExpression(node))) return;
    const place = places.get(node.expression.getText());
    const given = place === undefined ? undefined : node.arguments?.[place];
    if (given !== undefined) codes.push(...literalsIn(given));
  });
  return { quoted, codes, endings };
}

const sources = filesOf(source)
  .filter((file) => !file.startsWith(join(source, 'sentences')))
  .map((file) => quotedIn(readFileSync(file, 'utf8')));

describe('a sentence', () => {
  it.each(filesOf(join(source, 'sentences')))('of %s has no word that was given up', (file) => {
    const texts: string[] = [];
    const visit = (node: ts.Node) => {
      if (
        ts.isStringLiteralLike(node) ||
        ts.isTemplateHead(node) ||
        ts.isTemplateMiddleOrTemplateTail(node)
      ) {
        texts.push(node.text);
      }
      ts.forEachChild(node, visit);
    };
    visit(ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true));
    expect(texts.length).toBeGreaterThan(0);
    for (const text of texts) expect(givenUp(text)).toEqual([]);
  });
});

describe('a code', () => {
  const known = new Set(tables.flatMap((table) => Object.keys(table)));

  it('is found where it is given', () => {
    expect(
      quotedIn(`
        fault('one', path, { of: 'shock' });
        found(at, isTwo ? 'two' : 'three');
        const less = (code: string, at: string) => found([at], code);
        less('four', 'closed');
        class Slip { constructor(at: number, code: string) {} }
        throw new Slip(0, 'five');
        const made = { code: 'six', severity: 'note' };
      `).codes,
    ).toEqual(['one', 'two', 'three', 'four', 'five', 'six']);
  });

  it('has a sentence', () => {
    const codes = new Set(sources.flatMap(({ codes }) => codes));
    expect(codes.size).toBeGreaterThan(100);
    expect([...codes].filter((code) => !known.has(code))).toEqual([]);
  });

  it('stands in the source for each sentence', () => {
    const quoted = new Set(sources.flatMap(({ quoted }) => quoted));
    const endings = new Set(sources.flatMap(({ endings }) => endings));
    const isThere = (code: string) => quoted.has(code) || [...endings].some((end) => code.endsWith(end));
    expect([...known].filter((code) => !isThere(code))).toEqual([]);
  });

  it('has one sentence, unless any input may have it', () => {
    const several = [...known].filter((code) => {
      return new Set(tables.flatMap((table) => table[code] ?? [])).size > 1;
    });
    expect(several.filter((code) => ![INPUT, BOUNDED, kindSentences({})].some((any) => code in any))).toEqual(
      [],
    );
  });
});

const read = (change: (car: Json) => void) => () => {
  const car = JSON.parse(roadsterText());
  change(car);
  return readCar(car);
};
const front = (change: (front: Json) => void) => read(({ corners }) => change(corners.front));
const ordered = (parts: Json) => front((corner) => (corner.ordered = parts));
const correlated = (coordinates: string[], lowerTriangle: number[][]) =>
  front((corner) => {
    for (const [y, z] of [[9.25, 5.75]]) {
      corner.lowerArm.inner = [
        { value: y, plusMinus: 0.1 },
        { value: z, plusMinus: 0.1 },
      ];
    }
    corner.upperArm.inner = [{ value: 11.5, plusMinus: 0.1 }, 13.25];
    corner.correlations = { coordinates, lowerTriangle };
  });
const text = (written: string) => () => readCorner(written);
const surveyOf = (points: Json, more: Json = {}) => {
  return () => survey({ points, ...more });
};
const limited = (options: Json) => () => {
  const { lowerArm, upperArm, wheel, coilover } = JSON.parse(exampleText('front-corner.json'));
  return limits(doubleWishbone({ lowerArm, upperArm, wheel, coilover }), options);
};
const wishbone = (change: (corner: Json) => void) => () => {
  const corner = {
    lowerArm: { inner: [255, 165], outer: [640, 150] },
    upperArm: { inner: [310, 355], outer: [600, 375] },
    wheel: { centre: [705, 312], camber: -0.5 },
    coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
  };
  change(corner);
  return doubleWishbone(corner as Json);
};
const custom = (change: (input: Json) => void) => () => {
  const input = {
    drawing: {
      points: { pivot: [300, 300], hub: [700, 300], patch: [700, 0], eye: [500, 350], top: [400, 600] },
      ground: ['pivot', 'top'],
      bodies: { axle: ['pivot', 'hub', 'patch', 'eye'] },
    },
    upright: 'axle',
    wheelCentre: 'hub',
    contactPatch: 'patch',
    shock: { outer: 'eye', inner: 'top' },
  };
  change(input);
  return customCorner(input as Json);
};
const masses = {
  guess: { total: 1400, frontShare: 0.5 },
  added: [{ name: 'driver', mass: 170, frontShare: 0.5 }],
};

/** What is wrong with an input, and what it is told by among the rest. */
const wrong: [code: string, run: () => unknown][] = [
  ['missing', wishbone((corner) => delete corner.wheel)],
  ['wrongType', wishbone((corner) => (corner.lowerArm.inner = ['255 mm', 1, 2]))],
  ['wrongType', read(({ corners }) => (corners.front.sprungMass = '330 kg'))],
  [
    'springNotAtRide',
    read(({ corners }) => {
      corners.front.thirdSpring = { on: 'lowerArm', mount: [10.5, 10], rate: 60, extendedLength: 12 };
    }),
  ],
  ['notAPartOfCorner', read(({ corners }) => (corners.front.bar.on = 'rod'))],
  ['unknownChoice', wishbone((corner) => (corner.coilover.on = 'lower'))],
  ['unknownChoice', read((car) => (car.units = 'inches'))],
  ['outOfRange', wishbone((corner) => (corner.wheel.camber = 90))],
  ['outOfRange', front((corner) => (corner.sprungMass = -3))],
  ['unknownField', front((corner) => (corner.lowrArm = corner.masses = corner.damper = 1))],
  ['notOneOf', read((car) => (car.masses = { ...masses, parts: masses.added }))],
  ['noneOf', front((corner) => (corner.sizing = { unsprungMass: 80, springs: [{ name: 'A', free: 8 }] }))],
  ['moreThanOneOf', ordered({ perch: { setting: 4, seatDistances: { mount: 2, chassis: 2 } } })],
  ['wheelNotPlaced', wishbone((corner) => delete corner.wheel.camber)],
  ['otherEndMissing', wishbone((corner) => delete corner.coilover.chassisMount)],
  ['otherEndTwice', wishbone(({ coilover }) => (coilover.otherEnd = { on: 'upright', mount: [1, 2] }))],
  ['samePlace', wishbone(({ lowerArm }) => (lowerArm.inner = lowerArm.outer))],
  ['wheelNotAboveGround', wishbone(({ wheel }) => (wheel.centre = [705, -1]))],
  ['wheelNotAboveContactPatch', front(({ wheel }) => (wheel.contactPatch = [27, 20]))],
  [
    'bothEndsOnOnePart',
    wishbone(({ coilover }) => {
      coilover.otherEnd = { on: 'lowerArm', mount: coilover.chassisMount };
      delete coilover.chassisMount;
    }),
  ],
  ['jsonComment', text('{ // a comment\n}')],
  ['jsonTooDeep', text(`${'['.repeat(200)}${']'.repeat(200)}`)],
  ['jsonNameTwice', text('{ "name": "a",\n "name": "b" }')],
  ['jsonColonMissing', text('{ "name" "a" }')],
  ['jsonOtherBracket', text('{ "notes": ["a" } ]')],
  ['jsonBracketNotClosed', text('{ "notes": ["a"')],
  ['jsonNumberGoesOn', text('{ "sprungMass": 5 3/4 }')],
  ['jsonSemicolon', text('{ "name": "a"; "units": "metric" }')],
  ['jsonCommaMissing', text('{ "name": "a"\n "units": "metric" }')],
  ['jsonCommaTooMany', text('{ "name": "a", }')],
  ['jsonNameMissing', text("{ 'name': 1 }")],
  ['jsonNameWithoutQuotes', text('{ name: 1 }')],
  ['jsonTextNotClosed', text('{ "name": "a\n }')],
  ['jsonControlSign', text('{ "name": "a\tb" }')],
  ['jsonBackslash', text('{ "name": "C:\\data" }')],
  ['jsonNumber', text('{ "sprungMass": 012 }')],
  ['jsonNotFinite', text('{ "sprungMass": NaN }')],
  ['jsonValueMissing', text('{ "sprungMass": , }')],
  ['jsonTextWithoutQuotes', text('{ "name": roadster }')],
  ['jsonEmpty', text(' ')],
  ['jsonFileName', text('car.json')],
  ['jsonMoreText', text('{} {}')],
  ['damperLengthsExchanged', limited({ damper: { open: 300, closed: 400 } })],
  ['bumpStopHeightsExchanged', front(({ limits }) => (limits.bumpStop = { height: 1, solidHeight: 2 }))],
  ['strokeNotLessThanLength', front(({ limits }) => (limits.donor.stroke = 20))],
  ['bumpStopAsHighAsStroke', front(({ limits }) => (limits.bumpStop = { height: 6, solidHeight: 5 }))],
  ['lengthsExchanged', ordered({ damper: { extendedLength: 11, compressedLength: 14 } })],
  ['bumpStopWithoutDamper', limited({ bumpStop: { height: 20, solidHeight: 10 } })],
  ['archWithoutTyre', limited({ arch: [[700, 660]] })],
  ['notATyreSize', limited({ tyre: 'fat' })],
  ['notATyreSize', () => tyreFromSize('fat')],
  ['noDirection', front(({ limits }) => (limits.ballJoints.lowerOuter.studAxis = [0, 0]))],
  ['endDoesNotMove', front(({ limits }) => (limits.bearings = { otherEnd: limits.bearings.chassis }))],
  [
    'endMoves',
    front(({ coilover }) => {
      coilover.otherEnd = { on: 'upperArm', mount: coilover.chassisMount };
      delete coilover.chassisMount;
    }),
  ],
  ['unknownJoint', limited({ ballJoints: { lowerOutr: { maxArticulation: 20, housing: 'arm' } } })],
  ['holdsNotThisJoint', limited({ ballJoints: { lowerOuter: { maxArticulation: 20, housing: 'rod' } } })],
  ['notARevision', ordered({ revision: 'A/1' })],
  ['notADate', ordered({ date: '29.11.2026' })],
  ['dampingNotGiven', ordered({ valving: {} })],
  ['dampingMissing', ordered({ valving: { compressionDamping: 10 } })],
  ['dampingBesideForceTable', ordered({ valving: { forceTable: [[2, 20, 30]], kneeSpeed: 6 } })],
  [
    'tableNotRising',
    ordered({
      valving: {
        forceTable: [
          [2, 20, 30],
          [1, 30, 40],
        ],
      },
    }),
  ],
  ['unknownLoad', read((car) => (car.masses = { ...masses, states: [{ name: 'two', loads: ['luggage'] }] }))],
  ['unknownState', read((car) => (car.masses = { ...masses, designState: 'empty' }))],
  [
    'loadNamedTwice',
    read((car) => {
      car.masses = {
        ...masses,
        added: [...masses.added, ...masses.added],
        states: [{ name: 'a', loads: [] }],
      };
    }),
  ],
  [
    'stateNamedTwice',
    read((car) => {
      const state = { name: 'a', loads: [] };
      car.masses = { ...masses, states: [state, state] };
    }),
  ],
  ['pointNotPlaced', surveyOf({ P: {} })],
  ['nameAlike', surveyOf({ lowerInner: { at: [1, 2] }, lower_inner: { at: [1, 2] } })],
  ['unknownPoint', surveyOf({ P: { at: [1, 2] } }, { heights: [{ of: 'Q', is: 1 }] })],
  [
    'axisThroughAxisPoint',
    surveyOf({ A: { at: [1, 2], x: 9 }, P: { axis: ['A', 'Q'] }, Q: { axis: ['A', 'P'] } }),
  ],
  ['axisNotForeAndAft', surveyOf({ A: { at: [1, 2] }, B: { at: [1, 2] }, P: { axis: ['A', 'B'] } })],
  ['pointTwiceInReading', surveyOf({ A: { at: [1, 2] } }, { distances: [{ between: ['A', 'A'], is: 1 }] })],
  ['coordinateWithoutPlusMinus', correlated(['upperInnerZ'], [[]])],
  ['unknownCoordinate', correlated(['lowerInerY'], [[]])],
  ['namedTwice', correlated(['lowerInnerY', 'lowerInnerY'], [[], [1]])],
  ['rowsNotOfCoordinates', correlated(['lowerInnerY', 'lowerInnerZ'], [[]])],
  ['rowNotOfCoordinatesBefore', correlated(['lowerInnerY', 'lowerInnerZ'], [[1], [0, 1]])],
  ['notCorrelations', correlated(['lowerInnerY', 'lowerInnerZ', 'upperInnerY'], [[], [0.9], [0.9, -0.9]])],
  ['notADrawing', custom((input) => (input.drawing = 3))],
  ['unknownName', custom((input) => (input.upright = 'axel'))],
  ['pointNotOnPart', custom((input) => (input.wheelCentre = 'top'))],
  ['wheelNotAboveContactPatch', custom(({ drawing }) => (drawing.points.patch = [700, 300]))],
  ['bothEndsOnOnePart', custom((input) => (input.shock.inner = 'hub'))],
  ['onePointForTwo', custom((input) => (input.kingpin = { lower: 'hub', upper: 'hub' }))],
  [
    'twoPointsInOnePlace',
    custom((input) => {
      input.drawing.points.eye = [700, 300];
      input.kingpin = { lower: 'hub', upper: 'eye' };
    }),
  ],
  ['columnNameTaken', custom((input) => (input.angles = { camber: { turn: 'axle' } }))],
  ['noMeasureOfACar', front(({ wheel }) => (wheel.centre = [1e7, 10]))],
  ['notAFile', () => migrateFile(3)],
  ['newerFormat', read((car) => (car.formatVersion = 2))],
  ['carInPlaceOfCorner', text(roadsterText())],
  ['cornerInPlaceOfCar', () => readCar(exampleText('front-corner.json'))],
];

function issuesOf(run: () => unknown): readonly Issue[] {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

/** All of it but its words. */
const dataOf = ({ code, severity, path, values }: Issue) => ({ code, severity, path, values });

describe('a fault of a document', () => {
  it.each(wrong)('is %s', (code, run) => {
    const issues = issuesOf(run);
    expect(issues.map((issue) => issue.code)).toContain(code);
    for (const issue of issues) {
      expect(issue.severity).toBe('error');
      expect(givenUp(describeIssue(issue))).toEqual([]);
    }
  });

  it('is each of those of which there is a sentence', () => {
    const told = new Set(wrong.flatMap(([, run]) => issuesOf(run).map(({ code }) => code)));
    const others = new Set(tables.filter((table) => !('jsonEmpty' in table)).flatMap(Object.keys));
    const own = Object.keys({ ...FILE, ...DOCUMENT }).filter((code) => !others.has(code) || code in DOCUMENT);
    // What is scanned as JSON but not parsed is not known.
    expect(own.filter((code) => !told.has(code))).toEqual(['notJson']);
  });

  it('has no sentence among its values', () => {
    for (const [, run] of wrong) {
      for (const { values = {} } of issuesOf(run)) {
        // What was written is in `got`, and in the row of a table before it; a shape is written as in code.
        const { got: _, after: __, ...others } = values;
        for (const value of Object.values(others).flat()) {
          if (typeof value === 'string') expect(value).toMatch(/^([{[].*|\S*)$/);
        }
      }
    }
  });

  it('is the same data whatever the sentences say', () => {
    const before = wrong.map(([, run]) => issuesOf(run).map(dataOf));
    const kept = tables.map((table) => ({ ...table }));
    try {
      for (const table of tables) for (const code of Object.keys(table)) table[code] = { problem: 'x' };
      for (const [k, [, run]] of wrong.entries()) {
        const issues = issuesOf(run);
        expect(issues.map(dataOf)).toEqual(before[k]);
        for (const { problem } of issues) expect(problem).toBe('x');
      }
    } finally {
      for (const [k, table] of tables.entries()) Object.assign(table, kept[k]);
    }
  });
});

/** A double wishbone, to be changed: level arms 400 mm long, the coilover upright 300 mm out and 400 mm long. */
const level = (coilover: Json = {}, wheel: Json = {}) =>
  doubleWishbone({
    lowerArm: { inner: [250, 150], outer: [650, 150] },
    upperArm: { inner: [240, 370], outer: [640, 370] },
    wheel: { centre: [720, 300], camber: -1, ...wheel },
    coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 550], ...coilover },
  } as Json);
/** Three parallel arms, one of them longer. */
const locking = customCorner({
  drawing: {
    points: {
      ...{ a: [300, 100], b: [400, 100], c: [300, 220], d: [400, 220], e: [260, 160], f: [400, 160] },
      ...{ hub: [450, 160], patch: [450, 0], eye: [350, 100], top: [350, 400] },
    },
    ground: ['a', 'c', 'e', 'top'],
    bodies: {
      first: ['a', 'b', 'eye'],
      second: ['c', 'd'],
      third: ['e', 'f'],
      axle: ['b', 'd', 'f', 'hub', 'patch'],
    },
  },
  upright: 'axle',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});
/** An arm whose rod works a bell crank that the coilover is on. */
const cranked = customCorner({
  drawing: {
    points: {
      ...{ a: [300, 100], b: [400, 100], c: [300, 220], d: [400, 220], hub: [450, 160], patch: [450, 0] },
      ...{ rod: [350, 100], end: [350, 300], crank: [300, 300], eye: [300, 350], top: [100, 350] },
    },
    ground: ['a', 'c', 'crank', 'top'],
    bodies: {
      first: ['a', 'b', 'rod'],
      second: ['c', 'd'],
      axle: ['b', 'd', 'hub', 'patch'],
      rod: ['rod', 'end'],
      bell: ['crank', 'end', 'eye'],
    },
  },
  upright: 'axle',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});
const through = pushrod({
  lowerArm: { inner: [250, 160], outer: [630, 150] },
  upperArm: { inner: [300, 340], outer: [590, 360] },
  wheel: { centre: [700, 310], camber: 0 },
  rod: { on: 'lowerArm', mount: [560, 170], rockerMount: [300, 420] },
  rocker: { pivot: [250, 430] },
  coilover: { rockerMount: [235, 500], chassisMount: [-60, 500] },
});
const joint = { maxArticulation: 20, housing: 'arm' };
const bearing = (maxMisalignment: number) => ({ boltAxis: 'inPlane' as const, maxMisalignment });
const axes = { housingAxis: [0, 1], studAxis: [1, 1] } as const;

/** A design of the level corner: its lower mount moved for a ratio. */
const designed = (target: number, more: Partial<DesignOptions> = {}) =>
  design(level(), {
    mounts: { shockMount: { y: [500, 560] } },
    objectives: [{ quantity: 'designRatio', target }],
    travel: { bump: 30, droop: 30, step: 10 },
    starts: 2,
    ...more,
  });
const surveyed = JSON.parse(exampleText('survey.json'));
const apart = (value: number): SurveyInput => ({
  points: { A: { known: [0, 0] }, B: { known: [400, 0] }, P: { estimate: [150, -150] } },
  distances: [
    { between: ['A', 'P'], value: 300 },
    { between: ['B', 'P'], value: 250 },
  ],
  heights: [{ of: 'P', value, plusMinus: 20 }],
});

/** Results that carry diagnostics. */
const results: (() => unknown)[] = [
  () =>
    limits(level({ foreAftOffset: 20 }), {
      damper: { extendedLength: 440, compressedLength: 340 },
      bumpStop: { height: 30, solidHeight: 10 },
      springMinLengthAt: 345,
      tyre: { overallRadius: 310, width: 200 },
      arch: [
        [720, 700],
        [-720, 700],
      ],
      chassisLowPoints: [[200, 90]],
      ballJoints: { lowerOuter: { ...joint, studAxis: [0, 1] } },
      bearings: { mount: bearing(12.5) },
      required: { bump: 81, droop: 50 },
      donor: { length: 455, state: 'measured' },
    }),
  () =>
    limits(level({}, { camber: 0 }), {
      damper: { extendedLength: 390, compressedLength: 300 },
      springMinLengthAt: 403,
      tyre: { overallRadius: 300, width: 200 },
      arch: [[720, 590]],
      chassisLowPoints: [[0, -3]],
      ballJoints: { lowerOuter: { ...joint, ...axes } },
      bearings: { mount: { boltAxis: 'longitudinal', maxMisalignment: 12 } },
      required: { bump: 60 },
      donor: { length: 400, state: 'extended', stroke: 90 },
    }),
  () =>
    limits(level({ foreAftOffset: 100 }), {
      damper: { extendedLength: 550, compressedLength: 420 },
      bumpStop: { height: 50, solidHeight: 20 },
      bearings: { chassis: { boltAxis: 'longitudinal', maxMisalignment: 12 } },
      donor: { length: 330, state: 'compressed', stroke: 90 },
    }),
  () =>
    limits(level(), {
      damper: { extendedLength: 500, compressedLength: 399.8 },
      bumpStop: { height: 105, solidHeight: 0 },
      donor: { length: 300, state: 'compressed', stroke: 20 },
    }),
  () =>
    limits(level(), {
      damper: { extendedLength: 400, compressedLength: 300 },
      donor: { length: 600, state: 'extended', stroke: 20 },
    }),
  () => limits(level({ chassisMount: [550, 20] })),
  () => limits(level({ chassisMount: [900, 150] })),
  () => limits(onPillar, { required: { droop: 2000 } }),
  () => limits(locking),
  () => limits(through),
  () => handMethod(through),
  () => handMethod(cranked),
  () => handMethod(level({ on: 'upright', mount: [640, 200] })),
  () => handMethod(level({ chassisMount: undefined, otherEnd: { on: 'upperArm', mount: [500, 370] } })),
  () => handMethod(level({ chassisMount: [900, 150] })),
  () => handMethod(level()),
  () => handMethod(level(), { sprungMass: 300 }),
  () => handMethod(level(), { sprungMass: 300, springRate: 40 }),
  () => handMethod(level({ chassisMount: [850, 250] }), { sprungMass: 300, frequency: 0.2 }),
  () =>
    cornerForces(level(), {
      sprungMass: 160,
      unsprungMass: 30,
      springRate: 40,
      limits: {
        damper: { extendedLength: 450, compressedLength: 340 },
        ballJoints: { lowerOuter: { ...joint, housingAxis: [0, 1] } },
      },
    }),
  () =>
    forces(
      {
        points: { O: [0, 0], A: [50, 0], top: [50, 80] },
        ground: ['O', 'top'],
        bodies: { arm: ['O', 'A'] },
        ropes: { stay: ['top', 'A'] },
      },
      [{ at: 'A', force: [0, 7] }],
    ),
  () =>
    forces({ points: { O: [0, 0], A: [50, 0] }, ground: ['O'], bodies: { arm: ['O', 'A'] } }, [
      { at: 'A', force: [0, 7] },
    ]),
];

results.push(
  () => designed(0.7),
  () => designed(0.9),
  () => designed(0.5),
  () => designed(0.7, { clearances: { mountToArm: { upperArm: 500 } } }),
  () => designed(0.7, { signal: { aborted: true } }),
  () => designed(3, { mounts: { lowerInner: { y: [100, 630], z: [100, 500] } }, starts: 8 }),
  () =>
    design(level({ mount: [505, 170], chassisMount: [345, 480] }), {
      mounts: { shockMount: { y: [500, 560], z: [150, 350] } },
      objectives: [{ quantity: 'designRatio', target: 0.9 }],
      travel: { bump: 30, droop: 30, step: 10 },
      starts: 2,
      clearances: { mountToArm: { upperArm: 60 } },
    }),
  () =>
    designed(0.9, {
      objectives: [{ quantity: 'jointForce', joint: 'lowerOuter', tyre: [0, 3000], min: 1, max: 2 }],
      mounts: { shockMount: { z: [150, 350] } },
      clearances: { mountToArm: { upperArm: 60 } },
    }),
  () => {
    const made = designed(0.9);
    const [search] = made.searches;
    const unfinished = { ...made, searches: [{ ...search, status: 'evaluationLimit' as const }] };
    return designDiagnostics({ ...unfinished, status: 'evaluationLimit' }, new Map());
  },
  () =>
    designed(0.9, {
      mounts: { shockMount: { y: [500, 620] } },
      clearances: {
        springToTyre: 20,
        spring: { diameter: 76, seatOffset: 60 },
        tyre: { overallRadius: 310, width: 200 },
      },
    }),
  () => survey(surveyed),
  () => {
    const [lean, ...others] = surveyed.inclinations;
    return survey({ ...surveyed, inclinations: [{ ...lean, value: lean.value + 20 }, ...others] });
  },
  () => survey({ points: { A: { known: [0, 0] }, P: { estimate: [1, 2] } } }),
  () => survey(apart(187)),
  () => survey({ ...apart(187), heights: [] }),
  () => survey({ ...apart(187), heights: [{ of: 'P', value: 187, plusMinus: 20 }] }),
  () => survey({ ...apart(250) }),
  () => survey({ ...surveyed, distances: surveyed.distances.slice(0, 4) }),
  () => {
    const found = survey(surveyed);
    return [
      surveyDiagnostics({ ...found, status: 'stalled', chiSquare: null, pValue: null }),
      surveyDiagnostics({ ...found, status: 'iterationLimit', pValue: 0.5 }),
      surveyDiagnostics({ ...found, status: 'notFinite', pValue: 0.9999, foreAftSuspects: ['shockMount'] }),
    ];
  },
);

/** Sizings: beside diagnostics they have what each figure means. */
const sizings: (() => unknown)[] = [
  (document: Json) => {
    document.openQuestions = ['The arch is not cut yet.'];
    document.corners.front.thirdSpring = { on: 'lowerArm', mount: [275, 280], rate: 4, preload: 200 };
    document.corners.front.rollSpring = {
      on: 'lowerArm',
      mount: [275, 280],
      right: { on: 'lowerArm', mount: [270, 40] },
      rate: 4,
    };
    for (const { limits, sizing } of Object.values<Json>(document.corners)) {
      delete limits.damper;
      delete sizing.rateStep;
      sizing.damping = { ratio: 0.3, kneeSpeed: 100 };
    }
  },
  (document: Json) => {
    delete document.masses;
    delete document.travelCases;
    delete document.corners.rear.sizing;
    document.corners.front.sprungMass = 150;
  },
  (document: Json) => {
    document.travelCases.lateralAcceleration = 3;
  },
  (document: Json) => {
    const { lowerArm, wheel, sizing } = document.corners.rear;
    const strut = { topMount: [540, 830], lowerMount: [620, 330] };
    document.corners.rear = { kind: 'strut', lowerArm, wheel, strut, sizing };
    document.corners.front.sizing.springs = [{ name: 'S', rate: 20, freeLength: 200, solidLength: 80 }];
    document.masses = {
      scales: { frontLeft: 170, frontRight: 168, rearLeft: 182, rearRight: 180, perches: 'untouched' },
    };
  },
].map((change) => () => sizeCoilovers(readCar(car(change))));
sizings.push(() => sizeCoilovers(readCar(exampleText('car-weighed.json'))));

/** Every diagnostic in a result, wherever it stands. */
function diagnosticsIn(result: unknown): Diagnostic[] {
  if (typeof result !== 'object' || result === null) return [];
  return 'severity' in result ? [result as Diagnostic] : Object.values(result).flatMap(diagnosticsIn);
}

describe('a result', () => {
  const own = {
    ...LIMITS,
    ...DONOR_DAMPER,
    ...HAND_METHOD,
    ...FORCES,
    ...DESIGNED,
    ...SURVEY,
    ...ASSUMPTIONS,
    ...OPEN_QUESTIONS,
  };
  const all = [...results, ...sizings];

  it('has each of the diagnostics of which there is a sentence', () => {
    const codes = new Set(all.flatMap((run) => diagnosticsIn(run()).map(({ code }) => code)));
    expect(Object.keys(own).filter((code) => !codes.has(code))).toEqual([]);
  });

  it('has no sentence among its data', () => {
    const names = (data: unknown): string[] => {
      if (typeof data === 'string') return [data];
      return typeof data === 'object' && data !== null ? Object.values(data).flatMap(names) : [];
    };
    for (const run of all) {
      for (const { values } of diagnosticsIn(run())) {
        // Names that the user gives, or that a list of inputs has.
        const { case: _, constraint: __, text: ___, state: ____, input: _____, ...others } = values;
        for (const value of names(others)) expect(value).toMatch(/^\S*$/);
      }
    }
    for (const run of results) {
      for (const name of names(run())) expect(name).not.toMatch(/[.:]$|\d /);
    }
  });

  it('is said in whole sentences, in the units asked for', () => {
    for (const one of all.flatMap((run) => diagnosticsIn(run()))) {
      const [metric, imperial] = [sentence(one), sentence(one, 'imperial')];
      for (const words of [metric, imperial]) {
        expect(words).toMatch(/^[A-Z\d[].*[.?]$/);
        expect(words).not.toMatch(/undefined|null|NaN|Infinity|\.\.|-0(?![.\d])/);
        expect(givenUp(words)).toEqual([]);
      }
      expect(metric).not.toMatch(/ (inch|lbf)\b/);
      expect(imperial).not.toMatch(/\d (mm|N)\b/);
      expect(describeIssue(one).startsWith(one.path)).toBe(true);
    }
  });

  it('is the same data whatever the sentences say', () => {
    const before = all.map((run) => JSON.stringify(run()));
    const kept = tables.map((table) => ({ ...table }));
    try {
      for (const table of tables) for (const code of Object.keys(table)) table[code] = { problem: 'x' };
      expect(all.map((run) => JSON.stringify(run()))).toEqual(before);
    } finally {
      for (const [k, table] of tables.entries()) Object.assign(table, kept[k]);
    }
  });
});

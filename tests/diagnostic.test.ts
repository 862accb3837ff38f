/**
 * Diagnostics and their sentences: every code has one, every one is used, and nothing but what is read depends on them. The words
 * themselves are checked where each is found.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  customCorner,
  doubleWishbone,
  InputError,
  type Issue,
  limits,
  readCar,
  readCorner,
  survey,
  tyreFromSize,
} from 'jounce';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { DOCUMENT } from '../src/sentences/document.ts';
import { FILE } from '../src/sentences/file.ts';
import { exampleText, type Json, roadsterText } from './document/support.ts';

const source = join(import.meta.dirname, '../src');
const filesOf = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join(folder, file));

type Table = Record<string, unknown>;

/** The tables of sentences: what the modules of `src/sentences` export that has words, or what makes them, under each name. */
const tables: Table[] = [];
for (const file of filesOf(join(source, 'sentences'))) {
  const exported: unknown[] = Object.values(await import(file));
  tables.push(...exported.filter(isTable));
}

function isTable(value: unknown): value is Table {
  const isSentence = (one: unknown) =>
    typeof one === 'function' || (typeof one === 'object' && one !== null && 'problem' in one);
  return typeof value === 'object' && value !== null && Object.values(value).every(isSentence);
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
    for (const issue of issues) expect(issue.severity).toBe('error');
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

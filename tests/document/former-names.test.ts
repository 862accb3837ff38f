/** Files with the names that fields had before 1.0: each name is told with the one of today. */
import {
  InputError,
  type Issue,
  limits,
  migrateFile,
  orderSheet,
  readCar,
  readCorner,
  sheetMarkdown,
  sizeCoilovers,
  survey,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { FORMER_CHOICES, FORMER_NAMES, type FormerName } from '../../src/document/former-names.ts';
import { exampleText, type Json } from './support.ts';

const example = (name: string): Json => JSON.parse(exampleText(name));

/** Documents that together have every field of the table under its name of today. */
const DOCUMENTS: readonly { readonly read: (document: Json) => unknown; readonly document: Json }[] = [
  { read: readCar, document: wholeCar() },
  { read: readCar, document: carInParts() },
  { read: readCorner, document: example('strut-corner.json') },
  { read: survey, document: wholeSurvey() },
];

function wholeCar(): Json {
  const car = example('car.json');
  const { limits, sizing } = car.corners.front;
  car.masses.estimate.leftFraction = 0.5;
  limits.springMinLengthAt = 9;
  limits.donor = { length: 11, state: 'compressed', stroke: 3.5 };
  limits.bearings.mount.boltAxis = 'longitudinal';
  sizing.target = { frequency: 1.6, withTyre: true };
  sizing.perch.setting = 7;
  sizing.springs[0].wire = { diameter: 0.4, meanDiameter: 2.9, totalCoils: 8, ends: 'closedGround' };
  sizing.helper = { rate: 40, freeLength: 2, solidLength: 1, separatorHeight: 0.25 };
  sizing.damping.shaftSpeeds = [2, 6, 12];
  sizing.order.handed = 'mirrored';
  car.corners.rear.limits.donor = { length: 16, state: 'extended' };
  return car;
}

function carInParts(): Json {
  const car = example('car-weighed.json');
  const parts = ['engine', 'all else'].map((name, k) => ({
    name,
    mass: k === 0 ? 300 : 1200,
    frontFraction: 0.5,
    leftFraction: 0.5,
  }));
  const loads = [{ name: 'luggage', mass: 40, frontFraction: 0.3, leftFraction: 0.5 }];
  car.masses = { ...car.masses, scales: undefined, parts, states: [{ name: 'packed', loads }] };
  car.masses.designState = 'packed';
  return JSON.parse(JSON.stringify(car));
}

function wholeSurvey(): Json {
  const readings = example('survey.json');
  const [one, other] = Object.keys(readings.points);
  readings.points.floor = { known: [0, 0] };
  readings.points.between = { estimate: [400, 150] };
  readings.laterals ??= [];
  readings.laterals.push({ of: 'floor', value: 0 });
  readings.collinear = [{ point: 'between', line: [one, other] }];
  return readings;
}

interface Spot {
  readonly holder: Json;
  readonly path: string;
}

/** Where a document has a field of a name within one of some others. */
function spots(document: Json, { within, is }: FormerName, path = '', holder = ''): Spot[] {
  if (typeof document !== 'object' || document === null) return [];
  const inList = Array.isArray(document);
  const isPoint = within.includes('*') && /^points\.[^.]+$/.test(path);
  const own = !inList && Object.hasOwn(document, is) && (within.includes(holder) || isPoint);
  return [
    ...(own ? [{ holder: document, path: path === '' ? '' : `${path}.` }] : []),
    ...Object.entries<Json>(document).flatMap(([key, inner]) =>
      inList
        ? spots(inner, { within, is, was: '' }, `${path}[${key}]`, holder)
        : spots(inner, { within, is, was: '' }, path === '' ? key : `${path}.${key}`, key),
    ),
  ];
}

/** The field under its former name, in its place among the others. */
function renameBack(holder: Json, { was, is }: FormerName): void {
  const entries = Object.entries(holder);
  for (const [name] of entries) delete holder[name];
  for (const [name, value] of entries) holder[name === is ? was : name] = value;
}

function issuesOf(read: () => unknown): readonly Issue[] {
  try {
    read();
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

describe('the documents of this test', () => {
  it.each(DOCUMENTS)('are right under the names of today, %#', ({ read, document }) => {
    expect(() => read(document)).not.toThrow();
  });
});

describe('a former name', () => {
  it.each(FORMER_NAMES)(
    '$was, within $within, is told as $is wherever it stands, and nothing else is told',
    (name) => {
      const holders = new Set<string>();
      for (const { read, document } of DOCUMENTS) {
        for (let k = 0; k < spots(document, name).length; k++) {
          const old = structuredClone(document);
          const { holder, path } = spots(old, name)[k];
          const value = holder[name.is];
          renameBack(holder, name);
          holders.add(path);
          const issues = issuesOf(() => read(old));
          expect(issues).toHaveLength(1);
          expect(issues[0]).toMatchObject({
            path: `${path}${name.was}`,
            code: 'renamed',
            severity: 'error',
            values: { was: name.was, is: name.is },
            problem: `renamed: "${name.was}" is now called "${name.is}"`,
            advice: `write ${name.is}`,
          });
          const text = JSON.stringify(value);
          expect(issues[0].got).toBe(text.length > 60 ? `${text.slice(0, 57)}...` : text);
        }
      }
      // Each of the fields that may hold it does so here.
      for (const within of name.within) {
        if (within === '*' || within === '') expect(holders.size).toBeGreaterThan(0);
        else if (!['shock', 'otherEnd'].includes(within)) {
          expect(
            [...holders].some((path) => new RegExp(`(^|\\.)${within}(\\[\\d+\\])?\\.$`).test(path)),
            within,
          ).toBe(true);
        }
      }
    },
  );

  it.each(FORMER_CHOICES)('of a choice, $was, is told as $is', ({ within: [field], was, is }) => {
    const { document, read } = DOCUMENTS[0];
    const found = spots(document, { within: ['mount', 'chassis', 'donor'], was: '', is: field });
    const places = found.filter(({ holder }) => holder[field] === is);
    expect(places.length).toBeGreaterThan(0);
    for (const { path } of places) {
      const old = structuredClone(document);
      const there = spots(old, { within: ['mount', 'chassis', 'donor'], was: '', is: field });
      const { holder } = there.find((one) => one.path === path) as Spot;
      holder[field] = was;
      expect(issuesOf(() => read(old))).toMatchObject([
        {
          path: `${path}${field}`,
          problem: `renamed: "${was}" is now called "${is}"`,
          got: `"${was}"`,
          advice: `write "${is}"`,
        },
      ]);
    }
  });

  it('is told once for each field of a file that has all of them, and beside every other mistake', () => {
    for (const { read, document } of DOCUMENTS) {
      const old: Json = structuredClone(document);
      const wanted: string[] = [];
      // Those inside first: their holders are looked for under the names of today.
      for (const name of [...FORMER_NAMES].reverse()) {
        for (const { holder } of spots(old, name)) {
          renameBack(holder, name);
          wanted.push(`renamed: "${name.was}" is now called "${name.is}"`);
        }
      }
      const issues = issuesOf(() => read(old));
      expect(issues.map(({ problem }) => problem).sort()).toEqual(wanted.sort());
      old.colour = 'red';
      expect(issuesOf(() => read(old))).toHaveLength(wanted.length + 1);
    }
  });

  it('gives way to the name of today, and nothing else changes, where the file is migrated', () => {
    for (const { read, document } of DOCUMENTS) {
      const old: Json = structuredClone(document);
      const places: string[] = [];
      for (const name of [...FORMER_NAMES].reverse()) {
        for (const { holder } of spots(old, name)) {
          renameBack(holder, name);
          places.push(`${name.was} ${name.is}`);
        }
      }
      const text = JSON.stringify(old);
      const { file, renamed } = migrateFile(text);
      const { formatVersion: _, ...rest } = document;
      const { formatVersion, ...migrated } = file;
      expect(formatVersion).toBe(1);
      expect(JSON.stringify(migrated)).toBe(JSON.stringify(rest));
      expect(() => read(file)).not.toThrow();
      expect(renamed.map(({ values }) => `${values.was} ${values.is}`).sort()).toEqual(places.sort());
      expect(renamed.map(({ path }) => path)).toEqual(issuesOf(() => read(old)).map(({ path }) => path));
      // What is migrated is of today, and data is migrated as its text is.
      expect(migrateFile(file)).toEqual({ file, renamed: [] });
      expect(migrateFile(old)).toEqual({ file, renamed });
      expect(JSON.stringify(old)).toBe(text);
    }
  });

  it('does not hide a mistake in what it names, which is told where it was written', () => {
    const car = example('car.json');
    car.corners.front.limits.damper = { open: 11, closed: '14,75' };
    car.corners.front.sizing.springs = [{ name: 'A', free: 9, coil: { wire: -1, coils: 8 } }];
    const told = issuesOf(() => readCar(car)).map(({ path, problem }) => `${path}: ${problem}`);
    const [limitsAt, springAt] = ['corners.front.limits.damper', 'corners.front.sizing.springs[0]'];
    expect(told).toEqual([
      `${limitsAt}.open: renamed: "open" is now called "extendedLength"`,
      `${limitsAt}.closed: renamed: "closed" is now called "compressedLength"`,
      `${limitsAt}.closed: wrong kind of value`,
      `${springAt}.free: renamed: "free" is now called "freeLength"`,
      `${springAt}.coil: renamed: "coil" is now called "wire"`,
      `${springAt}.coil.wire: renamed: "wire" is now called "diameter"`,
      `${springAt}.coil.wire: out of range`,
      `${springAt}.coil.coils: renamed: "coils" is now called "totalCoils"`,
      `${springAt}.coil.meanDiameter: missing`,
      `${springAt}.coil.ends: missing`,
    ]);
  });

  it('beside the new one is to be taken out', () => {
    const car = example('car.json');
    car.corners.front.limits.damper.open = 15;
    expect(issuesOf(() => readCar(car))).toMatchObject([
      {
        path: 'corners.front.limits.damper.open',
        problem: 'renamed: "open" is now called "extendedLength"',
        advice: 'extendedLength is there too: take open out',
      },
    ]);
  });

  it('is told of the input of a function too', () => {
    const { corner } = readCorner(example('strut-corner.json'));
    const old = { damper: { open: 480, closed: 380 } } as unknown as Parameters<typeof limits>[1];
    expect(issuesOf(() => limits(corner, old)).map(({ path, advice }) => [path, advice])).toEqual([
      ['damper.open', 'write extendedLength'],
      ['damper.closed', 'write compressedLength'],
    ]);
  });

  it('is looked for in lists too, whatever other fields these have', () => {
    const car = example('car.json');
    Object.assign(car.corners.front.sizing.springs, { constructor: 3 });
    car.masses = { guess: car.masses.estimate };
    expect(issuesOf(() => readCar(car)).map(({ path }) => path)).toContain('masses.guess');
  });

  it('of another field is an unknown name', () => {
    const car = example('car.json');
    car.corners.front.limits.bumpStop.guess = 1;
    expect(issuesOf(() => readCar(car))).toMatchObject([{ problem: 'unknown field' }]);
  });
});

describe('a file to migrate', () => {
  it('keeps what is wrong in it, for reading to tell', () => {
    const car = example('car.json');
    car.colour = 'red';
    car.masses = { guess: { total: 'heavy' } };
    const { file, renamed } = migrateFile(car);
    expect(file).toMatchObject({ colour: 'red', masses: { estimate: { total: 'heavy' } } });
    expect(renamed.map(({ path }) => path)).toEqual(['masses.guess']);
    expect(issuesOf(() => readCar(file)).map(({ path }) => path)).toContain('colour');
  });

  it('is refused where it is of a later format, has a field under both names, or is no file', () => {
    const both = example('car.json');
    both.corners.front.limits.damper.open = 15;
    const codes = (input: unknown) =>
      issuesOf(() => migrateFile(input)).map(({ code, path }) => [code, path]);
    expect(codes(both)).toEqual([['renamed', 'corners.front.limits.damper.open']]);
    expect(codes({ ...example('car.json'), formatVersion: 2, colour: 'red' })).toEqual([
      ['newerFormat', 'formatVersion'],
    ]);
    for (const input of [null, 3, '3', [], undefined]) expect(codes(input)).toEqual([['notAFile', '']]);
    expect(codes('{"units": "metric", "units": "imperial"}')).toEqual([['jsonNameTwice', 'units']]);
    expect(codes('{')).toHaveLength(1);
  });
});

describe('the version of the format', () => {
  it('is 1, and is taken as 1 where it is left out', () => {
    const { formatVersion, ...car } = example('car.json');
    expect(formatVersion).toBe(1);
    expect(readCar(car)).toEqual(readCar({ ...car, formatVersion }));
  });

  it('is the only thing that is said of a file of a later one', () => {
    for (const { read, document } of DOCUMENTS)
      expect(issuesOf(() => read({ ...document, formatVersion: 2, colour: 'red' }))).toMatchObject([
        { code: 'newerFormat', path: 'formatVersion', got: '2', allowed: '1', advice: 'update jounce' },
      ]);
  });

  it('is no other number and no text', () => {
    for (const version of [0, 1.5, -1, '1', null, true])
      expect(
        issuesOf(() => readCar({ ...example('car.json'), formatVersion: version })).map(({ path }) => path),
      ).toEqual(['formatVersion']);
  });
});

describe('the end of a coilover', () => {
  it('may be written fork, and is a clevis on the order', () => {
    const sheetOf = (type: string) => {
      const car = example('car.json');
      car.corners.front.sizing.order.mounts.mount.type = type;
      return sheetMarkdown(orderSheet(sizeCoilovers(readCar(car))));
    };
    expect(sheetOf('clevis')).toMatch(/\| type \| clevis \| eye \|/);
    expect(sheetOf('fork')).toBe(sheetOf('clevis'));
  });
});

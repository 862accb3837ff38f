// The command but for `order`: what it prints and writes, how it refuses, and what its exit codes say.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  axle,
  carJsonSchema,
  compareSizings,
  limits,
  readCar,
  readCorner,
  sizeCoilovers,
  survey,
  sweep,
  sweepAxle,
} from 'jounce';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/command/commands.ts';
import { faults, readPaper } from '../report/paper.ts';
import { givenUp } from '../support/words.ts';
import { called } from './called.ts';

const root = join(import.meta.dirname, '../..');
const example = (name: string) => join(root, 'docs/examples', name);
const [CAR, CORNER] = [example('car.json'), example('front-corner.json')];
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'jounce-command-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** Numbers as JSON has them. */
const plain = (data: unknown) =>
  JSON.parse(JSON.stringify(data, (_, value) => (value instanceof Float64Array ? [...value] : value)));

describe('help', () => {
  it('fits a screen and names every option', async () => {
    const { out, code } = await called();
    expect(code).toBe(0);
    for (const [name, { options, summary }] of Object.entries(COMMANDS)) {
      expect(out).toContain(summary);
      const help = await called(name, '--help');
      expect(help.code).toBe(0);
      const lines = help.out.split('\n');
      expect(lines.length).toBeLessThanOrEqual(24);
      expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(105);
      for (const option of Object.keys(options)) expect(help.out, name).toContain(`--${option}`);
      expect(givenUp(help.out)).toEqual([]);
      expect(await called('help', name)).toEqual(help);
    }
  });

  it('has the version of the package beside it', async () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(await called('--version')).toEqual({ out: version, complaints: '', code: 0 });
  });

  it('is what a mistyped command gets, with exit code 2', async () => {
    for (const words of [
      ['ordr', CAR],
      ['order', CAR, '--ot', folder],
      ['order', CAR, CAR],
      ['order'],
      ['corner', CAR, '--axle', 'left'],
      ['corner', CAR, '--units', 'inches'],
      ['axle', CAR, '--roll', '1,two'],
      ['schema', 'cra'],
      ['compare', CAR],
    ]) {
      const { out, complaints, code } = await called(...words);
      expect([words, out, code]).toEqual([words, '', 2]);
      expect(complaints).toMatch(/\S/);
    }
  });
});

describe('migrate', () => {
  it('writes a file of an earlier version with the names of today, and lists them', async () => {
    const car = JSON.parse(readFileSync(CAR, 'utf8'));
    const { estimate, ...masses } = car.masses;
    const old = file('old.json', JSON.stringify({ ...car, masses: { ...masses, guess: estimate } }));
    expect((await called('order', old, '--json')).code).toBe(1);
    const fresh = join(folder, 'new.json');
    const { out, complaints, code } = await called('migrate', old, '--out', fresh);
    expect([complaints, code]).toEqual(['', 0]);
    expect(out).toBe(`  masses.guess -> estimate\nWritten: ${fresh}`);
    const migrated = JSON.parse(readFileSync(fresh, 'utf8'));
    expect(readCar(migrated)).toEqual(readCar(car));
    expect((await called('migrate', fresh)).out).toBe(JSON.stringify(migrated, null, 2));
    expect((await called('migrate', fresh, '--out', fresh)).out).toContain('No field has a former name.');
  });
});

describe('a file of readings to fill in', () => {
  it.each(['metric', 'imperial'])('agrees with itself, and gives a corner: %s', async (units) => {
    const readings = join(folder, 'readings.json');
    const started = await called('start', readings, '--survey', '--units', units);
    expect(started.out).toContain(`then: jounce survey ${readings}`);
    const found = survey(readFileSync(readings, 'utf8'));
    expect(found.units).toBe(units);
    expect(found.suspects).toEqual([]);
    expect(found.diagnostics.map(({ code }) => code)).not.toContain('readingsContradict');
    const into = file('car.json', (await called('start', '--units', units)).out);
    const { out, code } = await called('survey', readings, '--into', into, '--corner', 'front');
    expect(code).toBe(0);
    const [before, after] = [readFileSync(into, 'utf8'), out].map(
      (text) => readCar(text).corners.front.corner,
    );
    const places = [before, after].map((corner) => [corner.wheel.centre, corner.coilover?.chassisMount]);
    places[0]
      .flat()
      .forEach((mm, k) => expect(Math.abs(Number(mm) - Number(places[1].flat()[k]))).toBeLessThan(2));
  });
});

describe('corner', () => {
  it('prints a file of one corner, in the units asked for', async () => {
    const { out, complaints, code } = await called('corner', CORNER);
    expect([complaints, code]).toEqual(['', 0]);
    expect(out).toContain('== Front corner ==');
    expect(out).toMatch(/dead point at 243\.\d mm of droop/);
    expect((await called('corner', CORNER, '--units', 'imperial')).out).toMatch(
      /dead point at 9\.\d\d in of droop/,
    );
    expect(givenUp(out)).toEqual([]);
  });

  it('prints both corners of a car, and writes their files', async () => {
    const { out, code } = await called('corner', CAR, '--out', join(folder, 'made'));
    expect(code).toBe(0);
    expect(out).toMatch(/== Car front ==[\s\S]*== Car rear ==/);
    expect(out).toContain('The bump stop is left out: the file gives no damper lengths.');
    for (const axle of ['front', 'rear']) {
      expect(faults(readPaper(readFileSync(join(folder, `made/car-${axle}.svg`), 'utf8')))).toEqual([]);
      for (const end of ['csv', 'txt'])
        expect(existsSync(join(folder, `made/car-${axle}.${end}`))).toBe(true);
    }
  });

  it('prints the columns and limits of the library as data', async () => {
    const { corner } = readCorner(readFileSync(CORNER, 'utf8'));
    const { out } = await called('corner', CORNER, '--json');
    const found = JSON.parse(out).corner;
    expect(found.limits).toEqual(plain(limits(corner)));
    const { travel, installationRatio } = found.columns;
    const curves = sweep(corner, { bump: travel.at(-1), droop: -travel[0] });
    travel.forEach((at: number, k: number) => {
      expect(installationRatio[k]).toBeCloseTo(curves.at(at).installationRatio!, 9);
    });
  });

  it('says what is wrong with a file of the reader, and nothing else', async () => {
    const given = JSON.parse(readFileSync(CORNER, 'utf8'));
    const wrong = await called(
      'corner',
      file('wrong.json', JSON.stringify({ ...given, upperArm: { inner: [1, 2] } })),
    );
    expect(wrong).toMatchObject({ out: '', code: 1 });
    expect(wrong.complaints).toBe(
      [
        'Invalid corner file.\n',
        'Missing.',
        '  found:    upperArm.outer',
        '  required: a point: two finite numbers [y, z]',
        '  fix:      add it',
      ].join('\n'),
    );
    const garbled = await called('corner', file('garbled.json', '{ "lowerArm": '));
    expect(garbled).toMatchObject({ out: '', code: 1 });
    expect(garbled.complaints).toMatch(/^Invalid corner file\.\n\n.*\n {2}found: {4}line 1, column \d+/);
    const missing = await called('corner', join(folder, 'nowhere.json'));
    expect(missing).toMatchObject({ out: '', code: 1 });
    expect(missing.complaints).toMatch(
      /^There is no file ".*nowhere\.json"\.\n {2}found: {4}[\s\S]*\n {2}required: [\s\S]*\n {2}fix: {6}\S/,
    );
    for (const { complaints } of [wrong, garbled, missing]) {
      expect(Math.max(...complaints.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(100);
    }
  });

  it('finds a file by its name without .json', async () => {
    file('mine.json', readFileSync(CORNER, 'utf8'));
    expect((await called('corner', join(folder, 'mine'))).code).toBe(0);
  });

  it('names the folder and the file that it cannot write, and not the file that it has read', async () => {
    const target = file('out', 'a file');
    const first = await called('corner', CORNER, '--out', target);
    expect(first.code).toBe(1);
    expect(first.complaints).toMatch(/not a folder that can be made\.[\s\S]*\/out \(EEXIST/);
    expect(first.complaints).not.toContain('front-corner');
    const taken = join(folder, 'made');
    mkdirSync(join(taken, 'front-corner.svg'), { recursive: true });
    const second = await called('corner', CORNER, '--out', taken);
    expect(second.code).toBe(1);
    expect(second.complaints).toMatch(/not a file that can be written\.[\s\S]*front-corner\.svg \(EISDIR/);
    const third = await called('corner', folder);
    expect([third.code, third.complaints.includes(`${folder} (EISDIR`)]).toEqual([1, true]);
  });
});

describe('axle', () => {
  it('prints what the sweep of the axle has, and draws it', async () => {
    const { corner } = readCorner(readFileSync(CORNER, 'utf8'));
    const { out, code } = await called('axle', CORNER, '--roll', '0,2', '--heave', '10', '--out', folder);
    expect(code).toBe(0);
    for (const row of sweepAxle(axle({ left: corner }), { heave: [10], roll: [0, 2] }).rows()) {
      expect(out).toContain(row.rightShockLength.toFixed(1));
      expect(out).toContain(row.leftCamber.toFixed(2));
    }
    for (const end of ['axle', 'axle-limits'])
      expect(faults(readPaper(readFileSync(join(folder, `front-corner-${end}.svg`), 'utf8')))).toEqual([]);
    const data = JSON.parse((await called('axle', CORNER, '--json')).out);
    expect(data.columns.roll).toEqual([-3, -2, -1, 0, 1, 2, 3]);
  });
});

describe('survey', () => {
  const readings = example('survey.json');

  it('prints the points, and puts them into a car file that can be read', async () => {
    const { out, code } = await called('survey', readings);
    expect(code).toBe(0);
    expect(out).toMatch(/lower outer +657\.8 ± 3\.5 +157\.8 ± 2\.2/);
    const into = await called(
      'survey',
      readings,
      '--into',
      CAR,
      '--corner',
      'front',
      '--out',
      join(folder, 'new.json'),
    );
    expect([into.complaints, into.code]).toEqual(['', 0]);
    const { corners } = readCar(readFileSync(join(folder, 'new.json'), 'utf8'));
    expect(corners.front.corner).toMatchObject({
      lowerArm: { outer: [expect.closeTo(657.8, 0), expect.closeTo(157.8, 0)] },
    });
    // On standard output there is the file and nothing else.
    const piped = await called('survey', readings, '--into', CAR, '--corner', 'front');
    expect(JSON.parse(piped.out)).toEqual(JSON.parse(readFileSync(join(folder, 'new.json'), 'utf8')));
  });
});

describe('compare, design, schema and start', () => {
  it('compares two files as the library does', async () => {
    const car = JSON.parse(readFileSync(CAR, 'utf8'));
    car.masses.added[0].mass = 230;
    const heavier = file('heavier.json', JSON.stringify(car));
    const { out } = await called('compare', CAR, heavier, '--json');
    const [before, after] = [CAR, heavier].map((name) => sizeCoilovers(readCar(readFileSync(name, 'utf8'))));
    expect(JSON.parse(out)).toEqual(plain(compareSizings(before, after)));
    const text = await called('compare', CAR, heavier);
    expect(text.out).toMatch(/The order (stays|changes)|The coilovers stay/);
    expect(text.out).not.toMatch(/\\[[\]]/);
  });

  it('moves mounts for the goals of a file', async () => {
    const { out, complaints, code } = await called('design', CAR, example('goals.json'), '--out', folder);
    expect([complaints, code]).toEqual(['', 0]);
    expect(out).toMatch(/installation ratio/);
    expect(faults(readPaper(readFileSync(join(folder, 'car-design.svg'), 'utf8')))).toEqual([]);
    const wrong = await called('design', CAR, file('goals.json', '{ "mount": {} }'));
    expect(wrong).toMatchObject({ out: '', code: 1 });
    expect(wrong.complaints).toMatch(/mount/);
  });

  it('prints a schema', async () => {
    expect(JSON.parse((await called('schema', 'car')).out)).toEqual(carJsonSchema());
  });

  it.each(['metric', 'imperial'] as const)(
    'starts a car file that sizes without a conflict, %s',
    async (units) => {
      const name = join(folder, 'my-car.json');
      expect((await called('start', name, '--units', units)).code).toBe(0);
      const car = readCar(readFileSync(name, 'utf8'));
      expect([car.units, car.notes]).toEqual([units, []]);
      expect(sizeCoilovers(car).conflicts).toEqual([]);
      // Never over a file that is there.
      const again = await called('start', name);
      expect([again.code, again.complaints.includes('already')]).toEqual([1, true]);
    },
  );
});

describe('lines', () => {
  it('answer each document in its order, refused ones too', async () => {
    const corner = JSON.parse(readFileSync(CORNER, 'utf8'));
    const jobs = [{ id: 'a', document: corner }, { id: 'b', document: { ...corner, upperArm: 3 } }, corner];
    const given = file('jobs.jsonl', `${jobs.map((job) => JSON.stringify(job)).join('\n')}\nnot json\n`);
    const { out, code } = await called('corner', given, '--lines');
    expect(code).toBe(1);
    const answers = out.split('\n').map((line) => JSON.parse(line));
    expect(answers.map(({ id }) => id)).toEqual(['a', 'b', 3, 4]);
    expect(answers.map((one) => 'result' in one)).toEqual([true, false, true, false]);
    expect(answers[0].result).toEqual(answers[2].result);
    expect(answers[1].issues[0].path).toBe('upperArm');
  });
});

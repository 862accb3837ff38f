/** Documents with more mistakes than anyone reads: all are found, a message lists the first hundred. */
import { doubleWishbone, InputError, type Issue, limits, survey, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { readCar, readCorner } from '../../src/corner/read-corner.ts';
import { errorOf, exampleText, type Json } from './support.ts';

const MANY = 10_000;
const many = <T>(make: (k: number) => T) => Array.from({ length: MANY }, (_, k) => make(k));
const named = (make: (k: number) => string) => Object.fromEntries(many((k) => [make(k), k]));

const corner = () => JSON.parse(exampleText('front-corner.json'));
const drawn = () => {
  const { lowerArm, upperArm, wheel, coilover } = corner();
  return doubleWishbone({ lowerArm, upperArm, wheel, coilover });
};

/** Lines of a message after its first, which says what is invalid. */
const linesOf = ({ message }: InputError) => message.split('\n').slice(1);

/** An issue as the library makes it, with a path and a problem of its own. */
const issueAt = (path: string, problem: string): Issue => ({
  code: 'wrong',
  severity: 'error',
  path,
  values: {},
  problem,
});

describe('a message', () => {
  const issues = (count: number) => Array.from({ length: count }, (_, k) => issueAt(`at${k}`, 'wrong'));

  it('lists a hundred issues', () => {
    expect(linesOf(new InputError('input', issues(100)))).toHaveLength(100);
  });

  it.each([
    [101, '  and 1 more'],
    [250, '  and 150 more'],
  ])('says how many of %i there are beyond that', (count, last) => {
    const error = new InputError('input', issues(count));
    expect(linesOf(error)).toHaveLength(101);
    expect(linesOf(error)[99]).toBe('  at99: wrong');
    expect(linesOf(error)[100]).toBe(last);
    expect(error.issues).toHaveLength(count);
  });

  it('cuts long paths, which issues have in full', () => {
    const long = 'k'.repeat(100_000);
    const error = errorOf(() => readCorner({ ...corner(), [long]: 1 }));
    expect(error.issues.map(({ path }) => path)).toEqual([long]);
    expect(error.message.length).toBeLessThan(1000);
  });
});

describe('thousands of mistakes', () => {
  it('as unknown names are each told, in their order', () => {
    const error = errorOf(() => readCorner({ ...corner(), ...named((k) => `strange ${k}`) }));
    expect(error.issues.map(({ path }) => path)).toEqual(many((k) => `strange ${k}`));
    expect(linesOf(error)).toHaveLength(101);
    expect(linesOf(error)[100]).toBe(`  and ${MANY - 100} more`);
  });

  it('as names that are nearly right are each told with the one meant', () => {
    const { lowerArm, ...others } = corner();
    const misspelt = Object.fromEntries(
      many((k) => [`lower${String.fromCharCode(0x4e00 + k)}Arm`, lowerArm]),
    );
    const { issues } = errorOf(() => readCorner({ ...others, ...misspelt }));
    expect(issues).toHaveLength(MANY);
    for (const { advice } of issues) expect(advice).toBe('did you mean lowerArm?');
  });

  it('as names that belong elsewhere are told where', () => {
    const error = errorOf(() =>
      readCar({
        corners: { front: { ...corner(), ...named((k) => `strange${k}`), bumpStop: {}, masses: {} } },
      }),
    );
    expect(error.issues).toHaveLength(MANY + 2);
    const adviceOn = (name: string) =>
      error.issues.find(({ path }) => path === `corners.front.${name}`)?.advice;
    expect(adviceOn('bumpStop')).toBe('it belongs in limits or ordered');
    expect(adviceOn('masses')).toBe('it belongs in the outermost { }: is a } missing before it?');
    expect(adviceOn('strange7')).toBe('correct the spelling, or take it out');
  });

  it.each([
    ['on lines of their own', ',\n', (k: number) => `line ${k + 2}, column 1`],
    ['on lines of their own in another system', ',\r\n', (k: number) => `line ${k + 2}, column 1`],
    ['on one line', ',', (k: number) => `line 1, column ${2 + (k + 1) * '"notes":1,'.length}`],
  ])('as one name, %s, are each told with their place in the text', (_, between, place) => {
    const { issues } = errorOf(() => readCorner(`{${many(() => '"notes":1').join(between)}}`));
    const twice = issues.filter(({ problem }) => problem.startsWith('written twice'));
    expect(twice.map(({ problem }) => problem)).toEqual(
      many((k) => `written twice, again at ${place(k)}`).slice(0, MANY - 1),
    );
  });

  it('in a list are each told by their index', () => {
    const arch = many(() => ['x', 1]);
    const { issues } = errorOf(() => readCorner({ ...corner(), limits: { tyre: '205/55R16', arch } }));
    expect(issues.map(({ path }) => path)).toEqual(many((k) => `limits.arch[${k}][0]`));
    const far = errorOf(() =>
      readCorner({ ...corner(), limits: { tyre: '205/55R16', arch: many(() => [1, 1e9]) } }),
    );
    expect(far.issues.map(({ path }) => path)).toEqual(many((k) => `limits.arch[${k}][1]`));
  });

  it('in a point of far too many numbers are one', () => {
    const { issues } = errorOf(() => readCorner({ ...corner(), rod: many((k) => k) }));
    expect(issues.some(({ path }) => path === 'rod')).toBe(true);
    const wheel = { ...corner().wheel, centre: many(() => 1) };
    expect(errorOf(() => readCorner({ ...corner(), wheel })).issues.map(({ path }) => path)).toEqual([
      'wheel.centre',
    ]);
  });

  it('in options are each told', () => {
    const joints = Object.fromEntries(many((k) => [`joint ${k}`, { maxArticulation: 20, housing: 'arm' }]));
    expect(errorOf(() => limits(drawn(), { ballJoints: joints })).issues).toHaveLength(MANY);
    const columns = many((k) => `column ${k % (MANY / 2)}`);
    const { issues } = errorOf(() => sweep(drawn(), { columns }));
    expect(issues.map(({ problem }) => problem)).toEqual(
      many((k) => (k < MANY / 2 ? 'unknown column' : 'column named twice')),
    );
    expect(
      errorOf(() =>
        sweep(
          drawn(),
          named((k) => `option${k}`),
        ),
      ).issues,
    ).toHaveLength(MANY);
  });

  it('in a survey are each told, with the points that there are cut to a readable list', () => {
    const points = Object.fromEntries(many((k) => [`point ${k} of these`, { estimate: [k, 1] as const }]));
    const heights = many((k) => ({ of: `point ${k} of those`, value: 1 }));
    const { issues } = errorOf(() => survey({ points, heights }));
    expect(issues.map(({ path }) => path)).toEqual(many((k) => `heights[${k}].of`));
    expect(issues[0].advice).toBe('did you mean point 0 of these?');
    for (const { allowed } of issues) expect(allowed).toMatch(/point 99 of these and 9900 more$/);
    const twins = Object.fromEntries(
      many((k) => ['a'.repeat(1 + (k % 100)) + '_'.repeat(k), { estimate: [k, 1] }]),
    );
    const told = errorOf(() => survey({ points: twins } as Json)).issues;
    expect(told.filter(({ problem }) => problem.startsWith('the same name'))).toHaveLength(MANY - 100);
  });
});

describe('brackets within brackets without end', () => {
  const deep = (wrap: (inner: Json) => Json) => many(wrap).reduce<Json>((inner) => wrap(inner), 1);

  it('are told in a text and in a value', () => {
    const text = `{"lowerArm":${'['.repeat(MANY)}${']'.repeat(MANY)}}`;
    expect(errorOf(() => readCorner(text)).issues).toMatchObject([{ problem: 'brackets nested too deeply' }]);
    const { issues } = errorOf(() => readCorner({ ...corner(), lowerArm: deep((inner) => [inner]) }));
    expect(issues.map(({ path, got }) => [path, got])).toEqual([['lowerArm', 'object']]);
    expect(errorOf(() => readCorner(deep((lowerArm) => ({ lowerArm })))).issues.length).toBeGreaterThan(0);
  });
});

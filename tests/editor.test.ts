import { dirname, resolve } from 'node:path';
import { type Corner, doubleWishbone, sweep } from 'jounce';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { pillar, plain } from './report/corners.ts';
import { ALL_KINDS } from './support/kinds.ts';

/** What an editor tells of code that uses the library, against its sources. */
const file = resolve('tests', 'as-typed.ts');
let code = '';
let version = 0;

const { config } = ts.readConfigFile('tsconfig.json', ts.sys.readFile);
const { options } = ts.parseJsonConfigFileContent({ ...config, include: [] }, ts.sys, dirname(file));
const paths = Object.fromEntries(
  Object.entries(options.paths ?? {}).map(([name, places]) => [name, places.map((place) => resolve(place))]),
);
const editor = ts.createLanguageService({
  getCompilationSettings: () => ({ ...options, paths, noUnusedLocals: false }),
  getScriptFileNames: () => [file],
  getScriptVersion: (name) => (name === file ? String(version) : '0'),
  getScriptSnapshot(name) {
    const text = name === file ? code : ts.sys.readFile(name);
    return text === undefined ? undefined : ts.ScriptSnapshot.fromString(text);
  },
  getCurrentDirectory: () => resolve('.'),
  getDefaultLibFileName: ts.getDefaultLibFilePath,
  fileExists: (name) => name === file || ts.sys.fileExists(name),
  readFile: ts.sys.readFile,
  readDirectory: ts.sys.readDirectory,
  directoryExists: ts.sys.directoryExists,
  getDirectories: ts.sys.getDirectories,
});

function type(text: string): void {
  code = text;
  version += 1;
}

/** Its errors, each as far as its last line: the name that does not fit, and the near one. */
function errorsOf(text: string): string[] {
  type(text);
  return editor
    .getSemanticDiagnostics(file)
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'));
}

/** What it offers where `|` stands. */
function offered(text: string): string[] {
  const at = text.indexOf('|');
  type(text.replace('|', ''));
  return (editor.getCompletionsAtPosition(file, at, {})?.entries ?? []).map(({ name }) => name).sort();
}

describe('the names of a drawing', () => {
  const drawn = `import { drive, linkage, trace } from 'jounce/linkage';
    const fourBar = linkage({
      points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
    });\n`;

  it('are told as the near one where they are misspelt', () => {
    const near = /Type '"crnk"' is not assignable to type '[^']*'\. Did you mean '"crank"'\?/;
    const asked = ["trace(fourBar, { driver: { turn: 'crnk' } });", "trace(fourBar).read({ turn: 'crnk' });"];
    for (const ask of [...asked, "drive(fourBar, [{ driver: { turn: 'crnk' }, to: 1 }]);"]) {
      const errors = errorsOf(drawn + ask);
      expect(errors).toHaveLength(1);
      expect(errors[0]).toMatch(near);
    }
    const ground = "linkage({ points: { pivot: [0, 0], pin: [0, 1] }, ground: ['pivt'], bodies: {} });";
    expect(errorsOf(drawn + ground)).toEqual([
      `Type '"pivt"' is not assignable to type '"pivot" | "pin"'. Did you mean '"pivot"'?`,
    ]);
    expect(errorsOf(`${drawn}trace(fourBar).at(0).D;`)[0]).toContain("Property 'D' does not exist");
    expect(errorsOf(`${drawn}trace(fourBar, { driver: { turn: 'crank' } }).at(0).A;`)).toEqual([]);
  });

  it('are offered', () => {
    expect(offered(`${drawn}trace(fourBar, { driver: { turn: '|' } });`)).toEqual([
      'coupler',
      'crank',
      'rocker',
    ]);
    expect(offered(`${drawn}trace(fourBar).at(0).|`)).toEqual(['A', 'B', 'C', 'O']);
    expect(offered(`${drawn}trace(fourBar).read({ length: ['A', '|'] });`)).toEqual(['A', 'B', 'C', 'O']);
  });
});

describe('the columns of a sweep and the figures of a sizing', () => {
  const swept = `import { type AxleSizing, type DoubleWishbone, sweep } from 'jounce';
    declare const front: DoubleWishbone;
    declare const axle: AxleSizing;\n`;

  it('are told where they are misspelt, those of columns as the near one', () => {
    const camber = /Did you mean '"camber"'\?/;
    expect(errorsOf(`${swept}sweep(front, { columns: ['chamber'] });`)).toEqual([
      expect.stringMatching(camber),
    ]);
    expect(errorsOf(`${swept}sweep(front).at(0).chamber;`)).toEqual([
      expect.stringMatching(/Did you mean 'camber'\?/),
    ]);
    expect(errorsOf(`${swept}axle.figure('springrate');`)).toEqual([
      `Argument of type '"springrate"' is not assignable to parameter of type 'AxleFigureName'.`,
    ]);
    expect(errorsOf(`${swept}sweep(front, { columns: ['camber'] }); axle.figure('springRate');`)).toEqual([]);
  });

  it('are offered', () => {
    expect(offered(`${swept}sweep(front, { columns: ['|'] });`)).toEqual(
      expect.arrayContaining(['camber', 'installationRatio', 'shockMountZ']),
    );
    expect(offered(`${swept}sweep(front, { columns: ['camber'] }).at(0).|`)).toEqual(['camber', 'travel']);
    expect(offered(`${swept}axle.figure('|');`)).toEqual(expect.arrayContaining(['frequency', 'springRate']));
  });
});

describe('the types of columns', () => {
  const drawn = ALL_KINDS.map(({ kind, make, inputs }) => ({
    type: kind[0].toUpperCase() + kind.slice(1),
    corners: inputs.map((input): Corner => make(input as never)),
  }));
  const head = `import { type Corner, ${drawn.map(({ type }) => `type ${type}, type ${type}Input`).join(', ')}, sweep } from 'jounce';
    type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
    function holds<_Statement extends true>(): void {}\n`;
  const short = { bump: 20, droop: 20 };

  it.each(drawn)(
    'of a $type are the columns that all have, with null where they have gaps',
    ({ type, corners }) => {
      const all = corners.map((corner) => sweep(corner, short).info);
      const [first, ...others] = all.map((info) => info.map(({ name }) => name));
      const common = all[0].filter(({ name }) => others.every((names) => names.includes(name)));
      const swept = `${head}declare const corner: ${type};\nconst [row] = sweep(corner).rows();\n`;
      expect(offered(`${swept}row.|`)).toEqual(common.map(({ name }) => name).sort());
      const kept = common.map(
        ({ name, gaps }) => `holds<Same<typeof row.${name}, number${gaps ? ' | null' : ''}>>();`,
      );
      expect(errorsOf(swept + kept.join('\n'))).toEqual([]);

      const further = new Set([first, ...others].flat());
      for (const { name } of common) further.delete(name);
      for (const name of further) expect(errorsOf(`${swept}row.${name};`)).toHaveLength(1);
      expect(errorsOf(`${swept}sweep(corner, { columns: ${JSON.stringify([...further])} });`)).toEqual([]);
    },
  );

  it('of any corner are what all kinds have', () => {
    const all = [...drawn.flatMap(({ corners }) => corners), pillar].map((corner) =>
      sweep(corner, short).info.map(({ name }) => name),
    );
    const common = all[0].filter((name) => all.every((names) => names.includes(name)));
    // What a corner of one's own calls its points is its own affair.
    const own = Object.keys(pillar.drawing.points).flatMap((point) => [`${point}Y`, `${point}Z`]);
    expect(offered(`${head}declare const corner: Corner;\nsweep(corner).at(0).|`)).toEqual(
      common.filter((name) => ![...own, ...Object.keys(pillar.angles)].includes(name)).sort(),
    );
  });

  it('say what is null at a dead point, and nowhere else', () => {
    const corner = doubleWishbone(plain);
    const swept = sweep(corner, { bump: 60, droop: 2000 });
    expect(swept.end.droop.status).toBe('deadPoint');
    const dead = Object.entries(swept.at(swept.end.droop.travel));
    expect(dead.filter(([, value]) => value === null).length).toBeGreaterThan(3);
    const code = dead.map(
      ([name, value]) => `holds<Same<typeof pose.${name}, number${value === null ? ' | null' : ''}>>();`,
    );
    const pose = `${head}declare const corner: DoubleWishbone;\nconst pose = sweep(corner).at(0);\n`;
    expect(errorsOf(pose + code.join('\n'))).toEqual([]);
  });
});

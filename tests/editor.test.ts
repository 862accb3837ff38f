import { dirname, resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

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

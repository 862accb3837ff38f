import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Corner, doubleWishbone, sweep } from 'jounce';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import type * as z from 'zod';
import { FILES } from '../src/corner/file-schemas.ts';
import { customCornerSchema } from '../src/document/custom-schema.ts';
import { limitOptionsSchema } from '../src/document/limits-schema.ts';
import { bare } from '../src/document/schema-walk.ts';
import { wireSchema } from '../src/document/sizing-schema.ts';
import { surveySchema } from '../src/document/survey-schema.ts';
import { inputTypes } from './document/input-types.ts';
import { pillar, plain } from './report/corners.ts';
import { ALL_KINDS } from './support/kinds.ts';

const capital = (name: string) => name.charAt(0).toUpperCase() + name.slice(1);

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

/** What it tells of the last name of each line, as hovering does: its type, and its docs. */
function hovers(lines: readonly string[], head: string): { type: string; docs: string }[] {
  type(head + lines.join('\n'));
  let end = head.length - 1;
  return lines.map((line) => {
    end += line.length + 1;
    const info = editor.getQuickInfoAtPosition(file, end - 2);
    const text = (parts: ts.SymbolDisplayPart[] = []) => parts.map((part) => part.text).join('');
    return { type: text(info?.displayParts), docs: text(info?.documentation) };
  });
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
      expect.stringMatching(/^Argument of type '"springrate"' is not assignable to parameter of type /),
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
    type: capital(kind),
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

describe('the fields of inputs and files', () => {
  it('are those that the schemas write; if not: npm run schemas', () => {
    const printed = (text: string) =>
      ts.createPrinter().printFile(ts.createSourceFile('inputs.ts', text, ts.ScriptTarget.Latest));
    expect(printed(readFileSync('src/document/inputs.ts', 'utf8'))).toBe(printed(inputTypes()));
  });

  const inputs: Readonly<Record<string, z.core.$ZodType>> = {
    ...Object.fromEntries(
      ALL_KINDS.flatMap(({ kind, input }) => [
        [`${capital(kind)}Input`, input.schema],
        [`${capital(kind)}File`, FILES.corner[kind]],
      ]),
    ),
    CustomCornerInput: customCornerSchema,
    LimitOptions: limitOptionsSchema,
    CoilSpringInput: wireSchema,
    CarFile: FILES.anyCar(),
    SurveyInput: surveySchema,
  };
  /** What holds a field: a part, or one of several, of a list or by name. */
  const head = `import type { ${Object.keys(inputs).join(', ')} } from 'jounce';
    type Holder<T, Key> = T extends readonly (infer Item)[] ? Holder<Item, Key>
      : T extends object ? string extends keyof T ? Holder<T[keyof T], Key> : Key extends keyof T ? T : never
      : never;
    declare function holder<T, Key extends string>(of: T, key: Key): Holder<T, Key>;
    ${Object.keys(inputs)
      .map((name) => `declare const a${name}: ${name};`)
      .join('\n')}\n`;

  interface Field {
    readonly code: string;
    /** The numbers that it holds itself. */
    readonly numbers: readonly z.ZodNumber[];
  }

  function numbersIn(schema: z.core.$ZodType): z.ZodNumber[] {
    const inner = bare(schema);
    const { def } = inner._zod;
    if (def.type === 'number') return [inner as z.ZodNumber];
    return def.type === 'object' ? [] : innerOf(inner).flatMap(numbersIn);
  }

  function innerOf(schema: z.core.$ZodTypes): readonly z.core.$ZodType[] {
    const { def } = schema._zod;
    if (def.type === 'array') return [def.element];
    if (def.type === 'tuple') return def.items;
    if (def.type === 'record') return [def.valueType];
    return def.type === 'union' ? def.options : [];
  }

  function fieldsOf(schema: z.core.$ZodType, code: string): Field[] {
    const inner = bare(schema);
    const { def } = inner._zod;
    if (def.type !== 'object') return innerOf(inner).flatMap((one) => fieldsOf(one, code));
    return Object.entries(def.shape).flatMap(([name, field]) => {
      const here = `holder(${code}, '${name}').${name}`;
      return [{ code: here, numbers: numbersIn(field) }, ...fieldsOf(field, here)];
    });
  }

  it.each(Object.entries(inputs))(
    'of %s say what they are, numbers their unit, and their sign where they have one',
    (name, schema) => {
      const fields = fieldsOf(schema, `a${name}`);
      expect(fields.length).toBeGreaterThan(5);
      const found = hovers(
        fields.map(({ code }) => `${code};`),
        head,
      );
      fields.forEach(({ code, numbers }, k) => {
        expect(found[k].type, code).toMatch(/^\(property\) [\s\S]*: /);
        expect(found[k].docs, code).toMatch(/.\.$/);
        if (numbers.length === 0) return;
        expect(found[k].docs, code).toMatch(/\b(Units?|Unit and sign):\s\S|Without unit\./);
        if (numbers.some(({ minValue }) => !(Number(minValue) >= 0))) {
          expect(found[k].docs, code).toMatch(/positive|negative|outboard|forward|sign|-1 to 1/);
        }
      });
      expect(errorsOf(head + fields.map(({ code }) => `${code};`).join('\n'))).toEqual([]);
    },
  );
});

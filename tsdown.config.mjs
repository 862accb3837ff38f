// How the package is built: library and command as one graph of modules, so that what both use is in it once.
//
//   dist/*.js           the entries of the package: lists of what they export
//   dist/chunks         the code, minified, cut so that a page or a job of the command fetches little that it does not use
//   dist/command        the command
//   dist/packages       the packages that the library uses, each as one file with no more of it than is used. Node takes those (package.json,
//                       `imports`): the command starts sooner; bundlers and browsers take the packages themselves
//   dist/**/*.d.ts      the declarations, one for each module

import { mkdirSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';

/** Entries of the package and their sources. */
const ENTRIES = {
  index: 'src/index.ts',
  linkage: 'src/linkage/index.ts',
  statics: 'src/statics/index.ts',
  synthesis: 'src/synthesis/index.ts',
  testing: 'src/testing/index.ts',
};

/** What pages import one by one, by its entry: the code is cut where one of them needs no more. */
const PARTS = {
  index: ['doubleWishbone', 'pushrod', 'strut', 'sweep', 'limits', 'readCorner', 'readCar'],
  linkage: ['trace'],
};

/** What the library uses of each package. */
const PACKAGES = {
  zod: [
    ...[
      'array',
      'boolean',
      'discriminatedUnion',
      'enum',
      'int',
      'literal',
      'number',
      'record',
      'strictObject',
    ],
    ...['string', 'toJSONSchema', 'tuple', 'union', 'unknown'],
  ],
  'ml-matrix': ['Matrix', 'QrDecomposition', 'SingularValueDecomposition'],
};

const VIRTUAL = 'virtual:';

/** Modules that only re-export: names of a source or of a package. */
const reexports = (modules) => ({
  name: 're-exports',
  resolveId: (id) => (id.startsWith(VIRTUAL) ? `\0${id}` : undefined),
  load: (id) => (id.startsWith(`\0${VIRTUAL}`) ? modules[id.slice(1 + VIRTUAL.length)] : undefined),
});

const from = (source) => JSON.stringify(`${import.meta.dirname}/${source}`);
const library = Object.entries(ENTRIES).flatMap(([entry, source]) => {
  const whole = `export * from ${from(source)};`;
  return [
    [entry, whole],
    // A second entry of the same: then the code of both is in chunks, and an entry is a list without side effects.
    [`cut/${entry}`, whole],
    ...(PARTS[entry] ?? []).map((name) => [`cut/${name}`, `export { ${name} } from ${from(source)};`]),
  ];
});

/** Entries that were there for the cuts are no files of the package. */
const withoutCuts = {
  name: 'without cuts',
  generateBundle(_, bundle) {
    for (const file of Object.keys(bundle)) if (file.startsWith('cut/')) delete bundle[file];
  },
};

/** Notes of which files the code of a bundle comes, in out/provenance, for the test of what THIRD-PARTY.md names. */
const provenance = (name) => ({
  name: 'provenance',
  generateBundle(_, bundle) {
    const chunks = Object.values(bundle).filter(({ type }) => type === 'chunk');
    const modules = chunks.flatMap((chunk) =>
      Object.entries(chunk.modules).filter(([, { renderedLength }]) => renderedLength > 0),
    );
    const files = modules.map(([id]) => relative(import.meta.dirname, id.replace(/^\0/, '')));
    mkdirSync('out/provenance', { recursive: true });
    writeFileSync(`out/provenance/${name}.json`, JSON.stringify([...new Set(files)].sort(), null, 1));
  },
});

const virtualEntries = (modules) => Object.fromEntries(modules.map(([name]) => [name, `${VIRTUAL}${name}`]));

// The first of the three empties `dist`.
const common = { format: 'esm', fixedExtension: false, logLevel: 'error', clean: false };

export default [
  {
    ...common,
    clean: true,
    entry: { ...virtualEntries(library), 'command/main': 'src/command/main.ts' },
    platform: 'node',
    target: 'node20',
    tsconfig: 'src/command/tsconfig.json',
    dts: false,
    minify: true,
    plugins: [reexports(Object.fromEntries(library)), withoutCuts, provenance('library')],
    deps: { alwaysBundle: ['fmin/index.js'], neverBundle: [...Object.keys(PACKAGES), 'fast-check'] },
    outputOptions: {
      chunkFileNames: 'chunks/[name]-[hash].js',
      paths: Object.fromEntries(Object.keys(PACKAGES).map((name) => [name, `#${name}`])),
    },
  },
  {
    ...common,
    entry: ENTRIES,
    platform: 'neutral',
    target: 'es2022',
    tsconfig: 'src/tsconfig.json',
    unbundle: true,
    dts: { emitDtsOnly: true },
    deps: { neverBundle: [...Object.keys(PACKAGES), 'fast-check'] },
  },
  {
    ...common,
    entry: virtualEntries(Object.keys(PACKAGES).map((name) => [`packages/${name}`])),
    platform: 'neutral',
    target: 'es2022',
    tsconfig: false,
    dts: false,
    minify: true,
    plugins: [
      reexports(
        Object.fromEntries(
          Object.entries(PACKAGES).map(([name, used]) => [
            `packages/${name}`,
            `export { ${used.join(', ')} } from '${name}';`,
          ]),
        ),
      ),
      provenance('packages'),
    ],
    deps: { alwaysBundle: Object.keys(PACKAGES) },
  },
];

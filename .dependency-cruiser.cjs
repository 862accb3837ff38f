// Which file may import which. Checked by tests/architecture.test.ts; drawn by
//   npx depcruise src --output-type mermaid

/** For each folder of src, what it may import besides itself, most basic first. Text is made last: by errors and report alone. */
const base = ['diagnostic.ts', 'spelling.ts', 'units.ts', 'words.ts'];
const upToCorner = [...base, 'errors', 'numerics', 'linkage', 'statics', 'document', 'corner'];
const upToSizing = [...upToCorner, 'axle', 'coilover'];
const layers = {
  sentences: ['diagnostic.ts', 'units.ts', 'words.ts'],
  errors: ['diagnostic.ts', 'units.ts', 'sentences'],
  numerics: [],
  linkage: ['diagnostic.ts', 'errors', 'numerics'],
  statics: ['diagnostic.ts', 'errors', 'numerics', 'linkage'],
  synthesis: ['diagnostic.ts', 'errors', 'numerics', 'linkage'],
  document: [...base, 'errors'],
  corner: upToCorner,
  axle: upToCorner,
  coilover: upToSizing,
  survey: upToSizing,
  design: [...upToSizing, 'synthesis'],
  report: [...upToSizing, 'survey', 'design', 'sentences'],
};

/** Packages, and the one place in src that knows each. */
const fences = {
  zod: '^src/document/',
  'ml-matrix': '^src/numerics/singular-values\\.ts$',
  fmin: '^src/numerics/minimiser\\.ts$',
  'fast-check': '^src/testing/',
};

/** Patterns for files (`x.ts`) and folders (`x`) of src. */
const within = (names) =>
  names.map((name) => (name.endsWith('.ts') ? `^src/${name.replace('.', '\\.')}$` : `^src/${name}/`));
/** A package, as it is found in node_modules or, if it is not installed, by its bare name. */
const packages = (names) => `(^|node_modules/)(${names.join('|')})(/|$)`;

const layerRules = Object.entries(layers).map(([folder, below]) => ({
  name: `layer-${folder}`,
  comment: `${folder} may import ${[...new Set([...below, folder])].join(', ')}`,
  severity: 'error',
  from: { path: within([folder]) },
  to: { path: '^src/', pathNot: within([...below, folder]) },
}));

const fenceRules = Object.entries(fences).map(([name, home]) => ({
  name: `fence-${name}`,
  comment: `only ${home} may import ${name}`,
  severity: 'error',
  from: { path: '^src/', pathNot: home },
  to: { path: packages([name]) },
}));

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: 'no-cycle',
      comment: 'no file may import itself in a circle, types included',
      severity: 'error',
      from: { path: '^src/' },
      to: { circular: true },
    },
    ...layerRules,
    {
      name: 'layer-testing',
      comment:
        'testing sees what a user sees: the index files, errors/, diagnostic.ts, spelling.ts, units.ts and words.ts',
      severity: 'error',
      from: { path: '^src/testing/' },
      to: {
        path: '^src/',
        pathNot: [...within(['testing', 'errors', 'index.ts', ...base]), '^src/[^/]+/index\\.ts$'],
      },
    },
    {
      name: 'layer-command',
      comment:
        'the command does what a user can do: the index, with units, words, the reader of JSON, refusals and the data of a report',
      severity: 'error',
      from: { path: '^src/command/' },
      to: {
        path: '^src/',
        pathNot: within([
          'command',
          'index.ts',
          'document/json-text.ts',
          'errors/report.ts',
          'report/order-sheet/report-sheet.ts',
          ...base,
        ]),
      },
    },
    {
      name: 'layer-base',
      comment: 'spelling.ts imports nothing; the others may import it and diagnostic.ts',
      severity: 'error',
      from: { path: within(base) },
      to: { pathNot: within(['diagnostic.ts', 'spelling.ts']) },
    },
    {
      name: 'known-folder',
      comment: 'a new folder of src needs a place among the layers',
      severity: 'error',
      from: { path: '^src/[^/]+/', pathNot: within([...Object.keys(layers), 'testing', 'command']) },
      to: {},
    },
    {
      name: 'known-file',
      comment: 'at the top of src there are index.ts, diagnostic.ts, spelling.ts, units.ts and words.ts',
      severity: 'error',
      from: {},
      to: { path: '^src/[^/]+$', pathNot: within(['index.ts', ...base]) },
    },
    ...fenceRules,
    {
      name: 'no-node',
      comment: 'the library runs anywhere: no Node built-in but in the command',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/command/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'no-other-package',
      comment: 'besides its own files src may import the fenced packages, nothing else (nor itself by name)',
      severity: 'error',
      from: { path: '^src/' },
      to: { pathNot: ['^src/', packages(Object.keys(fences))], dependencyTypesNot: ['core'] },
    },
    {
      name: 'judges-stand-alone',
      comment: 'the closed forms that judge the library share no code with it',
      severity: 'error',
      from: { path: '^tests/judges/' },
      to: { path: '^(src|dist|jounce)(/|$)' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'types', 'default'] },
  },
};

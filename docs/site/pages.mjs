// @ts-check
// Lays out the pages of the site from what the project has: README, docs, DEVELOPERS and schemas. Nothing is kept here
// that is written there; VitePress takes pages from its own folder only, so they are copied into it.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { fileFormat } from './file-format.mjs';

/** The live figures by their names in the guides: their component and what it is told.
 * @type {Record<string, [component: string, about: string]>} */
const FIGURES = {
  corner: ['CornerFigure', ' about="corner"'],
  limits: ['CornerFigure', ' about="limits"'],
  hand: ['CornerFigure', ' about="hand"'],
  axle: ['AxleFigure', ''],
  linkage: ['LinkageFigure', ''],
  order: ['OrderFigure', ''],
  survey: ['SurveyFigure', ''],
};

const project = new URL('../../', import.meta.url);
const pages = new URL('pages/', import.meta.url);
/** @param {string} path */
const read = (path) => readFileSync(new URL(path, project), 'utf8');
/** @param {string} name @param {string} text */
const write = (name, text) => writeFileSync(new URL(`${name}.md`, pages), text);

/**
 * Links between files of the project, as links between pages, which lie in one folder.
 * @param {string} text
 */
const linked = (text) =>
  text
    .replaceAll(/\]\((\.\.\/|docs\/)*README\.md/g, '](index.md')
    .replaceAll(/\]\((\.\.\/|docs\/)*DEVELOPERS\.md/g, '](contributors.md')
    .replaceAll('](docs/', '](')
    .replaceAll('](examples/', '](./examples/');

/**
 * A page with its live figures: each stands where its guide has `<!-- figure: name -->`, which other readers do not show.
 * @param {string} text
 */
function withFigures(text) {
  /** @type {Set<string>} */
  const used = new Set();
  const live = text.replaceAll(/^<!-- figure: (\w+) -->$/gm, (_, /** @type {string} */ name) => {
    const [component, about] = FIGURES[name];
    used.add(component);
    return `<${component}${about} />`;
  });
  const imports = [...used].map((component) => `import ${component} from '../figures/${component}.vue';`);
  return used.size === 0 ? text : `${live}\n<script setup>\n${imports.join('\n')}\n</script>\n`;
}

mkdirSync(pages, { recursive: true });
write('index', linked(read('README.md')));
write('contributors', linked(read('DEVELOPERS.md')));
for (const file of readdirSync(new URL('docs/', project)))
  if (file.endsWith('.md')) write(file.slice(0, -3), withFigures(linked(read(`docs/${file}`))));
for (const [name, title, start, whole] of [
  [
    'car',
    'The car file',
    'A car with its masses and a corner for each axle: what `jounce order` and `readCar` read.',
    'A whole one is [car.json](./examples/car.json); `jounce start` writes one to fill in.',
  ],
  [
    'corner',
    'The corner file',
    'A single corner: what `jounce corner` and `readCorner` read.',
    'A whole one is [front-corner.json](./examples/front-corner.json).',
  ],
  [
    'survey',
    'The survey file',
    'Readings of a corner on stands: what `jounce survey` and `survey` read.',
    'A whole one is [survey.json](./examples/survey.json).',
  ],
])
  write(
    `${name}-file`,
    fileFormat(JSON.parse(read(`schemas/${name}.schema.json`)), { name, title, start: `${start} ${whole}` }),
  );
// Pictures that a page shows are bundled with it; what a page only links to is served as it is.
for (const [folder, place] of [
  ['docs/pictures', 'pictures'],
  ['docs/pictures/linkages', 'public/pictures/linkages'],
  ['docs/examples', 'public/examples'],
])
  cpSync(new URL(folder, project), new URL(place, pages), { recursive: true });
// Car files to fill in, as the command writes them.
for (const units of ['metric', 'imperial']) {
  const command = fileURLToPath(new URL('dist/command/main.js', project));
  const file = execFileSync(process.execPath, [command, 'start', '--units', units]);
  writeFileSync(new URL(`start-${units}.json`, pages), file);
}

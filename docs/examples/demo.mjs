// @ts-check
// A car from file to figures: npm run demo, or npm run demo -- my-car.json, or with a folder for what is written:
// npm run demo -- my-car.json my-folder
//
// A file is looked for where you stand, then in the folder of the project, then among the examples; .json may be left out.
//
// The car in car.json is made up: a light roadster, built once, in a barn. A file of yours has the same shape; one with a
// single corner in it (front-corner.json) will do as well.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, extname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  adviceLines,
  describeSweepEnd,
  drawSweep,
  handMethod,
  InputError,
  issueLines,
  limits,
  orderSheet,
  readCar,
  readCorner,
  reportSheet,
  sentence,
  sheetHtml,
  sheetJson,
  sheetMarkdown,
  sizeCoilovers,
  sizingSummary,
  sweep,
  sweepCsv,
  sweepTable,
} from 'jounce';

/** Travel to look at where nothing ends it before, mm. */
const TRAVEL = 120;
/** Frequency for which the hand method's spring is chosen where the file has no target, Hz: an example, not advice. */
const FREQUENCY = 1.5;
/** Travel shown beyond a limit in the pictures, mm. */
const BEYOND = 25;
/** mm in an inch. */
const INCH = 25.4;

/** Columns of a terminal. */
const WIDTH = 100;

/** A file or folder that can't be used as it should; its message is in the lines of `issueLines`. */
class FileFault extends Error {}

const examples = fileURLToPath(new URL('.', import.meta.url));
const project = resolve(examples, '../..');
/** The folder in which the command was given: npm itself goes to that of the project. */
const here = process.env.INIT_CWD ?? process.cwd();
const [asked, folder] = process.argv.slice(2);
const out = folder === undefined ? join(project, 'out') : resolve(here, folder);
/** The folder as the list of what was written has it. */
const shown = folder ?? 'out';

try {
  const file = fileNamed(asked ?? 'car.json');
  const car = readFile(textOf(file));
  const name = basename(file, extname(file));
  onFile(out, 'a folder that can be made', () => mkdirSync(out, { recursive: true }));
  const sizing = 'sizing' in car ? sizeCoilovers(car) : null;
  const papers = sizing === null ? [] : papersOf(name, sizing);
  if (sizing?.order != null) refuseOtherOrder(name, sizing.order, papers);
  const written = Object.entries(car.corners).flatMap(([axle, given]) => {
    const parts = [name, axle].filter((part) => part !== '');
    return showCorner(parts.join('-'), given, car, sizing);
  });
  if (sizing === null) lookAgain(car.notes, car.units);
  else written.unshift(...writePapers(sizing, papers));
  print('Written:');
  for (const { files, what } of written) {
    for (const one of files) print(`  ${one}`);
    print(`    ${what}`);
  }
  print(`
These figures are for planning. The model is planar and rigid: no steering, no compliance, nothing
fore and aft but the offset of the shock. Strength, welds, steering, brakes and whether a car may go
on the road are matters of local codes and of a licensed engineer or inspector.`);
} catch (error) {
  if (!(error instanceof InputError || error instanceof FileFault)) throw error;
  console.error(error instanceof InputError ? refusal(error) : error.message);
  process.exitCode = 1;
}

/**
 * What is wrong with an input: each issue in four lines.
 * @param {InputError} error
 */
function refusal({ message, issues }) {
  const [head] = message.split('\n');
  return [`${head[0].toUpperCase()}${head.slice(1)}.`, ...issues.map((one) => folded(issueLines(one)))].join(
    '\n\n',
  );
}

/**
 * Lines at most as wide as a terminal, the rest of each below its first word.
 * @param {readonly string[]} lines
 */
function folded(lines) {
  return lines
    .flatMap((line) => {
      const [label] = /^ *(?:\w+: +)?/.exec(line) ?? [''];
      /** @type {string[]} */
      const parts = [];
      for (const word of line.slice(label.length).split(' ')) {
        const last = parts.at(-1);
        if (last !== undefined && label.length + last.length + 1 + word.length <= WIDTH) {
          parts[parts.length - 1] = `${last} ${word}`;
        } else parts.push(word);
      }
      return parts.map((part, k) => `${k === 0 ? label : ' '.repeat(label.length)}${part}`);
    })
    .join('\n');
}

/**
 * Where a file is, by its name with .json or without.
 * @param {string} name
 */
function fileNamed(name) {
  const folders = [...new Set([here, project, examples].map((folder) => resolve(folder)))];
  const found = folders
    .flatMap((folder) => [resolve(folder, name), resolve(folder, `${name}.json`)])
    .find((file) => existsSync(file));
  if (found !== undefined) return found;
  const there = folders
    .slice(0, 1)
    .concat(examples)
    .flatMap((folder) => (existsSync(folder) ? readdirSync(folder) : []));
  const files = [...new Set(there)].filter(
    (file) => file.endsWith('.json') && !/^(package|tsconfig)/.test(file),
  );
  throw new FileFault(
    folded([
      `There is no file "${name}".`,
      `  found:    ${files.join(', ')}`,
      `  required: a car file or a corner file, in ${folders.slice(0, 2).join(' or ')}`,
      '  fix:      check the name, or give the whole path',
    ]),
  );
}

/**
 * A car file, or a corner file as a car of one corner.
 * @param {string} text
 */
function readFile(text) {
  if (/"corner\w*"\s*:/.test(text)) return readCar(text);
  const { corner, limits, sprungMass, name, units, notes } = readCorner(text);
  return { name, units, notes, corners: { '': { corner, limits, sprungMass } } };
}

/**
 * What may be wrong in the file.
 * @param {readonly import('jounce').Diagnostic[]} notes
 * @param {import('jounce').Units} units
 */
function lookAgain(notes, units) {
  if (notes.length === 0) return;
  print('Check these inputs\n');
  for (const note of notes) print(`${folded(issueLines(note, units))}\n`);
}

/**
 * The text of a file, whatever an editor has made of it.
 * @param {string} file
 */
function textOf(file) {
  const bytes = onFile(file, 'a file that can be read', () => readFileSync(file));
  return new TextDecoder(bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : 'utf-8').decode(bytes);
}

/**
 * The order for the maker and the report for the builder, each in its three forms: drafts, which each run writes anew, or of a revision
 * with its date, which are never written over.
 * @param {string} name
 * @param {import('jounce').Sizing} sizing
 * @returns {{ what: string, files: { file: string, text: string }[] }[]}
 */
function papersOf(name, sizing) {
  const { order } = sizing;
  // Of a revision that has a date of its own nothing may depend on the day.
  const of = { file: `${name}.json`, ...(order === null ? { date: today() } : {}) };
  const revision = order === null ? '' : `-${order.revision}-${order.date}`;
  /** @type {(kind: string, sheet: import('jounce').OrderSheet) => { file: string, text: string }[]} */
  const files = (kind, sheet) => [
    { file: `${name}-${kind}${revision}.html`, text: sheetHtml(sheet) },
    { file: `${name}-${kind}${revision}.md`, text: sheetMarkdown(sheet) },
    { file: `${name}-${kind}${revision}.json`, text: sheetJson(sheet) },
  ];
  return [
    {
      what: 'the order for the maker, to open in a browser and print; the same as Markdown and as data',
      files: files('order', orderSheet(sizing)),
    },
    {
      what: 'the report for you, with everything else; the same as Markdown and as data',
      files: files('report', reportSheet(sizing, of)),
    },
  ];
}

/**
 * Stops where the same revision was written before and is not the same.
 * @param {string} name
 * @param {{ revision: string, date: string }} order
 * @param {ReturnType<typeof papersOf>} papers
 */
function refuseOtherOrder(name, { revision, date }, papers) {
  const differs = papers
    .flatMap(({ files }) => files)
    .find(({ file, text }) => existsSync(join(out, file)) && readFileSync(join(out, file), 'utf8') !== text);
  const start = `${name}-order-${revision}-`;
  const otherDay = readdirSync(out).find(
    (file) =>
      file.startsWith(start) &&
      /^\d{4}-\d\d-\d\d\.html$/.test(file.slice(start.length)) &&
      file !== `${start}${date}.html`,
  );
  const there = differs?.file ?? otherDay;
  if (there === undefined) return;
  throw new InputError('order', [
    {
      code: 'revisionWritten',
      severity: 'error',
      path: 'order.revision',
      values: { revision, there: join(shown, there) },
      problem: `revision ${revision} has been written before, and is not the same`,
      got: `"${revision}", with ${join(shown, there)}`,
      allowed: 'a revision that has not been written; an order that was sent stays',
      advice:
        'raise the revision for a new order. For a car that was weighed take order out of the file: ordered keeps the revision',
    },
  ]);
}

/**
 * Prints a sizing on one screen and writes the order for the maker and the report for the builder; returns what was written.
 * @param {import('jounce').Sizing} sizing
 * @param {ReturnType<typeof papersOf>} papers
 */
function writePapers(sizing, papers) {
  print(sizingSummary(sizing));
  afterOrder(sizing);
  return papers.map(({ what, files }) => ({ what, files: files.map(({ file, text }) => write(file, text)) }));
}

/**
 * Prints what a car that stands asks of what was bought: what to do first, then what can't be cured.
 * @param {import('jounce').Sizing} sizing
 */
function afterOrder({ axles, units }) {
  const bought = axles.filter(({ afterOrder }) => afterOrder !== null);
  if (bought.length === 0) return;
  print(bought.some(({ afterOrder }) => afterOrder?.weighed) ? 'After weighing' : 'With what was ordered');
  for (const { advice } of bought)
    for (const line of adviceLines(advice, units)) print(folded([`  ${line}`]));
  print('');
}

/**
 * Prints a corner and writes its files; returns what was written.
 * @param {string} name
 * @param {import('jounce').DocumentCorner} given
 * @param {{ units: 'metric' | 'imperial', name?: string | undefined }} car
 * @param {import('jounce').Sizing | null} sizing
 */
function showCorner(name, { corner, limits: ends, sprungMass: given }, { units, name: called }, sizing) {
  const title = sizing === null ? (called ?? titleOf(name)) : titleOf(name);
  /** @type {string[]} */
  const lines = [];
  const say = (/** @type {string} */ text) => void lines.push(text);
  say(`== ${title} ==\n`);
  const sized = sizing?.axles.find(({ input }) => input.corner === corner);
  const found = sized?.limits ?? limits(corner, ends);
  const sprungMass = sized?.figure('sprungMass').value ?? given;
  const frequency = sized?.springFit?.requiredFrequency ?? FREQUENCY;
  const bump = found.bump === null ? TRAVEL : found.bump.travel;
  const droop = found.droop === null ? TRAVEL : -found.droop.travel;
  const travel = { bump: Math.min(bump, TRAVEL), droop: Math.min(droop, TRAVEL) };
  const curves = sweep(corner, { ...travel, step: 1 });
  say(
    sweepTable(sweep(corner, { ...travel, step: units === 'imperial' ? 0.5 * INCH : 10 }), undefined, units),
  );

  say('Limits of the travel');
  const tell = (/** @type {readonly import('jounce').Diagnostic[]} */ diagnostics) => {
    for (const one of diagnostics) say(folded([`  ${sentence(one, units)}`]));
  };
  tell(found.misfits);
  tell([found.bump, found.droop].flatMap((limit) => limit?.diagnostic ?? []));
  tell(found.events.map(({ diagnostic }) => diagnostic));
  tell(
    sized === undefined
      ? Object.values(found.travelMargins ?? {}).map((one) => one.diagnostic)
      : marginsOf(sized),
  );
  if (found.later.length > 0) say('\nLater limits, nearest first');
  tell(found.later.map(({ diagnostic }) => diagnostic));
  if (found.donor !== undefined) say('\nThe donor damper');
  tell(found.donor?.diagnostics ?? []);

  const hand = handMethod(corner, {
    ...(sprungMass === undefined ? {} : { sprungMass, frequency }),
    travel,
  });
  say('\nWheel rate by the hand method, beside the exact one');
  tell(hand.defined ? hand.diagnostics : [hand.reason]);

  say('\nThrough the travel');
  for (const line of findings(curves, units)) say(folded([`  ${line}`]));
  for (const [side, end] of Object.entries(curves.end)) {
    if (end.status !== 'reached') say(folded([`  On the ${side} side: ${describeSweepEnd(end, units)}.`]));
    else if (Math.abs(end.travel) === TRAVEL)
      say(
        `  The curves stop at ${units === 'imperial' ? `${(TRAVEL / INCH).toFixed(2)} in` : `${TRAVEL} mm`} of ${side}; the wheel could travel farther.`,
      );
  }
  tell(found.notes);
  const wide = sweep(corner, { bump: travel.bump + BEYOND, droop: travel.droop + BEYOND });
  const csv = write(`${name}.csv`, sweepCsv(curves, { units }));
  const tyre = ends.tyre === undefined ? {} : { tyre: ends.tyre };
  const svg = write(`${name}.svg`, drawSweep(corner, wide, { title, limits: found, hand, units, ...tyre }));
  const text = lines.join('\n');
  if (sizing === null) print(`${text}\n`);
  return [
    ...(sizing === null
      ? []
      : [
          {
            files: [write(`${name}.txt`, `${text}\n`)],
            what: 'the table through the travel, and its limits',
          },
        ]),
    { files: [csv], what: 'every column of the sweep, a row for each mm of travel' },
    { files: [svg], what: 'the corner at its limits and at ride height, with its curves' },
  ];
}

/**
 * Travel required by the sizing, the travel cases in every load state, against what is available.
 * @param {import('jounce').AxleSizing} sized
 * @returns {import('jounce').Diagnostic[]}
 */
function marginsOf({ figure }) {
  return /** @type {const} */ (['bump', 'droop']).flatMap((side) => {
    const [required, available] = [
      figure(`${side}TravelRequired`).value,
      figure(`${side}TravelAvailable`).value,
    ];
    if (required === null || available === null) return [];
    return [{ code: 'travelMargin', severity: 'note', path: '', values: { side, required, available } }];
  });
}

/**
 * Writes a file into the folder for what is written; returns its name with that of the folder.
 * @param {string} name
 * @param {string} text
 */
function write(name, text) {
  const path = join(out, name);
  onFile(path, 'a file that can be written', () => writeFileSync(path, text));
  return join(shown, name);
}

/** Today's date, as `2026-05-17`. */
function today() {
  const now = new Date();
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()];
  return parts.map((part) => String(part).padStart(2, '0')).join('-');
}

/** @param {string} name */
function titleOf(name) {
  return name.charAt(0).toUpperCase() + name.slice(1).replaceAll('-', ' ');
}

/** @param {string} text */
function print(text) {
  console.log(text);
}

/**
 * The sweep in sentences.
 * @param {import('jounce').Sweep<import('jounce').ColumnOf>} curves
 * @param {'metric' | 'imperial'} units
 */
function findings({ columns, at }, units) {
  const { travel, shockLength, installationRatio, camber, rollCentreHeight } = columns;
  if (travel.length < 2) return ['The corner has no travel as it is drawn.'];
  /** @type {(mm: number, decimals?: number) => string} */
  const length = (mm, decimals = 0) =>
    units === 'imperial' ? `${(mm / INCH).toFixed(2)} in` : `${mm.toFixed(decimals)} mm`;
  const last = travel.length - 1;
  const ride = at(0);
  const stroke = Math.abs(shockLength[0] - shockLength[last]);
  const [low, high] = [installationRatio[0], installationRatio[last]];
  const rate = 100 * ((high / low) ** 2 - 1);
  return [
    `From ${length(-travel[0])} of droop to ${length(travel[last])} of bump the shock moves ${length(stroke, 1)}; at ride height it is ${length(ride.shockLength, 1)} long.`,
    `The installation ratio is ${low.toFixed(3)} at full droop, ${ride.installationRatio?.toFixed(3)} at ride height, ${high.toFixed(3)} at full bump.`,
    `The spring's part of the wheel rate, proportional to its square, changes by ${signed(rate, 0)} % from full droop to full bump.`,
    `Camber goes from ${signed(camber[0], 2)} to ${signed(camber[last], 2)} deg between droop and bump.`,
    `The roll centre is ${length(rollCentreHeight[0])} above the ground at droop, ${length(ride.rollCentreHeight ?? 0)} at ride, ${length(rollCentreHeight[last])} at bump.`,
  ];
}

/**
 * @param {number} value
 * @param {number} decimals
 */
function signed(value, decimals) {
  return `${value > 0 ? '+' : ''}${value.toFixed(decimals)}`;
}

/**
 * What is done with a file; where that fails the file is named: it is the reader's to put right, as a wrong input is.
 * @template T
 * @param {string} path
 * @param {string} what
 * @param {() => T} run
 */
function onFile(path, what, run) {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error;
    const [, reason] = /^\w+: ([^,]*)/.exec(error.message) ?? ['', error.message];
    throw new FileFault(
      folded([
        `This is not ${what}.`,
        `  found:    ${path} (${error.code}, ${reason})`,
        `  required: ${what}`,
        '  fix:      check the path and the right to use it',
      ]),
    );
  }
}

// npm run bench: prints the table. With --write (npm run bench -- --write) it goes to docs/benchmarks.md as well.

import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import type { CornerInput } from '../tests/judges/circle-intersection.ts';
import { loadPlanegcs } from '../tests/judges/planegcs.ts';
import { agreement } from './agreement.ts';
import { cars } from './cars.ts';
import { endingCorner, mainCorner, otherCorners } from './corners.ts';
import { heapGrowth } from './heap.ts';
import { jobsOf, POSES } from './jobs.ts';
import { hardCornerLines, type Line, linesOf } from './lines.ts';
import { chainLines, liftLine, manyCorners, rockerLine } from './linkages.ts';
import { interleave, warmUp } from './measure.ts';
import { growthText, machine, missedText, type Result, ranges, ratioOf, table } from './report.ts';
import { rivalsOf } from './rivals.ts';
import { scissorStaticsLines } from './scissor-statics.ts';
import { weightTable } from './weight.ts';

const ROUNDS = 101;
/** Rounds at each of the other corners. */
const FEWER_ROUNDS = 31;
/** Rounds of the chains, some of which take the general solver seconds. */
const CHAIN_ROUNDS = 9;
/** ms that each task runs before anything is timed, and on while it still gets faster. */
const WARM_UP = 150;
const SWEEPS = 10_000;
/** Further processes in which the main lines are timed: each compiles anew, and not always alike. */
const PROCESSES = 4;
/** Given to them: they print their ratios, and nothing else. */
const RATIOS_ONLY = '--ratios';

const on = `${machine()}; ${new Date().toISOString().slice(0, 10)}`;
const gcs = await loadPlanegcs();
const corners = [mainCorner, ...Object.values(otherCorners)].map(prepare);
// All corners first: what the engine learns from one is then there for all, for the library and its rivals.
for (const { lines } of corners) timed(lines, 1);

const [main, ...others] = corners.map(({ lines }, i) => timed(lines, i === 0 ? ROUNDS : FEWER_ROUNDS));
const hard = {
  'with parallel level arms': jobsOf(otherCorners['parallel level arms']),
  'that ends in a dead point': jobsOf(endingCorner),
};
const hardCorners = timed(hardCornerLines(corners[0].jobs, hard), FEWER_ROUNDS);
const rocker = timed([rockerLine(gcs)], FEWER_ROUNDS);
if (process.argv.includes(RATIOS_ONLY)) {
  const ratios = [...main, ...hardCorners, ...rocker].map((result) => [
    result.line.mark,
    ratioOf(result).median,
  ]);
  console.log(JSON.stringify(Object.fromEntries(ratios)));
  process.exit();
}
const elsewhere: Record<string, number[]> = {};
for (let k = 0; k < PROCESSES; k++) {
  const { stdout } = spawnSync(process.execPath, ['--expose-gc', ...process.argv.slice(1), RATIOS_ONLY], {
    encoding: 'utf8',
  });
  for (const [mark, ratio] of Object.entries<number>(JSON.parse(stdout))) {
    elsewhere[mark] = [...(elsewhere[mark] ?? []), ratio];
  }
}
const { everything } = corners[0].jobs;
const { length: columns } = everything().info;
/** Makes as many arrays as a sweep, and keeps none. */
const keepNothing = () => Array.from({ length: columns }, () => new Float64Array(POSES));
const growth = heapGrowth(everything, keepNothing, SWEEPS);
const worst = Math.max(...corners.map(({ apart }) => apart));

const chains = timed([...chainLines(gcs), liftLine(), ...scissorStaticsLines()], CHAIN_ROUNDS);
const lines = [
  ...withFloors([...main, ...hardCorners, ...rocker], FEWER_ROUNDS),
  ...withFloors(chains, CHAIN_ROUNDS),
];
const many = manyCorners();
const whole = cars();
const weights = await weightTable();

const report = `# How fast it is

Measured by \`npm run bench\`: ${on}.

A task and its rivals run in one process, in alternating batches of some 5 ms, the order swapped from round to
round; ${ROUNDS} rounds a line, after a warm-up with four corners, and on until a task gets no faster. Lines of one task time it once. The
ratio is taken within each round. Medians are given, with the quartiles as the spread; beside them those of ${PROCESSES} more processes. Before the timing the rivals of lines a to e, g and h
were seen to compute the same: in a to e the largest difference in any column was
${worst.toExponential(0)} (mm; for the slope of the ratio 1/mm), in g and h none is above 1e-9 in the place of a point. A sweep has ${POSES} poses, from
80 mm of droop to 80 mm of bump.

A *floor* is the ratio that an ideal pass of the same arithmetic would have, timed in the same run: the multiplications that the orders of
the series, their evaluation at all poses and the places made of them need, one array for the columns, and before it the check of the input
(a, n, g) and the building of the system as the library does them. It looks up, checks, names and keeps nothing else.

${table(lines, elsewhere)}

${missedText(lines)}

${growthText(growth, SWEEPS)}

${many}

${whole}

Median ratios at three more corners (${Object.keys(otherCorners).join('; ')}): ${ranges(others)}.

What the lines mean:

- **a**: all of it, from a plain document to shock length, installation ratio and its slope: checks, building,
  motion, derivatives, columns. The rival is a general 2D constraint solver in WebAssembly
  (\`@salusoft89/planegcs\`) with the fastest of its algorithms (DogLeg), its sketch built beforehand; it solves
  the positions alone. It starts each pose from the parabola through the last three, or from the last one as it
  is; with every point of the corner, or with those alone that travel and shock length need.
- **b**: a checked corner swept for the places of its five moving points and the shock length, building
  included. The rival is written by hand for this one linkage, writes into a buffer that it is given, and checks
  nothing: b1 as from a textbook (angle of the lower arm, circle intersection, Newton's method on the travel),
  b2 the same idea tuned for speed (rational parameter, cubic start, a last correction without another
  intersection).
- **c**: what every column costs against b.
- **ct**: what every column costs against the rival of b1, which computes positions alone.
- **n**: corners that need several pieces of path; the second stops short of its 80 mm of droop, 70 mm down.
- **d**: the four coordinates of the ball joints by Newton's method, each pose from the one before.
- **e**: building the system (unknowns, rows, workspace) against all else in a sweep for shock length, ratio and slope.
- **f**: bytes in use on the heap and in array buffers, every column asked for; the task that keeps nothing makes
  as many arrays. One small object left behind by each sweep would be ${(16 * SWEEPS).toLocaleString('en')} bytes or more.
- **g**: as a, for a corner whose coilover is worked by a rod through a rocker.
- **h**: N four-bars in a row that share their uprights, all bars 1 m (problem A02 of the Library of Computational
  Benchmark Problems), from the drawing to the places of all pins; h1 to h200 are the cost of a loop against that in a chain of
  ten, hp1 to hp40 the general solver on the same chain. Each turns by 1.2 rad either way from where its uprights stand
  upright, driven by the turn of the first; ${CHAIN_ROUNDS} rounds, for the general solver is slow here. Held against the closed form.
- **sf**, **sm**: all joint forces of a scissor lift under a load on top, held at its sliding foot, and \`mobility\` of the same;
  the foot's force held against virtual work. Four times the cells: 4 is growth in proportion, 64 that of a dense matrix.
- **s**: the lift driven by the foot that slides, from flat to upright; held against its height, which follows from the width.
- **i**: the structure is shared, as all corners of a kind do.
- **j**, **k**: settled spring, damper and perch; every figure moved by each uncertain input, and by all of them at once.

# What a page fetches

The library's own code, minified and gzipped, kB of 1000 bytes: its dependencies (\`zod\`, \`ml-matrix\`; \`fast-check\` for
\`jounce/testing\`) apart. The tests of the package hold today's sizes.

${weights}

The *floor* is the same import with everything left out that refuses wrong input and finds words for it: checks of drawings, documents and
plausibility, why nothing moves, sentences, former names. What limits it: the numerical core, and in all of it sizing, sheet, pictures,
survey and design, each about as heavy as the core.
`;

console.log(report);
if (process.argv.includes('--write')) {
  mkdirSync('docs', { recursive: true });
  writeFileSync('docs/benchmarks.md', report);
}

function prepare(input: CornerInput) {
  const jobs = jobsOf(input);
  const rivals = rivalsOf(gcs, input, jobs.positions().columns.travel);
  return { jobs, lines: linesOf(jobs, rivals), apart: agreement(jobs, rivals) };
}

/** Lines with a floor and the ideal passes in their place timed as they were. */
function withFloors(results: readonly Result[], rounds: number): Result[] {
  return results.map((result) => {
    const { floor, clock } = result.line;
    if (floor === undefined) return result;
    for (const task of [floor.ours, floor.rival]) warmUp(task, WARM_UP);
    const [timing] = interleave(floor.ours, [floor.rival], rounds, clock);
    return { ...result, floor: timing };
  });
}

/** Lines one after the other: those of one task of ours at once. */
function timed(lines: readonly Line[], rounds: number): Result[] {
  const results = new Map<Line, Result>();
  for (const { ours, clock } of lines) {
    const same = lines.filter((line) => line.ours === ours && line.clock === clock && !results.has(line));
    if (same.length === 0) continue;
    const rivals = same.map(({ rival }) => rival);
    for (const task of [ours, ...rivals]) warmUp(task, WARM_UP);
    interleave(ours, rivals, rounds, clock).forEach((timing, k) => {
      results.set(same[k], { line: same[k], timing });
    });
  }
  return lines.map((line) => results.get(line) as Result);
}

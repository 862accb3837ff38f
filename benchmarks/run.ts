// npm run bench: prints the table. With --write (npm run bench -- --write) it goes to docs/benchmarks.md as well.

import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import type { CornerInput } from '../tests/judges/circle-intersection.ts';
import { loadPlanegcs } from '../tests/judges/planegcs.ts';
import { agreement } from './agreement.ts';
import { axleLines, corneringLine } from './axles.ts';
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

const axles = timed([...axleLines(), corneringLine()], FEWER_ROUNDS);
const chains = timed([...chainLines(gcs), liftLine(), ...scissorStaticsLines()], CHAIN_ROUNDS);
const lines = [
  ...withFloors([...main, ...hardCorners, ...rocker], FEWER_ROUNDS),
  ...axles,
  ...withFloors(chains, CHAIN_ROUNDS),
];
const many = manyCorners();
const whole = cars();
const weights = await weightTable();

const report = `# Speed

\`npm run bench\` measured these figures: ${on}.

A task and its rivals run in one process, in alternating batches of about 5 ms, with the order swapped from round to round. Each line has ${ROUNDS}
rounds, after a warm-up with four corners that lasts until a task gets no faster. Lines with the same task time it once. The ratio is taken within
each round. The table gives medians, with the quartiles as the spread, and the medians of ${PROCESSES} more processes. Before the timing, the rivals of
lines a to e, g and h were checked to compute the same. In a to e the largest difference in any column was ${worst.toExponential(0)} (mm; for the slope of the
ratio 1/mm). In g and h none is above 1e-9 in the position of a point. A sweep has ${POSES} poses, from 80 mm of droop to 80 mm of bump.

A *floor* is the ratio that an ideal pass of the same arithmetic would have, timed in the same run. The ideal pass has the multiplications for the
orders of the series, for their evaluation at all poses, and for the positions that follow. It has one array for the columns. Before that it checks the
input (a, n, g) and builds the system, as the library does. It looks up, checks, names and keeps nothing else.

${table(lines, elsewhere)}

${missedText(lines)}

${growthText(growth, SWEEPS)}

${many}

${whole}

Median ratios at three more corners (${Object.keys(otherCorners).join('; ')}): ${ranges(others)}.

The lines mean:

- **a**: the whole way, from a plain document to shock length, installation ratio and its slope: checks, building, motion, derivatives, columns. The
  rival is a general 2D constraint solver in WebAssembly (\`@salusoft89/planegcs\`) with the fastest of its algorithms (DogLeg). Its sketch is
  built beforehand, and it solves the positions alone. It starts each pose from the parabola through the last three poses, or from the last pose. It
  solves every point of the corner, or only the points that travel and shock length need.
- **b**: a checked corner, swept for the positions of its five moving points and the shock length, with building. The rival is written by hand for this
  one linkage, writes into a given buffer, and checks nothing. b1 is as in a textbook: angle of the lower arm, circle intersection, Newton's method on
  the travel. b2 is the same idea tuned for speed: rational parameter, cubic start, and a last correction without another intersection.
- **c**: the cost of every column, compared with b.
- **ct**: the cost of every column, compared with the rival of b1, which computes positions alone.
- **n**: corners that need several pieces of path. The second has 70 mm of its 80 mm of droop.
- **d**: the four coordinates of the ball joints with Newton's method, each pose from the one before.
- **e**: building the system (unknowns, rows, workspace), compared with the rest of a sweep for shock length, ratio and slope.
- **f**: bytes in use on the heap and in array buffers, with every column. The task that keeps nothing makes as many arrays. One small object left behind
  by each sweep would be ${(16 * SWEEPS).toLocaleString('en')} bytes or more.
- **g**: as a, for a corner with a coilover on a rocker, driven through a rod.
- **x**: both wheels on the ground at each pose, with roll centres, bar and derivatives. The rival sweeps the two corners, one after the other.
  x1 has one corner on both sides and rolls that lie evenly about 0, so that one wheel is read for both; x2 has neither wheel from the other.
- **y**: heave, roll, wheel loads, roll stiffness and load transfer of each state, from the checked linkages on. 100 states are to take less than
  10 ms on a machine that does nothing else: 100 µs a state.
- **h**: N four-bars in a row that share their uprights, all bars 1 m (problem A02 of the Library of Computational Benchmark Problems), from the
  drawing to the positions of all pins. h1 to h200 compare the cost of a loop with that in a chain of ten. hp1 to hp40 compare the general solver on the same
  chain. Each chain turns 1.2 rad either way from the pose with vertical uprights, and the first upright drives it. There are ${CHAIN_ROUNDS} rounds,
  because the general solver is slow here. The closed form checks the results.
- **sf**, **sm**: all joint forces of a scissor lift under a load on top, held at its sliding foot, and \`mobility\` of the same lift. Virtual work
  checks the force at the foot. With four times the cells, 4 is proportional growth and 64 that of a dense matrix.
- **s**: the lift driven at its sliding foot, from flat to upright. Its height, which follows from the width, checks the results.
- **i**: the structure is shared, as by all corners of a kind.
- **j**, **k**: spring, damper and perch stay as chosen. j moves every figure with one uncertain input at a time, and k with all of them at once.

# Size for a web page

The library's own code, minified and gzipped, in kB of 1000 bytes, without its dependencies (\`zod\`, \`ml-matrix\`; \`fast-check\` for
\`jounce/testing\`). The tests of the package check these sizes.

${weights}

The *floor* is the same import without the code that refuses wrong input and words the refusal: checks of drawings, documents and plausibility, why
nothing moves, sentences, former names. The rest is the numerical core and, in the whole library, sizing, sheet, pictures, survey and design. Each of
these is about as large as the core.
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

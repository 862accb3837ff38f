import { availableParallelism, cpus, loadavg } from 'node:os';
import type { Growth } from './heap.ts';
import type { Line } from './lines.ts';
import { type Quartiles, quartiles, type Timing } from './measure.ts';

/** A line that was timed. */
export interface Result {
  readonly line: Line;
  readonly timing: Timing;
  /** The ideal passes in its place, if it has any. */
  readonly floor?: Timing;
}

export function ratioOf({ line, timing }: Result): Quartiles {
  return quartiles(timing.ours.map((ours, round) => line.ratio(ours, timing.rival[round])));
}

/** The lines as a table in Markdown, ratios first. */
export function table(
  results: readonly Result[],
  others: Readonly<Record<string, readonly number[]>>,
): string {
  const head = [
    '',
    'ratio',
    'quartiles',
    'other processes',
    'target',
    '',
    'floor',
    'ours',
    'rival',
    'what is divided by what',
  ];
  const rows = results.map((result) => {
    const { line, timing } = result;
    const ratio = ratioOf(result);
    return [
      line.mark,
      `**${figures(ratio.median)}**`,
      `${figures(ratio.low)} to ${figures(ratio.high)}`,
      span(others[line.mark]),
      ...asked(line, ratio.median),
      result.floor === undefined ? '' : figures(ratioOf({ line, timing: result.floor }).median),
      time(quartiles(timing.ours), line),
      time(quartiles(timing.rival), line),
      line.text,
    ];
  });
  const rule = head.map((_, column) => ([1, 2, 3, 6, 7, 8].includes(column) ? '---:' : '---'));
  return [head, rule, ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

function span(values: readonly number[] = []): string {
  return values.length === 0 ? '' : `${figures(Math.min(...values))} to ${figures(Math.max(...values))}`;
}

/** The median ratio of each line at several corners, as a range. */
export function ranges(perCorner: readonly (readonly Result[])[]): string {
  const [first] = perCorner;
  return first
    .map(({ line }, i) => {
      const medians = perCorner.map((results) => ratioOf(results[i]).median);
      return `${line.mark} ${figures(Math.min(...medians))} to ${figures(Math.max(...medians))}`;
    })
    .join(', ');
}

export function growthText({ bytes, noise }: Growth, runs: number): string {
  const text = ({ low, median, high }: Quartiles) =>
    `**${Math.round(median)}** bytes (quartiles ${Math.round(low)} to ${Math.round(high)})`;
  return `f: heap growth over ${runs.toLocaleString('en')} sweeps, after collection: ${text(bytes)}; and of a task known to keep nothing: ${text(noise)}.`;
}

/** The lines that missed what was asked, by how much, and what limits them: an item for each reason. */
export function missedText(results: readonly Result[]): string {
  const missed = new Map<string, string[]>();
  for (const result of results) {
    const { mark, bar, limit = 'not known' } = result.line;
    const { median } = ratioOf(result);
    if (bar === undefined || asked(result.line, median)[1] === 'met') continue;
    const by = 'atLeast' in bar ? bar.atLeast / median : median / bar.atMost;
    missed.set(limit, [...(missed.get(limit) ?? []), `${mark} by a factor of ${figures(by)}`]);
  }
  if (missed.size === 0) return 'All targets are met.';
  const items = [...missed].map(([limit, lines]) => `- ${lines.join(', ')}. Cause: ${limit}.`);
  return `**Warning: some targets are missed.**\n\n${items.join('\n')}`;
}

export function machine(): string {
  const [cpu] = cpus();
  const load = loadavg()[0].toFixed(2);
  return `${availableParallelism()} cores, ${cpu?.model.trim() ?? 'CPU not told'}, Node ${process.versions.node} (V8 ${process.versions.v8}), ${process.platform} ${process.arch}, load ${load} at the start`;
}

function asked({ bar }: Line, median: number): [string, string] {
  if (bar === undefined) return ['', ''];
  if ('atLeast' in bar) return [`at least ${bar.atLeast}`, median >= bar.atLeast ? 'met' : 'missed'];
  return [`at most ${bar.atMost}`, median <= bar.atMost ? 'met' : 'missed'];
}

function time({ low, median, high }: Quartiles, { poses = 1 }: Line): string {
  const [l, m, h] = [low, median, high].map((us) => figures(us / poses));
  return `${m} µs${poses > 1 ? ' per pose' : ''} (${l} to ${h})`;
}

/** Three significant figures, and no fewer digits before the point than there are. */
function figures(value: number): string {
  const digits = Math.floor(Math.log10(Math.abs(value)));
  return value.toFixed(Number.isFinite(digits) ? Math.max(0, 2 - digits) : 0);
}

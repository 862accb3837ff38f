// Sizes a car beside the page: a car file as text comes in; its sizing on a screen, order and report as pages and what the figures take from it
// go out.
import {
  type Diagnostic,
  issueLines,
  orderSheet,
  readCar,
  reportSheet,
  type Sizing,
  sheetHtml,
  sizeCoilovers,
  sizingSummary,
} from 'jounce';
import { axleName } from '#jounce/corner/axles.js';
import { SUMMARY_HEAD, summaryRows } from '#jounce/report/summary.js';
import type { Sized } from './corner-study.ts';
import { refusal } from './refusal.ts';
import type { AxleName } from './shown-file.ts';

export interface Answer {
  /** What the car file was, to tell late answers from the present one. */
  readonly text: string;
  /** Why the file is refused; empty if it is not. */
  readonly refused: string;
  readonly screen: Screen | null;
  /** Order and report as HTML pages; null if the file is refused. */
  readonly order: string | null;
  readonly report: string | null;
  readonly axles: Readonly<Partial<Record<AxleName, Sized>>>;
}

/** A sizing as the command prints it, in its parts. */
export interface Screen {
  readonly status: string;
  readonly head: readonly string[];
  readonly axles: readonly { readonly name: string; readonly rows: readonly (readonly string[])[] }[];
  /** Each finding in its lines: the problem, what was found, what is required, what to do. */
  readonly findings: readonly { readonly heading: string; readonly issues: readonly (readonly string[])[] }[];
}

function screenOf(sizing: Sizing): Screen {
  const { units, axles, conflicts, checks } = sizing;
  const [status] = sizingSummary(sizing).split('\n', 1);
  const under = (heading: string, found: readonly Diagnostic[]) => ({
    heading: `${heading}: ${found.length}`,
    issues: found.map((one) => issueLines(one, units)),
  });
  return {
    status,
    head: SUMMARY_HEAD,
    axles: axles.map((sized) => ({ name: axleName(sized.axle), rows: summaryRows(sized, units) })),
    findings: [
      conflicts.length === 0 ? { heading: 'No conflicts.', issues: [] } : under('Conflicts', conflicts),
      ...(checks.length === 0 ? [] : [under('Check these inputs', checks)]),
    ],
  };
}

function answer(text: string): Answer {
  try {
    const sizing = sizeCoilovers(readCar(text));
    const order = sheetHtml(orderSheet(sizing));
    const report = sheetHtml(reportSheet(sizing));
    return { text, refused: '', screen: screenOf(sizing), order, report, axles: axlesOf(sizing) };
  } catch (error) {
    const words = refusal(error);
    if (words === null) throw error;
    return { text, refused: words, screen: null, order: null, report: null, axles: {} };
  }
}

function axlesOf({ axles }: Sizing): Answer['axles'] {
  return Object.fromEntries(
    axles.map(({ axle, figure, springFit, damper }): [AxleName, Sized] => [
      axle,
      {
        sprungMass: figure('sprungMass').value,
        frequency: springFit?.requiredFrequency ?? null,
        damper: damper && {
          extendedLength: damper.extendedLength,
          compressedLength: damper.compressedLength,
        },
      },
    ]),
  );
}

// A worker's own scope: the types are those of a page.
const scope = globalThis as unknown as {
  onmessage: (event: { data: string }) => void;
  postMessage(answer: Answer): void;
};
scope.onmessage = ({ data }) => scope.postMessage(answer(data));

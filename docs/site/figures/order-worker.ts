// Sizes a car beside the page: a car file as text comes in, the screen of its sizing, its order as a page and what the figures take from it
// go out.
import { orderSheet, readCar, type Sizing, sheetHtml, sizeCoilovers, sizingSummary } from 'jounce';
import type { Sized } from './corner-study.ts';
import { refusal } from './refusal.ts';
import type { AxleName } from './shown-file.ts';

export interface Answer {
  /** What the car file was, to tell late answers from the present one. */
  readonly text: string;
  readonly summary: string;
  /** The order as an HTML page; null if the file is refused. */
  readonly order: string | null;
  readonly axles: Readonly<Partial<Record<AxleName, Sized>>>;
}

function answer(text: string): Answer {
  try {
    const sizing = sizeCoilovers(readCar(text));
    const order = sheetHtml(orderSheet(sizing));
    return { text, summary: sizingSummary(sizing), order, axles: axlesOf(sizing) };
  } catch (error) {
    const words = refusal(error);
    if (words === null) throw error;
    return { text, summary: words, order: null, axles: {} };
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

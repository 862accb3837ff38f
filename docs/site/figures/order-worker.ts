// Sizes a car beside the page: a car file as text comes in, the screen of its sizing and its order as a page go out.
import { orderSheet, readCar, sheetHtml, sizeCoilovers, sizingSummary } from 'jounce';
import { refusal } from './refusal.ts';

export interface Answer {
  /** What the car file was, to tell late answers from the present one. */
  readonly text: string;
  readonly summary: string;
  /** The order as an HTML page; null if the file is refused. */
  readonly order: string | null;
}

function answer(text: string): Answer {
  try {
    const sizing = sizeCoilovers(readCar(text));
    return { text, summary: sizingSummary(sizing), order: sheetHtml(orderSheet(sizing)) };
  } catch (error) {
    const words = refusal(error);
    if (words === null) throw error;
    return { text, summary: words, order: null };
  }
}

// A worker's own scope has these two; the types of this project know no browser.
const scope = globalThis as unknown as {
  onmessage: (event: { data: string }) => void;
  postMessage(answer: Answer): void;
};
scope.onmessage = ({ data }) => scope.postMessage(answer(data));

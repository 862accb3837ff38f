// The file of a page as a figure shows it: read when it is pasted, and followed by the figure when a number in it changes.

import { computed, ref, shallowRef, watch } from 'vue';
import type { Sized } from './corner-study.ts';
import { usePageFile } from './page-file.ts';
import { refusal } from './refusal.ts';
import { type AxleName, readShown, type ShownFile, textOf } from './shown-file.ts';

/** A figure of what `study` finds in the file of the page, which starts as an example. */
export function useFigureFile<Study>(
  example: object,
  study: (file: ShownFile, sized: Sized | null) => Study,
) {
  const first = readShown(JSON.stringify(example), null);
  const page = usePageFile(textOf(first));
  const file = shallowRef(first);
  const found = shallowRef(study(first, null));
  /** Why what the reader wants cannot be; empty where it can. */
  const refused = ref('');
  /** Counts the files taken, each of which may want another view. */
  const taken = ref(0);
  const sized = computed((): Sized | null => {
    const { axle } = file.value;
    return (axle === null ? null : page.answer.value?.axles[axle]) ?? null;
  });
  /** Whether the lengths of a damper that the sizing chooses are still those of before a change, or not there yet. */
  const settling = computed((): 'before' | 'first' | null => {
    const { axle, corner } = file.value;
    if (
      axle === null ||
      !page.busy.value ||
      corner.limits.damper !== undefined ||
      corner.ordered?.damper !== undefined
    )
      return null;
    return sized.value === null ? 'first' : 'before';
  });
  /** The last text that this figure has made or read. */
  let known = page.text.value;

  /** Another file, or the same one changed; one that cannot be is said to be none, and the one before stays. */
  function show(make: () => ShownFile): boolean {
    try {
      const next = make();
      found.value = study(next, sized.value);
      file.value = next;
      refused.value = '';
      return true;
    } catch (error) {
      const words = refusal(error);
      if (words === null) throw error;
      refused.value = words;
      return false;
    }
  }

  function edit(change: (file: ShownFile) => ShownFile) {
    if (!show(() => change(file.value))) return;
    page.later(() => {
      known = textOf(file.value);
      return known;
    });
  }

  function take(text: string, axle: AxleName | null) {
    known = text;
    if (show(() => readShown(text, axle))) taken.value += 1;
  }

  watch(page.text, (text) => {
    if (text !== known) take(text, file.value.axle);
  });
  watch(sized, () => show(() => file.value));

  return {
    page,
    file,
    found,
    sized,
    settling,
    refused,
    taken,
    edit,
    choose: (axle: AxleName) => take(textOf(file.value), axle),
    again: () => {
      page.put(page.start, true);
      take(page.start, null);
    },
  };
}

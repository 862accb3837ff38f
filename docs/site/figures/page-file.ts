// The file of a page: it is in the address, can be changed and saved, and that of a car is sized beside the page. Nothing leaves the page.

import { computed, onBeforeUnmount, onMounted, type Ref, ref, shallowRef } from 'vue';
import { fromAddress, toAddress } from './address.ts';
import type { Answer } from './order-worker.ts';
import { isCar } from './shown-file.ts';

/** ms without a change before a file is taken into the address and sized. */
const QUIET = 300;

export type PageFile = ReturnType<typeof usePageFile>;

/** The file that the address has, or else the one to start with. */
export function usePageFile(start: string) {
  const text = ref(start);
  const answer = shallowRef<Answer | null>(null);
  /** What the address of a page ends with to show this file; empty for the file to start with. */
  const hash = ref('');
  /** Addresses of the order, the report and the file itself; empty while there is none. */
  const order = ref('');
  const report = ref('');
  const saved = ref('');
  const car = computed(() => isCar(text.value));
  /** Whether a change waits to be taken. */
  const pending = ref(false);
  const busy = computed(() => car.value && (pending.value || answer.value?.text !== text.value));

  let worker: Worker | null = null;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  /** Whether what waits gets an entry of its own. */
  let isNew = false;

  function size() {
    linkTo(saved, text.value, 'application/json');
    if (!car.value) return;
    if (worker === null) {
      worker = new Worker(new URL('./order-worker.ts', import.meta.url), { type: 'module' });
      worker.onmessage = ({ data }: MessageEvent<Answer>) => {
        if (data.text !== text.value) return;
        answer.value = data;
        linkTo(order, data.order ?? '', 'text/html');
        linkTo(report, data.report ?? '', 'text/html');
      };
    }
    worker.postMessage(text.value);
  }

  /** Takes what is made once nothing has changed for a while; another file altogether gets an entry of its own in the history. */
  function later(make: () => string, isOther = false) {
    clearTimeout(waiting);
    isNew = isOther || (pending.value && isNew);
    pending.value = true;
    waiting = setTimeout(async () => {
      pending.value = false;
      text.value = make();
      size();
      hash.value = text.value === start ? '' : `#${await toAddress(text.value)}`;
      const { pathname, search } = location;
      const address = `${pathname}${search}${hash.value}`;
      if (isNew) history.pushState(history.state, '', address);
      else history.replaceState(history.state, '', address);
    }, QUIET);
  }

  function put(next: string, isOther = false) {
    text.value = next;
    later(() => next, isOther);
  }

  async function fromLocation() {
    const given = await fromAddress(location.hash.slice(1));
    if (given !== null || hash.value !== '') {
      text.value = given ?? start;
      hash.value = given === null ? '' : location.hash;
    }
    size();
  }

  onMounted(() => {
    addEventListener('hashchange', fromLocation);
    return fromLocation();
  });
  onBeforeUnmount(() => {
    removeEventListener('hashchange', fromLocation);
    worker?.terminate();
    clearTimeout(waiting);
    linkTo(order, '', '');
    linkTo(report, '', '');
    linkTo(saved, '', '');
  });

  return { start, text, answer, hash, order, report, saved, car, busy, put, later };
}

/** An address within this page for a text, in place of the one that `link` had. */
function linkTo(link: Ref<string>, content: string, type: string) {
  if (link.value !== '') URL.revokeObjectURL(link.value);
  link.value = content === '' ? '' : URL.createObjectURL(new Blob([content], { type }));
}

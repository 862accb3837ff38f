// Papers of the example car, and of that car changed.
import { readFileSync } from 'node:fs';
import { type Block, readCar, type Sizing, sizeCoilovers } from 'jounce';

// biome-ignore lint/suspicious/noExplicitAny: documents are changed here, at any place
export type Json = any;

const text = readFileSync(new URL('../../docs/examples/car.json', import.meta.url), 'utf8');

/** The example car, changed and sized. */
export function sized(change: (car: Json) => void = () => {}): Sizing {
  const car = JSON.parse(text);
  change(car);
  return sizeCoilovers(readCar(car));
}

/** Blocks with those inside pages and columns, in the order of reading. */
export function flat(blocks: readonly Block[]): Block[] {
  return blocks.flatMap((block) => {
    if (block.kind === 'page') return [block, ...flat(block.blocks)];
    return block.kind === 'columns' ? flat(block.columns.flat()) : [block];
  });
}

/** The pages of an order. */
export function pagesIn(blocks: readonly Block[]): (Block & { readonly kind: 'page' })[] {
  return blocks.flatMap((block) => (block.kind === 'page' ? [block] : []));
}

/** Rows of all tables. */
export function rowsIn(blocks: readonly Block[]): (readonly string[])[] {
  return flat(blocks).flatMap((block) => (block.kind === 'table' ? block.rows : []));
}

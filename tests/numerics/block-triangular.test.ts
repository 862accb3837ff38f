/** Block triangular form against dense determinants and ranks (ml-matrix), over random patterns. */
import { type Arbitrary, array, assert, integer, property } from 'fast-check';
import { determinant, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { type BlockTriangular, blockTriangular } from '../../src/numerics/block-triangular.ts';
import type { Pattern } from '../../src/numerics/elimination.ts';
import { uniform } from '../../src/numerics/random.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectSame } from '../support/tolerance.ts';

/** A pattern from the columns of each row. */
function patternOf(rows: readonly (readonly number[])[], columns: number): Pattern {
  const start = [0];
  for (const row of rows) start.push(start[start.length - 1] + row.length);
  return deepFreeze({ columns, start, column: rows.flat() });
}

/** Entries of a pattern, no two the same by chance. */
function filled(rows: readonly (readonly number[])[], columns: number, seed: number): number[][] {
  const random = uniform(seed);
  return rows.map((row) => {
    const dense = new Array<number>(columns).fill(0);
    for (const c of row) dense[c] = (random() < 0.5 ? -1 : 1) * (0.5 + random());
    return dense;
  });
}

const blocksOf = ({ blockStart }: BlockTriangular) =>
  blockStart.slice(1).map((end, k) => [blockStart[k], end] as const);

/** Which entries there are, in the order of the form. */
const ordered = (rows: readonly (readonly number[])[], { rowOrder, columnOrder }: BlockTriangular) =>
  rowOrder.map((i) => columnOrder.map((c) => rows[i].includes(c)));

/** Whether each of some indices leads to each other one along entries. */
function isStronglyConnected(entry: readonly (readonly boolean[])[]): boolean {
  const reach = entry.map((row, i) => row.map((there, j) => there || i === j));
  for (let k = 0; k < reach.length; k++)
    for (let i = 0; i < reach.length; i++)
      for (let j = 0; j < reach.length; j++) reach[i][j] ||= reach[i][k] && reach[k][j];
  return reach.every((row) => row.every(Boolean));
}

const size = integer({ min: 1, max: 12 });

/** Patterns with an entry in one place of `oneOf`. */
function patterns(m: number, n: number, oneOf: number): Arbitrary<number[][]> {
  const row = array(integer({ min: 1, max: oneOf }), { minLength: n, maxLength: n });
  return array(
    row.map((places) => places.flatMap((place, c) => (place === 1 ? [c] : []))),
    { minLength: m, maxLength: m },
  );
}

const any = (isSquare: boolean) =>
  size.chain((m) =>
    size.chain((n) =>
      integer({ min: 2, max: 8 }).chain((oneOf) =>
        patterns(m, isSquare ? m : n, oneOf).map((rows) => ({ rows, columns: isSquare ? m : n })),
      ),
    ),
  );

const seeds = integer({ min: 1, max: 1e6 });
const many = { numRuns: 400 };

describe('the block triangular form', () => {
  it('orders every row and column once, matched in pairs that have an entry', () => {
    assert(
      property(any(false), ({ rows, columns }) => {
        const form = blockTriangular(patternOf(rows, columns));
        const all = (first: readonly number[], rest: readonly number[]) =>
          [...first, ...rest].sort((a, b) => a - b);
        expect(all(form.rowOrder, form.unmatchedRows)).toEqual(rows.map((_, i) => i));
        expect(all(form.columnOrder, form.unmatchedColumns)).toEqual(
          Array.from({ length: columns }, (_, c) => c),
        );
        form.rowOrder.forEach((i, k) => {
          expect(rows[i]).toContain(form.columnOrder[k]);
        });
        expect(form.blockStart[form.blockStart.length - 1]).toBe(form.rowOrder.length);
      }),
      many,
    );
  });

  it('has nothing beyond the block of a row, and blocks that fall into none smaller', () => {
    assert(
      property(any(false), ({ rows, columns }) => {
        const form = blockTriangular(patternOf(rows, columns));
        const entry = ordered(rows, form);
        for (const [first, end] of blocksOf(form)) {
          expect(end).toBeGreaterThan(first);
          const block = entry.slice(first, end);
          expect(block.some((row) => row.slice(end).some(Boolean))).toBe(false);
          expect(isStronglyConnected(block.map((row) => row.slice(first, end)))).toBe(true);
        }
      }),
      many,
    );
  });

  it('has blocks whose determinants multiply to that of the whole', () => {
    assert(
      property(any(true), seeds, ({ rows, columns }, seed) => {
        const form = blockTriangular(patternOf(rows, columns));
        const values = filled(rows, columns, seed);
        const whole = Math.abs(determinant(new Matrix(values)));
        // Where a row finds no column every product of entries has a zero in it.
        let product = form.unmatchedRows.length > 0 ? 0 : 1;
        let scale = 1;
        for (const [first, end] of blocksOf(form)) {
          const block = form.rowOrder
            .slice(first, end)
            .map((i) => form.columnOrder.slice(first, end).map((c) => values[i][c]));
          product *= determinant(new Matrix(block));
        }
        for (const row of values) scale *= Math.hypot(...row);
        expectClose(Math.abs(product), whole, { times: 256, scale });
      }),
      many,
    );
  });

  it('leaves unmatched what is missing to full rank, whatever the entries', () => {
    assert(
      property(any(false), seeds, ({ rows, columns }, seed) => {
        const { rowOrder, unmatchedRows } = blockTriangular(patternOf(rows, columns));
        const rankOf = (values: number[][]) =>
          values.length === 0
            ? 0
            : new SingularValueDecomposition(new Matrix(values), { autoTranspose: true }).rank;
        const values = filled(rows, columns, seed);
        expectSame(rowOrder.length, rankOf(values));
        // Each row is told by those before it alone.
        const dependent = values.flatMap((_, i) =>
          rankOf(values.slice(0, i + 1)) === rankOf(values.slice(0, i)) ? [i] : [],
        );
        expectSame(unmatchedRows, dependent);
      }),
      many,
    );
  });

  it('finds planted blocks, however rows and columns are shuffled', () => {
    assert(
      property(array(integer({ min: 1, max: 5 }), { minLength: 1, maxLength: 8 }), seeds, (sizes, seed) => {
        const random = uniform(seed);
        const rows: number[][] = [];
        for (const n of sizes) {
          const first = rows.length;
          for (let i = 0; i < n; i++) {
            // A ring within the block, and what lies in blocks before it.
            const before = Array.from({ length: first }, (_, c) => c).filter(() => random() < 0.3);
            rows.push([...before, first + i, ...(n > 1 ? [first + ((i + 1) % n)] : [])]);
          }
        }
        const shuffled = rows.map((_, c) => c);
        for (let i = shuffled.length - 1; i > 0; i--) {
          const j = Math.floor(random() * (i + 1));
          [shuffled[i], shuffled[j]] = [shuffled[j], shuffled[i]];
        }
        const permuted = rows.map((_, i) => rows[shuffled[i]].map((c) => shuffled[c]));
        const form = blockTriangular(patternOf(permuted, rows.length));
        const found = blocksOf(form).map(([first, end]) => end - first);
        expectSame(
          found.sort((a, b) => a - b),
          [...sizes].sort((a, b) => a - b),
        );
      }),
    );
  });
});

describe('long chains', () => {
  const n = 50_000;
  const each = Array.from({ length: n }, (_, i) => i);

  it('fall into one row each where each row needs the one before', () => {
    const chain = each.map((i) => (i === 0 ? [0] : [i - 1, i]));
    const { blockStart, rowOrder } = blockTriangular(patternOf(chain, n));
    expect(blockStart).toHaveLength(n + 1);
    expect(rowOrder).toEqual(each);
    // Each takes the column of the next one first: one path through all.
    const shifted = [...each.slice(1).map((i) => [i - 1, i]), [0]];
    expect(blockTriangular(patternOf(shifted, n)).blockStart).toHaveLength(n + 1);
  });

  it('are one block where they close', () => {
    const ring = each.map((i) => [i, (i + 1) % n]);
    expect(blockTriangular(patternOf(ring, n)).blockStart).toEqual([0, n]);
  });

  it('leave one row over where two need the same', () => {
    const twice = [...each.map((i) => (i === 0 ? [0] : [i - 1, i])), [n - 1]];
    expect(blockTriangular(patternOf(twice, n)).unmatchedRows).toEqual([n]);
  });
});

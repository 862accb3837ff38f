/** Sparse elimination against a dense decomposition (ml-matrix), over random sparse matrices. */
import { type Arbitrary, array, assert, boolean, double, integer, property, record } from 'fast-check';
import { LuDecomposition, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  DEPENDENT_SHARE,
  type Elimination,
  eliminate,
  elimination,
  nullVector,
  solve,
} from '../../src/numerics/elimination.ts';
import { deepFreeze } from '../support/freeze.ts';
import { EPS, expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

/** A matrix by its rows, with null where it has no entry. */
type Sparse = readonly (readonly (number | null)[])[];

const columnsOf = (rows: Sparse) => rows[0]?.length ?? 0;
const dense = (rows: Sparse) => new Matrix(rows.map((row) => row.map((value) => value ?? 0)));

/** The matrix eliminated. */
function eliminated(rows: Sparse, scale?: readonly number[]): Elimination {
  const start = [0];
  const column: number[] = [];
  const value: number[] = [];
  for (const row of rows) {
    row.forEach((entry, c) => {
      if (entry === null) return;
      column.push(c);
      value.push(entry);
    });
    start.push(column.length);
  }
  const e = elimination(deepFreeze({ columns: columnsOf(rows), start, column }));
  eliminate(e, new Float64Array(value), scale);
  return e;
}

function solution(rows: Sparse, e: Elimination, b: readonly number[]): Float64Array {
  const x = new Float64Array(columnsOf(rows)).fill(7);
  solve(e, new Float64Array(b), x);
  return x;
}

/** The product A x, row by row. */
const times = (rows: Sparse, x: Float64Array) =>
  rows.map((row) => row.reduce<number>((sum, entry, c) => sum + (entry ?? 0) * x[c], 0));

const norm = (x: Iterable<number>) => Math.hypot(...x);

const entry = double({ min: -1, max: 1, noNaN: true }).map((value) => value + (value < 0 ? -0.1 : 0.1));

/** Matrices with an entry in about two places of five. */
function sparse(rows: number, columns: number): Arbitrary<Sparse> {
  const place = record({ there: integer({ min: 0, max: 4 }), entry }).map((one) =>
    one.there < 2 ? one.entry : null,
  );
  const row = array(place, { minLength: columns, maxLength: columns });
  return array(row, { minLength: rows, maxLength: rows });
}

const sizes = integer({ min: 1, max: 9 });
const square = sizes.chain((n) => sparse(n, n));
const wide = sizes.chain((n) => sparse(n, n + 1));

const singularValues = (rows: Sparse) =>
  new SingularValueDecomposition(dense(rows), { autoTranspose: true }).diagonal;

/** Whether the rank can be told at all: no singular value between these shares of the largest one. */
function clearRank(rows: Sparse): number | null {
  const values = singularValues(rows);
  if (values.some((value) => value > 1e-13 * values[0] && value < 1e-4 * values[0])) return null;
  return values.filter((value) => value >= 1e-4 * values[0] && value > 0).length;
}

describe('rank', () => {
  it('is that of the singular values', () => {
    assert(
      property(square, wide, boolean(), (a, b, which) => {
        const rows = which ? a : b;
        const rank = clearRank(rows);
        if (rank === null) return;
        const e = eliminated(rows);
        expectSame(e.rank, rank);
        expect(e.pivotColumn.filter((c) => c >= 0)).toHaveLength(rank);
        expect(e.pivotRow.filter((r) => r >= 0)).toHaveLength(rank);
        for (const [i, c] of e.pivotColumn.entries()) if (c >= 0) expect(e.pivotRow[c]).toBe(i);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves out the rows that repeat what rows before them say', () => {
    const mix = array(entry, { minLength: 9, maxLength: 9 });
    assert(
      property(wide, mix, sizes, (rows, factors, place) => {
        if (clearRank(rows) !== rows.length) return;
        // A combination of the first rows, put after them.
        const after = Math.min(place, rows.length);
        const repeated = rows[0].map((_, c) =>
          rows.slice(0, after).reduce((sum, row, i) => sum + factors[i] * (row[c] ?? 0), 0),
        );
        const e = eliminated([...rows.slice(0, after), repeated, ...rows.slice(after)]);
        expect(e.rank).toBe(rows.length);
        expect([...e.pivotColumn].map((c) => c < 0)).toEqual(
          Array.from({ length: rows.length + 1 }, (_, i) => i === after),
        );
      }),
    );
  });

  it('is told by the share that is left of a row, whatever its scale', () => {
    for (const scale of [1e-200, 1e-9, 1, 1e9, 1e200]) {
      const row = (...values: number[]) => values.map((value) => value * scale);
      expect(eliminated([[1, 2, 3], row(2, 4, 6 + 60 * DEPENDENT_SHARE)]).rank).toBe(2);
      expect(eliminated([[1, 2, 3], row(2, 4, 6 + 0.1 * DEPENDENT_SHARE)]).rank).toBe(1);
    }
    expect(
      eliminated([
        [0, 0],
        [0, 1],
      ]).rank,
    ).toBe(1);
    expect(
      eliminated([
        [null, null],
        [0, 1],
      ]).rank,
    ).toBe(1);
  });

  it('does not count a row of roundings, told by the size that its entries have as a rule', () => {
    const rows: Sparse = [
      [1, 2, 3],
      [1e-17, -2e-17, null],
    ];
    expect(eliminated(rows).rank).toBe(2);
    expect(eliminated(rows, deepFreeze([1, 1])).rank).toBe(1);
    expect(eliminated(rows, deepFreeze([1, 1e-17])).rank).toBe(2);
  });
});

describe('a solution', () => {
  it('is that of the dense decomposition', () => {
    assert(
      property(square, array(entry, { minLength: 9, maxLength: 9 }), (rows, right) => {
        if (clearRank(rows) !== rows.length) return;
        const b = right.slice(0, rows.length);
        const x = solution(rows, eliminated(rows), b);
        const wanted = new LuDecomposition(dense(rows)).solve(Matrix.columnVector(b)).to1DArray();
        const values = singularValues(rows);
        const condition = values[0] / values[values.length - 1];
        wanted.forEach((value, c) => expectClose(x[c], value, { times: 8 * condition, scale: norm(wanted) }));
        times(rows, x).forEach((value, i) =>
          expectClose(value, b[i], { times: 256, scale: values[0] * norm(x) + norm(b) }),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('has zeros in free columns, and satisfies every independent row', () => {
    assert(
      property(wide, array(entry, { minLength: 9, maxLength: 9 }), (rows, right) => {
        if (clearRank(rows) === null) return;
        const e = eliminated(rows);
        // What dependent rows ask for is not looked at.
        const b = rows.map((_, i) => (e.pivotColumn[i] < 0 ? Number.NaN : right[i]));
        const x = solution(rows, e, b);
        for (const [c, r] of e.pivotRow.entries()) if (r < 0) expect(x[c]).toBe(0);
        const [largest] = singularValues(rows);
        times(rows, x).forEach((value, i) => {
          if (e.pivotColumn[i] >= 0) expectClose(value, b[i], { times: 64, scale: largest * norm(x) + 1 });
        });
      }),
      { numRuns: 300 },
    );
  });

  it('does not change its right-hand side', () => {
    const rows: Sparse = [
      [2, 1, null],
      [null, 1, 1],
    ];
    const b = new Float64Array([3, 4]);
    solve(eliminated(rows), b, new Float64Array(3));
    expect([...b]).toEqual([3, 4]);
  });
});

describe('a null vector', () => {
  it('is annulled by every row, one in its free column, and spans the null space of the dense decomposition', () => {
    assert(
      property(wide, (rows) => {
        if (clearRank(rows) !== rows.length) return;
        const e = eliminated(rows);
        const free = e.pivotRow.indexOf(-1);
        const x = new Float64Array(columnsOf(rows)).fill(7);
        nullVector(e, free, x);
        expect(x[free]).toBe(1);
        const values = singularValues(rows);
        for (const value of times(rows, x)) {
          expectClose(value, 0, { times: 64, scale: values[0] * norm(x) });
        }
        // The right singular vector of the row of zeros that makes it square.
        const padded = Matrix.zeros(columnsOf(rows), columnsOf(rows));
        padded.setSubMatrix(dense(rows), 0, 0);
        const right = new SingularValueDecomposition(padded).rightSingularVectors;
        const wanted = right.getColumn(columnsOf(rows) - 1);
        const along = wanted.reduce((sum, value, c) => sum + value * x[c], 0);
        expectWithin(Math.abs(along) / norm(x), 1, (64 * EPS * values[0]) / values[values.length - 1]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('the workspace', () => {
  it('is as good the second time, after any other values', () => {
    const pattern = deepFreeze({ columns: 3, start: [0, 2, 4, 6], column: [0, 1, 1, 2, 0, 2] });
    const e = elimination(pattern);
    const x = new Float64Array(3);
    eliminate(e, new Float64Array([1, 2, 3, 4, 5, 6]));
    solve(e, new Float64Array([1, 2, 3]), x);
    const first = [...x];
    // Rank two in between.
    eliminate(e, new Float64Array([1, 1, 1, -1, 1, 1]));
    expect(e.rank).toBe(2);
    eliminate(e, new Float64Array([1, 2, 3, 4, 5, 6]));
    expect(e.rank).toBe(3);
    solve(e, new Float64Array([1, 2, 3]), x);
    expect([...x]).toEqual(first);
  });

  it.each<[string, (i: number, c: number) => number | null]>([
    [
      'a full last row over a chain',
      (i, c) => (i === 59 || c === 0 ? 1 + ((i * c) % 7) : c === i ? 9 : null),
    ],
    // The first row pivots on the first column, and fills all that is below.
    [
      'an arrow',
      (i, c) => (i === 0 && c === 0 ? 20 : i === 0 || c === 0 ? Math.cos(i + c) : c === i ? 9 : null),
    ],
  ])('grows with the fill: %s', (_what, place) => {
    const n = 60;
    const rows = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, c) => place(i, c)));
    const b = Array.from({ length: n }, (_, i) => Math.sin(i));
    const x = solution(rows, eliminated(rows), b);
    times(rows, x).forEach((value, i) => expectClose(value, b[i], { times: 4096, scale: 9 * norm(x) + 1 }));
  });
});

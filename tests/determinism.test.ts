// Nothing in src is computed by what engines do not compute alike. On Node 20, 22 and 24 products, roots, sines and logarithms have the same
// bits; `**` and Math.pow differ in the last one for some arguments, never for the square (200,000 arguments of each function were compared).
// What follows from that is compared on the three versions by `npm run test:package`.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { anyPower, power } from '../src/numerics/power.ts';
import { expectClose } from './support/tolerance.ts';

const src = join(import.meta.dirname, '../src');

/** Where a source raises to anything but the literal 2. */
function powersIn(name: string, text: string): string[] {
  if (!/(?<![/*])\*\*(?![*/])|Math\.pow/.test(text)) return [];
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.ES2022, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const isPower =
      (ts.isBinaryExpression(node) &&
        (node.operatorToken.kind === ts.SyntaxKind.AsteriskAsteriskToken ||
          node.operatorToken.kind === ts.SyntaxKind.AsteriskAsteriskEqualsToken) &&
        node.right.getText() !== '2') ||
      (ts.isPropertyAccessExpression(node) && node.getText() === 'Math.pow');
    if (isPower)
      found.push(
        `${name}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${node.getText()}`,
      );
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

describe('powers', () => {
  it('are squares, or products, in all of src', () => {
    const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((path) =>
      path.endsWith('.ts'),
    );
    expect(files.length).toBeGreaterThan(100);
    expect(files.flatMap((path) => powersIn(path, readFileSync(join(src, path), 'utf8')))).toEqual([]);
  });

  it('of other kinds are found', () => {
    const planted = 'a ** 2; b ** 3; c ** n; d ** -2; e **= 3; Math.pow(f, 2); // g ** 5\n"**h**";';
    expect(powersIn('planted.ts', planted)).toEqual([
      'planted.ts:1: b ** 3',
      'planted.ts:1: c ** n',
      'planted.ts:1: d ** -2',
      'planted.ts:1: e **= 3',
      'planted.ts:1: Math.pow',
    ]);
  });

  it('agree with those of the engine', () => {
    const base = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(base, fc.integer({ min: -12, max: 12 }), fc.boolean(), (x, n, isNegative) => {
        const b = isNegative ? -x : x;
        // No more than 2 |n| products, each right to half a rounding.
        expectClose(power(b, n) / b ** n, 1, { times: 2 * Math.abs(n) + 2, scale: 1 });
      }),
    );
    fc.assert(
      fc.property(base, fc.double({ min: -3, max: 3, noNaN: true }), (x, n) => {
        // |n log x| is below 14, and so many roundings come of its own.
        expectClose(anyPower(x, n) / x ** n, 1, { times: 32, scale: 1 });
      }),
    );
  });

  it('of two and ten are exact', () => {
    for (let k = 0; k <= 22; k++) expect(power(10, k)).toBe(Number(`1e${k}`));
    for (const k of [-1000, -36, -1, 0, 1, 52, 1000]) expect(Math.log2(power(2, k))).toBe(k);
  });
});

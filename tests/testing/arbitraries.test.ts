/** Random linkages: all of them move, also those that a failing one shrinks through, and they shrink to round numbers. */
import * as fc from 'fast-check';
import { doubleWishbone, pushrod } from 'jounce';
import { type Drawing, type Measure, trace } from 'jounce/linkage';
import { doubleWishbones, fourBars, linkages, pushrods } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { few } from '../support/runs.ts';

/** A kind of linkage: how it is drawn by chance, what drives it, how far at least, and what all its numbers shrink to. */
interface Kind {
  readonly drawings: fc.Arbitrary<{ readonly numbers: unknown; readonly drawing: Drawing }>;
  readonly driver: Measure;
  readonly way: number;
  readonly round: number;
}

const plain = (drawings: fc.Arbitrary<Drawing>): Kind => ({
  drawings: drawings.map((drawing) => ({ numbers: drawing.points, drawing })),
  driver: { turn: 'crank' },
  way: 1e-6,
  round: 10,
});
const corner = <In>(inputs: fc.Arbitrary<In>, draw: (input: In) => Drawing): Kind => ({
  drawings: inputs.map((input) => ({ numbers: input, drawing: draw(input) })),
  driver: { y: 'contactPatch' },
  way: 1,
  round: 1,
});
const kinds: [name: string, kind: Kind][] = [
  ['linkages', plain(linkages(fc))],
  ['linkages with couplings', plain(linkages(fc, { maxPairs: 2, maxCouplings: 2 }))],
  ['four-bars', plain(fourBars(fc))],
  ['four-bars of which a bar turns round', plain(fourBars(fc, { grashof: true }))],
  ['four-bars of which none does', plain(fourBars(fc, { grashof: false }))],
  ['double wishbones', corner(doubleWishbones(fc), (input) => modelOf(doubleWishbone(input)).drawing)],
  ['corners with a rocker', corner(pushrods(fc), (input) => modelOf(pushrod(input)).drawing)],
];

/** Throws unless a drawing moves by so much to both sides. */
function expectMoves(drawing: Drawing, driver: Measure, way: number): void {
  const drawn = trace(drawing, { driver }).drawn;
  const { low, high } = trace(drawing, { driver, from: drawn - way, to: drawn + way });
  expect([low.status, high.status]).toEqual(['reached', 'reached']);
}

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe.each(kinds)('random %s', (_, { drawings, driver, way, round }) => {
  it('move', () => {
    fc.assert(fc.property(drawings, ({ drawing }) => expectMoves(drawing, driver, way)));
  });

  it('shrink to round numbers, through drawings that move', () => {
    const still: unknown[] = [];
    const found = fc.check(
      fc.property(drawings, ({ drawing }) => {
        try {
          expectMoves(drawing, driver, way);
        } catch (error) {
          still.push(error);
        }
        return false;
      }),
    );
    expect(still).toEqual([]);
    expect(found.numShrinks).toBeGreaterThan(3);
    const [{ numbers }] = found.counterexample as [{ numbers: unknown }];
    expect(numbersIn(numbers).filter((number) => number % round !== 0)).toEqual([]);
  });
});

// F. Grashof, Theoretische Maschinenlehre 2, 1883, from memory.
it('a bar of a random four-bar turns round if shortest and longest are shorter than the two others', () => {
  const turnsRound = (drawing: Drawing) => {
    const { low, high, read } = trace(drawing);
    const turned = ['crank', 'coupler', 'rocker'].map((turn) => {
      const of = read({ turn });
      return of(high.at).value - of(low.at).value;
    });
    // Beside the ground, which does not turn, two of them have turned apart.
    return Math.max(0, ...turned) - Math.min(0, ...turned) > Math.PI;
  };
  for (const grashof of [true, false]) {
    fc.assert(
      fc.property(fourBars(fc, { grashof }), (drawing) => turnsRound(drawing) === grashof),
      few(15),
    );
  }
});

it.each([linkages, fourBars, doubleWishbones, pushrods])('%o asks for fast-check', (arbitrary) => {
  for (const other of [undefined, null, {}, 3]) {
    expect(() => arbitrary(other as never)).toThrow(/^invalid arbitrary\n {2}fc: not fast-check/);
  }
});

// Four-bars that pass close by a change point, by gaps of 1e-2 down to 1e-14 of their size: the crank is the shortest bar, and shorter by the gap than
// where all bars could lie in line. So it turns all the way, and the motion keeps its assembly. Where rounding joins both assemblies it may end
// in a bifurcation and say so, but never be on the other one.
import * as fc from 'fast-check';
import { trace } from 'jounce/linkage';
import { type Assembly, fourBarAngles } from '../judges/four-bar.ts';

/** Gaps from this on are told from none. */
const RESOLVED = 1e-11;
/** Poses of a motion that are judged. */
const POSES = 48;
/** Roundings of a length, times the sum of the bars; and where rounding joins both assemblies. */
const LENGTH = 64;
const LENGTH_JOINED = 4096;

const drawn = fc.record({
  short: fc.integer({ min: 20, max: 90 }),
  one: fc.integer({ min: 5, max: 80 }),
  other: fc.integer({ min: 5, max: 80 }),
  order: fc.shuffledSubarray([0, 1, 2], { minLength: 3 }),
  exponent: fc.double({ min: 2, max: 14, noNaN: true }),
  turn: fc.double({ min: 0.3, max: 2.8, noNaN: true }),
  assembly: fc.constantFrom<Assembly[]>('open', 'crossed'),
});

/** Four-bars of a seed. */
export function* gaps(seed: number, cases: number): Generator<() => string | null> {
  for (const given of fc.sample(drawn, { seed, numRuns: cases })) {
    yield () => {
      const fault = faultOf(given);
      return fault === null ? null : `${fault}: ${JSON.stringify(given)}`;
    };
  }
}

type Given = typeof drawn extends fc.Arbitrary<infer T> ? T : never;

function faultOf({ short, one, other, order, exponent, turn, assembly }: Given): string | null {
  const gap = 10 ** -exponent;
  const rest = [short + one, short + other, short + one + other];
  const [coupler, rocker, ground] = order.map((k) => rest[k]);
  const size = short + coupler + rocker + ground;
  const crank = short - gap * size;
  const angles = fourBarAngles({ crank, coupler, rocker, ground }, turn, assembly);
  if (angles === null) return 'does not close';
  const A = [crank * Math.cos(turn), crank * Math.sin(turn)] as const;
  const B = [A[0] + coupler * Math.cos(angles.coupler), A[1] + coupler * Math.sin(angles.coupler)] as const;
  const motion = trace(
    {
      points: { O: [0, 0], A, B, D: [ground, 0] },
      ground: ['O', 'D'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['D', 'B'] },
    },
    { driver: { turn: 'crank' }, from: -6, to: 6 },
  );
  for (const [side, { status }] of Object.entries({ low: motion.low, high: motion.high })) {
    if (status === 'reached' || (status === 'bifurcation' && gap < RESOLVED)) continue;
    return `${side} ends as ${status} at a gap of ${gap}`;
  }
  const sideOf = (at: number) => {
    const { A, B, D } = motion.at(at);
    const lengths = [
      Math.hypot(B[0] - A[0], B[1] - A[1]) - coupler,
      Math.hypot(B[0] - D[0], B[1] - D[1]) - rocker,
    ];
    const off = Math.max(...lengths.map(Math.abs));
    const times = gap < RESOLVED ? LENGTH_JOINED : LENGTH;
    if (!(off <= times * Number.EPSILON * size)) throw new Error(`lengths off by ${off} at ${at}`);
    return (D[0] - A[0]) * (B[1] - A[1]) - (D[1] - A[1]) * (B[0] - A[0]);
  };
  const own = Math.sign(sideOf(0));
  const { low, high } = motion;
  try {
    for (let k = 0; k <= POSES; k++) {
      const at = low.at + (k / POSES) * (high.at - low.at);
      const side = sideOf(at);
      // Where the bars are in line but for the gap the side is of rounding.
      if (Math.sign(side) !== own && Math.abs(side) > 1e-6 * size * size)
        return `on the other assembly at ${at}`;
    }
  } catch (error) {
    return (error as Error).message;
  }
  return null;
}

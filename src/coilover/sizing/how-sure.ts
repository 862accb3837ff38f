// How sure the figures are. To first order a figure F of independent inputs with half-widths w_i (95 %) has the half-width
//
//   w = sqrt(sum_i (dF/dx_i w_i)^2),
//
// (JCGM 100:2008, sec. 5.1.2; from memory), the derivatives by central differences a share of w_i to either side. What is settled stays:
// spring, damper and perch as they were chosen.

/** An input that is known to plus or minus, and the figures with it off by some shares of its half-width. */
export interface Doubt {
  /** Where it stands in the document. */
  readonly input: string;
  /** All figures with this input so many half-widths off. */
  figures(share: number): Readonly<Record<string, number | null>>;
}

/** A value and how sure it is. */
export interface Sure {
  /** In the figure's unit; null where there is none. */
  readonly value: number | null;
  /** Lower end of the 95 % interval; null where an input takes the figure away altogether. */
  readonly low: number | null;
  /** Its upper end; null as above. */
  readonly high: number | null;
  /** What makes it unsure, by its share in the square of the half-width, most first. */
  readonly by: readonly { readonly input: string; readonly share: number }[];
}

/** How far inputs are moved for a derivative, in their half-widths. */
const STEP = 0.25;
/** Share of a value that the rounding of two evaluations can make. */
const ROUNDING = 1e-10;
/** Shares that are not worth a word. */
const LEAST_SHARE = 0.01;

/** Every figure with its interval. */
export function howSure(
  nominal: Readonly<Record<string, number | null>>,
  doubts: readonly Doubt[],
): Readonly<Record<string, Sure>> {
  const moved = doubts.map(({ input, figures }) => ({ input, up: figures(STEP), down: figures(-STEP) }));
  return Object.fromEntries(
    Object.entries(nominal).map(([name, value]): [string, Sure] => {
      if (value === null) return [name, { value, low: null, high: null, by: [] }];
      let square = 0;
      let lost = false;
      const parts = moved.flatMap(({ input, up, down }) => {
        const [high, low] = [up[name], down[name]];
        if (high === null || low === null) {
          lost = true;
          return [];
        }
        const part = ((high - low) / (2 * STEP)) ** 2;
        square += part;
        return [{ input, part }];
      });
      if (lost) return [name, { value, low: null, high: null, by: [] }];
      // What rounding alone makes of inputs that do not matter is no doubt.
      const width = Math.sqrt(square) < ROUNDING * Math.max(1, Math.abs(value)) ? 0 : Math.sqrt(square);
      const by = parts
        .map(({ input, part }) => ({ input, share: width === 0 ? 0 : part / square }))
        .filter(({ share }) => share >= LEAST_SHARE)
        .sort((a, b) => b.share - a.share);
      return [name, { value, low: value - width, high: value + width, by }];
    }),
  );
}

/**
 * Many small typed arrays out of few buffers: to make one costs a tenth of what a buffer of its own would, which
 * otherwise is most of the cost of building a small system.
 */
export interface Arena {
  /** A new array of zeros. */
  floats(length: number): Float64Array;
  ints(length: number): Int32Array;
}

const BYTES_OF_FLOAT = 8;
const BYTES_OF_INT = 4;
const BUFFER_BYTES = 8192;

/** An arena that adds a buffer whenever the last one is used up. */
export function arena(): Arena {
  let buffer = new ArrayBuffer(BUFFER_BYTES);
  let used = 0;
  const take = (bytes: number): number => {
    if (used + bytes > buffer.byteLength) {
      buffer = new ArrayBuffer(Math.max(bytes, BUFFER_BYTES));
      used = 0;
    }
    const at = used;
    used += Math.ceil(bytes / BYTES_OF_FLOAT) * BYTES_OF_FLOAT;
    return at;
  };
  return {
    floats: (length) => {
      const at = take(length * BYTES_OF_FLOAT);
      return new Float64Array(buffer, at, length);
    },
    ints: (length) => {
      const at = take(length * BYTES_OF_INT);
      return new Int32Array(buffer, at, length);
    },
  };
}

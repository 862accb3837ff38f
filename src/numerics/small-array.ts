// Small arrays that are kept by the library alone, as parts of larger buffers: an array with a buffer of its own takes several times
// as long to make, and to collect. One that is kept holds its buffer, 16 kB.

const LARGEST = 256;
const BUFFER = 2048;

let buffer = new ArrayBuffer(0);
let used = 0;

/** An array of so many zeros; not to be given away, for it shares its buffer. */
export function smallArray(length: number): Float64Array {
  if (length > LARGEST) return new Float64Array(length);
  const { BYTES_PER_ELEMENT: width } = Float64Array;
  if (used + length * width > buffer.byteLength) {
    buffer = new ArrayBuffer(BUFFER * width);
    used = 0;
  }
  const array = new Float64Array(buffer, used, length);
  used += length * width;
  return array;
}

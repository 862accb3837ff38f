// Small arrays that are kept by the library alone, as parts of larger ones: an array with a buffer of its own takes several times as long
// to make, and to collect. One that is kept holds all of its buffer, 16 kB.

const LARGEST = 256;
const ROOM = 2048;

let room = new Float64Array(0);
let used = 0;

/** An array of so many zeros; not to be given away, for it shares its buffer. */
export function smallArray(length: number): Float64Array {
  if (length > LARGEST) return new Float64Array(length);
  if (used + length > room.length) {
    room = new Float64Array(ROOM);
    used = 0;
  }
  used += length;
  return room.subarray(used - length, used);
}

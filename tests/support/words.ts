// Words that the project has given up for the trade's: they must not come back in what a reader sees.

/** Units as they must not be printed; in a sentence an angle may be in degrees. */
const UNITS = /\d inch(?:es)?\b|\d degrees\b|N s\/m|lbf s\/in|lbf\/in\^2/gi;

const GIVEN_UP = new RegExp(
  [
    // Coilover, damper, mounts.
    /\bleverage\b|unit at hand|ordered unit|moving eye|seat nut|eyes to seats|between the (?:middles|eyes)\b/,
    /what is not stroke|must tilt|maxTilt|lean of the stud|minimum working length|coil[- ]bind|greatest force|force term/,
    // Damping.
    /below the knee|less steep|force over speed/,
    // Required, available, margin.
    /\bwanted\b|\bneeded\b|\basked\b|\bspare\b|\bbe had\b/,
    // Intervals, assumptions, conflicts.
    /how sure|\bdoubt|unfavourable|taken for granted|what does not fit|look at again/,
    // Limits and linkages.
    /\btouched\b|pressed in|\bhanging\b|roll angle per g|\bfreedoms\b|kept angle|slides on and on/,
    // Manner.
    /reckoned|foretold|as can be|\bnought\b|\bis told\b|faults planted/,
  ]
    .map(({ source }) => source)
    .join('|'),
  'gi',
);

/** Those in a printed text, each with what stands around it. */
export function givenUp(text: string): string[] {
  return [...givenUpInProse(text), ...found(text, UNITS)];
}

/** The same in a guide or a description. */
export function givenUpInProse(text: string): string[] {
  return found(text, GIVEN_UP);
}

function found(text: string, words: RegExp): string[] {
  return [...text.matchAll(words)].map(({ index, 0: word }) =>
    text.slice(Math.max(0, index - 30), index + word.length + 20),
  );
}

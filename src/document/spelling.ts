/** The name among `names` that a misspelt one was meant for; undefined where none is near. */
export function meantName(written: string, names: readonly string[]): string | undefined {
  // Long texts are no names, and would take long to compare.
  if (written.length > 40) return undefined;
  const plain = plainOf(written);
  let nearest: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const name of names) {
    const other = plainOf(name);
    const off = shareMost(plain, other) ? 1 : slips(plain, other);
    if (off <= Math.max(1, Math.floor(other.length / 3)) && off < least) {
      nearest = name;
      least = off;
    }
  }
  return nearest;
}

/** Without what writers vary: capitals, spaces, hyphens, underscores. */
function plainOf(name: string): string {
  return name.toLowerCase().replaceAll(/[\s_-]/g, '');
}

/** `lower` for `lowerArm`, `lowerArms` for `lowerArm`, `radius` for `overallRadius`. */
function shareMost(a: string, b: string): boolean {
  return Math.min(a.length, b.length) >= 4 && (a.startsWith(b) || b.startsWith(a) || b.endsWith(a));
}

/** Slips of the pen between two words: a letter too many, missing, another, or two exchanged (Damerau 1964). */
function slips(a: string, b: string): number {
  const row = (i: number) => Array.from({ length: b.length + 1 }, (_, j) => (i === 0 ? j : 0));
  let [before, last] = [row(1), row(0)];
  for (let i = 1; i <= a.length; i++) {
    const next = row(1);
    next[0] = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      next[j] = Math.min(last[j] + 1, next[j - 1] + 1, last[j - 1] + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        next[j] = Math.min(next[j], before[j - 2] + 1);
      }
    }
    [before, last] = [last, next];
  }
  return last[b.length];
}

/** The name among `names` that a misspelt one was meant for; undefined where none is near. */
export function meantName(written: string, names: readonly string[]): string | undefined {
  // Long texts are no names, and would take long to compare.
  if (written.length > 40) return undefined;
  const plain = plainOf(written);
  const others = plainOnes(names);
  let nearest: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < names.length; k++) {
    const other = others[k];
    const most = Math.min(Math.max(1, Math.floor(other.length / 3)), least - 1);
    if (most < 0) break;
    // Each letter more or less is a slip.
    const isFar = Math.abs(plain.length - other.length) > most;
    const off = shareMost(plain, other) ? 1 : isFar ? Number.POSITIVE_INFINITY : slips(plain, other);
    if (off <= most) {
      nearest = names[k];
      least = off;
    }
  }
  return nearest;
}

const plainLists = new WeakMap<readonly string[], readonly string[]>();

/** Names in their plain form, made once for a list. */
function plainOnes(names: readonly string[]): readonly string[] {
  let plain = plainLists.get(names);
  if (plain === undefined) {
    plain = names.map(plainOf);
    plainLists.set(names, plain);
  }
  return plain;
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
  const row = () => new Array<number>(b.length + 1).fill(0);
  let [before, last, next] = [row(), row(), row()];
  for (let j = 0; j <= b.length; j++) last[j] = j;
  for (let i = 1; i <= a.length; i++) {
    next[0] = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      next[j] = Math.min(last[j] + 1, next[j - 1] + 1, last[j - 1] + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        next[j] = Math.min(next[j], before[j - 2] + 1);
      }
    }
    [before, last, next] = [last, next, before];
  }
  return last[b.length];
}

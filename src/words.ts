/** A name of the code as words: `lowerOuter` as `lower outer`. */
export function spaced(name: string): string {
  return name.replace(
    /([a-z\d])([A-Z])/g,
    (_, before: string, capital: string) => `${before} ${capital.toLowerCase()}`,
  );
}

/** Ends of a rod, which are called by what they join. */
const ROD_ENDS: Readonly<Record<string, string>> = {
  rodMount: 'ball joint of the rod at the suspension',
  rodRockerMount: 'ball joint of the rod at the rocker',
};

/** A ball joint by its point: `lower outer ball joint`. */
export function ballJointName(point: string): string {
  return ROD_ENDS[point] ?? `${spaced(point)} ball joint`;
}

/** With a capital in front. */
export function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** With a small letter in front. */
export function uncapital(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

/** With a full stop, unless a sentence ends there already. */
export function ended(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

/** A number rounded to so many decimals, without noughts at the end or a minus before nothing. */
export function figure(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

/** A unit as a sentence has it. */
export function inWords(unit: string): string {
  return { in: 'inches', deg: 'degrees' }[unit] ?? unit;
}

/** To a tenth, or four digits of what is small; or to so many digits. */
export function short(value: number, digits?: number): string {
  if (digits !== undefined) return String(Number(value.toPrecision(digits)));
  return String(Math.abs(value) >= 1000 ? Number(value.toFixed(1)) : Number(value.toPrecision(4)));
}

/** A count with its noun: `1 row`, `2 rows`. */
export function counted(count: number | string, noun: string): string {
  return `${count} ${noun}${Number(count) === 1 ? '' : 's'}`;
}

/** A measure of a linkage: `turn of rocker`, `length A-B relative to arm`. */
export function measureName(measure: object): string {
  const of = new Map<string, unknown>(Object.entries(measure));
  const kind = ['x', 'y', 'turn', 'length', 'angle'].find((one) => of.has(one)) ?? '';
  const named = of.get(kind);
  const name = Array.isArray(named) ? `${kind} ${named.join('-')}` : `${kind} of ${named}`;
  const frame = of.get('relativeTo');
  return frame === undefined ? name : `${name} relative to ${frame}`;
}

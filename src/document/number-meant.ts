/** The numbers that a text in place of one may stand for, none where it names another unit; `unit` is what it should be in. */
export function numbersMeant(text: string, unit: string | undefined): number[] {
  const [, body, named] =
    /^\s*(.*?)\s*(mm|cm|m|inch(?:es)?|in|["”″]|''|kg|lbs?|deg(?:rees?)?|°)?\.?\s*$/is.exec(
      text.slice(0, 60),
    ) ?? ['', '', ''];
  if (named !== undefined && unit !== undefined && unitMeant(named) !== unit) return [];
  return valuesOf(body.replace(/^[−–]/, '-'));
}

function unitMeant(named: string): string {
  const text = named.toLowerCase();
  if (['in', '"', '”', '″', "''"].includes(text) || text.startsWith('inch')) return 'in';
  if (text.startsWith('lb')) return 'lb';
  return text === '°' || text.startsWith('deg') ? 'deg' : text;
}

/** The numbers that a text may stand for: two for `1,250`. */
function valuesOf(text: string): number[] {
  const fraction = /^(-?)(?:(\d+)[ -])?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (fraction !== null) {
    const [, sign, whole = '0', above, below] = fraction;
    const value = Number(whole) + Number(above) / Number(below);
    return finite([sign === '-' ? -value : value]);
  }
  if (/^[-+]?\d+,\d+$/.test(text)) {
    const decimal = Number(text.replace(',', '.'));
    return finite(/,\d{3}$/.test(text) ? [decimal, Number(text.replace(',', ''))] : [decimal]);
  }
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(text) ? finite([Number(text)]) : [];
}

function finite(values: number[]): number[] {
  return values.every(Number.isFinite) ? values : [];
}

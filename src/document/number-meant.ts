import { inWords } from '../words.ts';

/** What to do about a number that was written as a text; `unit` is what it should be in. */
export function adviceForText(text: string, unit: string | undefined): string {
  const bareNumber =
    unit === undefined ? 'write the bare number' : `write the bare number, in ${inWords(unit)}`;
  const [, body, named] =
    /^\s*(.*?)\s*(mm|cm|m|inch(?:es)?|in|["”″]|''|kg|lbs?|deg(?:rees?)?|°)?\.?\s*$/is.exec(
      text.slice(0, 60),
    ) ?? ['', '', ''];
  if (named !== undefined && unit !== undefined && unitMeant(named) !== unit)
    return `${bareNumber}, without quotes`;
  const values = valuesOf(body.replace(/^[−–]/, '-'));
  return values.length === 0
    ? `${bareNumber}, without quotes`
    : `write ${values.join(' or ')}, without quotes`;
}

function unitMeant(named: string): string {
  const text = named.toLowerCase();
  if (['in', '"', '”', '″', "''"].includes(text) || text.startsWith('inch')) return 'inch';
  if (text.startsWith('lb')) return 'lb';
  return text === '°' || text.startsWith('deg') ? 'degrees' : text;
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

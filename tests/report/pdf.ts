// Pages of a PDF as Chromium writes it: their sizes, and each piece of text with its place and size, in points.
//
// A place (x, y) is mapped by the text matrix, then by the current transformation matrix (ISO 32000-1, 8.3.4 and 9.4.4):
// size on paper = font size * sqrt(|det(T M)|).
import { inflateSync } from 'node:zlib';

export interface PdfText {
  readonly size: number;
  /** Its font by name, as `LiberationSans-Bold`. */
  readonly font: string;
  readonly x: number;
  /** From the lower edge. */
  readonly y: number;
}

export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly PdfText[];
}

type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];
const UNIT: Matrix = [1, 0, 0, 1, 0, 0];

/** First m, then n. */
function then(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[1] * n[2],
    m[0] * n[1] + m[1] * n[3],
    m[2] * n[0] + m[3] * n[2],
    m[2] * n[1] + m[3] * n[3],
    m[4] * n[0] + m[5] * n[2] + n[4],
    m[4] * n[1] + m[5] * n[3] + n[5],
  ];
}

export function readPdf(bytes: Uint8Array): PdfPage[] {
  const file = Buffer.from(bytes).toString('latin1');
  const objects = new Map(
    [...file.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map(([, id, body]) => [id, body]),
  );
  return [...objects.values()]
    .filter((body) => /\/Type \/Page\b(?!s)/.test(body))
    .map((page) => {
      const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page) ?? [];
      const body = objects.get(/\/Contents (\d+) 0 R/.exec(page)?.[1] ?? '');
      if (width === undefined || body === undefined) throw new Error(`page ${page.slice(0, 200)}`);
      const named = [...page.matchAll(/\/(F\d+) (\d+) 0 R/g)];
      const fonts = new Map(named.map(([, name, id]) => [name, fontName(id, objects)]));
      return { width: Number(width), height: Number(height), texts: textsOf(inflated(body), fonts) };
    });
}

/** Name of a font without the letters of its subset; one that is drawn (Type 3) has it in its descriptor. */
function fontName(id: string, objects: ReadonlyMap<string, string>): string {
  const font = objects.get(id) ?? '';
  const described = objects.get(/\/FontDescriptor (\d+) 0 R/.exec(font)?.[1] ?? '') ?? '';
  const [, name] = /\/(?:BaseFont|FontName) \/(?:[A-Z]{6}\+)?(\S+)/.exec(`${font}\n${described}`) ?? [];
  if (name === undefined) throw new Error(`font ${font.slice(0, 200)} ${described}`);
  return name;
}

function inflated(body: string): string {
  const start = body.indexOf('stream\n') + 'stream\n'.length;
  const data = Buffer.from(body.slice(start, body.lastIndexOf('\nendstream')), 'latin1');
  return (/\/FlateDecode/.test(body) ? inflateSync(data) : data).toString('latin1');
}

function textsOf(content: string, fonts: ReadonlyMap<string, string>): PdfText[] {
  const texts: PdfText[] = [];
  const saved: Matrix[] = [];
  let [page, line]: [Matrix, Matrix] = [UNIT, UNIT];
  let [size, font] = [0, ''];
  let operands: string[] = [];
  const matrix = () => operands.slice(-6).map(Number) as unknown as Matrix;
  for (const [token] of content.matchAll(/<[\dA-Fa-f\s]*>|\((?:\\.|[^\\)])*\)|<<|>>|[[\]]|[^\s<>()[\]]+/g)) {
    if (!/^[A-Za-z'"]+\*?$/.test(token)) {
      operands.push(token);
      continue;
    }
    switch (token) {
      case 'q':
        saved.push(page);
        break;
      case 'Q':
        page = saved.pop() ?? UNIT;
        break;
      case 'cm':
        page = then(matrix(), page);
        break;
      case 'BT':
        line = UNIT;
        break;
      case 'Tf':
        size = Number(operands.at(-1));
        font = fonts.get(String(operands.at(-2)).slice(1)) ?? '';
        break;
      case 'Tm':
        line = matrix();
        break;
      case 'Td':
        line = then([1, 0, 0, 1, Number(operands.at(-2)), Number(operands.at(-1))], line);
        break;
      case 'Tj':
      case 'TJ': {
        const [a, b, c, d, x, y] = then(line, page);
        texts.push({ size: size * Math.sqrt(Math.abs(a * d - b * c)), font, x, y });
        break;
      }
      case 'Do':
        throw new Error('a page with a form of its own: its text is not read');
    }
    operands = [];
  }
  return texts;
}

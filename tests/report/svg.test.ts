import { describe, expect, it } from 'vitest';
import { element, rounded, stacked, svgDocument, text, through } from '../../src/report/svg.ts';
import { parseXml } from './xml.ts';

const picture = (title: string, ...content: ReturnType<typeof element>[]) => ({
  width: 100,
  height: 50,
  title,
  content,
});

describe('the SVG writer', () => {
  it('escapes what is markup, and replaces what XML does not know', () => {
    const nasty = '</text><script>"a" & \'b\'</script>\u0000\u001b\ud800 \u{1f527}';
    const svg = svgDocument(picture(nasty, text(nasty, [1, 2], { id: '"<&>' })));
    expect(svg).not.toContain('<script');
    const [title, , written] = parseXml(svg).children;
    const clean = '</text><script>"a" & \'b\'</script>\uFFFD\uFFFD\uFFFD \u{1f527}';
    expect(title).toMatchObject({ name: 'title', children: [clean] });
    expect(written).toMatchObject({ attributes: { id: '"<&>' }, children: [clean] });
  });

  it('rounds numbers to hundredths, without exponents or a minus before zero', () => {
    const svg = svgDocument(picture('', element('line', { x1: 1 / 3, x2: -1e-9, y1: 1e-7, y2: 12345.678 })));
    expect(svg).toContain('<line x1="0.33" x2="0" y1="0" y2="12345.68"/>');
    expect(
      through(
        [
          [0, 1.005],
          [2.999, -0.001],
        ],
        true,
      ),
    ).toMatch(/^M0 1(\.01)?L3 0Z$/);
  });

  it('rounds corners, half a side at most', () => {
    const square = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ] as const;
    expect(rounded(square, 2)).toBe('M0 2Q0 0 2 0L8 0Q10 0 10 2L10 8Q10 10 8 10L2 10Q0 10 0 8Z');
    expect(rounded(square, 99)).toContain('M0 5Q0 0 5 0');
  });

  it('puts pictures under each other', () => {
    const both = stacked('both', [picture('a', text('a', [1, 9], {})), picture('b', text('b', [1, 9], {}))]);
    expect(both).toMatchObject({ width: 100, height: 100, title: 'both' });
    expect(both.content.map(({ attributes }) => attributes.transform)).toEqual([
      'translate(0 0)',
      'translate(0 50)',
    ]);
  });
});

describe('the XML reader of these tests', () => {
  const declared = (body: string) => `<?xml version="1.0" encoding="UTF-8"?>\n${body}`;

  it('reads a tree', () => {
    expect(parseXml(declared('<a b="1 &lt; 2"><c/>x &amp; y</a>'))).toEqual({
      name: 'a',
      attributes: { b: '1 < 2' },
      children: [{ name: 'c', attributes: {}, children: [] }, 'x & y'],
    });
  });

  it.each([
    '<a></b>',
    '<a><b></a></b>',
    '<a>',
    '<a/><b/>',
    '<a b="1" b="2"/>',
    '<a b=1/>',
    '<a>&</a>',
    '<a>&nbsp;</a>',
    '<a b="<"/>',
    '<a>></a>',
    '<a>\u0001</a>',
    'words',
  ])('refuses %s', (body) => {
    expect(() => parseXml(declared(body))).toThrow();
  });
});

/** Texts that are not JSON: where, what stands there, and what to do. */
import { describe, expect, it } from 'vitest';
import { readCar } from '../../src/corner/read-corner.ts';
import { expectSame } from '../support/tolerance.ts';
import { errorOf, lines, roadsterText } from './support.ts';

const text = roadsterText();
const messageOf = (written: string) => errorOf(() => readCar(written)).message;

/** The example's text with its first `part` written otherwise. */
function spoilt(part: string, otherwise: string): string {
  expect(text).toContain(part);
  return text.replace(part, () => otherwise);
}

describe('a text that is not JSON', () => {
  it.each<[what: string, part: string, otherwise: string, told: string]>([
    [
      'a comma missing at the end of a line',
      '[22.75, 14] },',
      '[22.75, 14] }',
      'line 16, column 7: a comma is missing before this, got `"wheel": { "centre": [26.87...`; put one after what ends on line 15',
    ],
    [
      'a comma too many',
      '"camber": -0.75 },',
      '"camber": -0.75, },',
      'line 16, column 61: a comma too many, got `, },` (allowed: a comma only between two values); nothing follows it before }: take it out, or write what is missing',
    ],
    [
      'a comment',
      '"lowerArm":',
      '// by tape\n"lowerArm":',
      'line 14, column 7: a comment, which JSON does not allow, got `// by tape`; put it into "notes": "..." or take it out',
    ],
    [
      'a fraction',
      '[9.25, 5.75]',
      '[9 1/4, 5 3/4]',
      'line 14, column 33: what follows the number does not belong to it, got `1/4, 5 3/4], "outer": [24.5...`; write 9.25; "units" says once what all of them are in',
    ],
    [
      'a mark for inches',
      '[9.25, 5.75]',
      '[9.25", 5.75"]',
      'line 14, column 35: what follows the number does not belong to it, got `", 5.75"], "outer": [24.5, ...`; write 9.25; "units" says once what all of them are in',
    ],
    [
      'a name without quotes',
      '"lowerArm"',
      'lowerArm',
      'line 14, column 7: a name without quotes, got `lowerArm: { "inner": [9.25,...`; write "lowerArm"',
    ],
    [
      'typographic quotes',
      '"lowerArm"',
      '“lowerArm”',
      'line 14, column 7: a name in double quotes is missing here, got `“lowerArm”: { "inner": [9.2...`; write straight double quotes: "',
    ],
    [
      'a text without quotes',
      '"imperial"',
      'imperial',
      'line 3, column 12: a text without quotes, got `imperial,`; write "imperial"',
    ],
    [
      'a text that is not closed',
      'roadster"',
      'roadster',
      'line 4, column 11: a text that is not closed on its line, got `"One-off light roadster,`; end it with "',
    ],
    [
      'a number without its zero',
      '5.75]',
      '.75]',
      'line 14, column 37: not a number as JSON writes it, got `.75], "outer": [24.5, 5.375...`; write 0.75',
    ],
    [
      'NaN',
      '5.75]',
      'NaN]',
      'line 14, column 37: not a number as JSON writes it, got `NaN], "outer": [24.5, 5.375...`; write the number, or leave the whole entry out',
    ],
    [
      'no value',
      '[9.25, 5.75],',
      ',',
      'line 14, column 30: a value is missing here, got `, "outer": [24.5, 5.375] },`; write one, or take the whole entry out',
    ],
    [
      'no colon',
      '"units":',
      '"units"=',
      'line 3, column 10: a colon is missing after "units", got `= "imperial",`; write "units": and then its value',
    ],
    [
      'another bracket',
      '[9.25, 5.75]',
      '[9.25, 5.75}',
      'line 14, column 41: "[" of line 14, column 30 is closed by another bracket, got `}, "outer": [24.5, 5.375] },`; close it with ] first',
    ],
    [
      'a name twice',
      '"sprungMass": 330',
      '"sprungMass": 330, "sprungMass": 340',
      'corners.front.sprungMass: written twice, again at line 18, column 26; take one out: only the last would count',
    ],
    [
      'a lone backslash',
      'One-off',
      'C:\\cars',
      'line 4, column 14: a backslash in a text, got `\\cars light roadster",`; write it twice: \\\\',
    ],
  ])('for %s', (_, part, otherwise, told) => {
    expect(messageOf(spoilt(part, otherwise))).toBe(lines('invalid car file', `  ${told}`));
  });

  it('for its end, its start, or its size', () => {
    expect(messageOf(text.slice(0, text.indexOf('"upperArm"')))).toMatch(
      /line 15, column 7: the text ends before "{" of line 12, column 14 is closed, got the end of the text; close it with }$/,
    );
    expect(messageOf(' \n')).toMatch(/line 2, column 1: nothing in it, got the end of the text; start from/);
    expect(messageOf(`${text}}`)).toMatch(/column 1: more text after the end, got `}`; take it out/);
    expect(messageOf('[1, '.repeat(100_000))).toMatch(/brackets nested too deeply/);
    expect(messageOf('car.json')).toMatch(
      /line 1, column 1: the name of a file, not what is in it, got `car\.json`; read the file, and give its text$/,
    );
  });

  it('is told of each comma left out, in the line where it should stand', () => {
    let inText = false;
    [...text].forEach((sign, at) => {
      if (sign === '"' && text[at - 1] !== '\\') inText = !inText;
      if (sign !== ',' || inText) return;
      const line = text.slice(0, at).split('\n').length;
      const told = messageOf(text.slice(0, at) + text.slice(at + 1));
      expect(told).toMatch(new RegExp(`on line ${line}$|^  line ${line}, column`, 'm'));
    });
  });

  it('refused by JSON.parse is refused with a place, whichever sign is left out', () => {
    for (let at = 0; at < text.length; at += 3) {
      const written = text.slice(0, at) + text.slice(at + 1);
      let whole = true;
      try {
        JSON.parse(written);
      } catch {
        whole = false;
      }
      if (whole) continue;
      const { issues } = errorOf(() => readCar(written));
      expectSame(
        issues.map(({ path }) => /^line \d+, column \d+$/.test(path)),
        [true],
      );
    }
  });
});

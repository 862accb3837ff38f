/**
 * The tutorials of the command, gone through as their reader does: files are copied, edited and run as they say, in their
 * order, and each answer is that of the page. `...` stands for lines that the page leaves out.
 */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { called } from './called.ts';

const COPY = /Copy (?:it|\[?`(\S+?)`(?:\]\(\S+\))?) to `(\S+)`/;
const BLOCK = /((?:(?!```)[\s\S])*?)```(sh|txt|diff|json)\n([\s\S]*?)```/g;

/** Text with one piece of it replaced, which must be there. */
function replaced(text: string, edit: string): string {
  const lines = (sign: string) =>
    edit
      .split('\n')
      .filter((line) => line.startsWith(sign))
      .map((line) => line.slice(1))
      .join('\n');
  const [before, after] = [lines('-'), lines('+')];
  expect(text).toContain(before);
  return text.replace(before, after);
}

it.each(['first-corner', 'tape-to-order'])('docs/%s.md answers as it says', async (page) => {
  const folder = mkdtempSync(join(tmpdir(), 'jounce-tutorial-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const inFolder = (word: string) => (word.endsWith('.json') ? join(folder, word) : word);

  let example = '';
  let named = '';
  let answer = '';
  let answers = 0;
  for (const [, prose, kind, body] of readFileSync(`docs/${page}.md`, 'utf8').matchAll(BLOCK)) {
    for (const [, file] of prose.matchAll(/`(docs\/examples\/\S+\.json)`/g)) example = file;
    const [, from, to] = COPY.exec(prose) ?? [];
    if (to) {
      const source = from && !from.startsWith('docs/') ? join(folder, from) : (from ?? example);
      copyFileSync(source, join(folder, to));
    }
    for (const [, file] of prose.matchAll(/`([\w-]+\.json)`/g)) named = file;
    if (kind === 'json') {
      expect(JSON.parse(body)).toEqual(JSON.parse(readFileSync(example, 'utf8')));
    } else if (kind === 'diff') {
      const file = join(folder, named);
      writeFileSync(file, replaced(readFileSync(file, 'utf8'), body));
    } else if (kind === 'sh') {
      const [npx, jounce, ...words] = body.trim().split(' ');
      expect([npx, jounce]).toEqual(['npx', 'jounce']);
      const where = words[0] === 'order' ? ['--out', folder] : [];
      const { out, complaints } = await called(...words.map(inFolder), ...where);
      answer = `${complaints}\n${out}`.replaceAll(`${folder}/`, '');
    } else {
      let from = 0;
      for (const piece of body.split(/^\.\.\.\n/m)) {
        const found = answer.indexOf(piece.trimEnd(), from);
        expect(found, `${piece}\nin\n${answer}`).toBeGreaterThanOrEqual(0);
        from = found + piece.length;
      }
      answers += 1;
    }
  }
  expect(answers).toBeGreaterThan(2);
});

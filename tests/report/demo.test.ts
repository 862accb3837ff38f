// The demo as a reader runs it, on the source instead of the build.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { faults, readPaper } from './paper.ts';

const root = join(import.meta.dirname, '../..');
const { argv, exitCode } = process;
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'jounce-demo-'));
});

afterEach(() => {
  vi.restoreAllMocks();
  process.argv = argv;
  process.exitCode = exitCode;
  rmSync(folder, { recursive: true });
});

/** What the demo prints, and its exit code. */
async function run(...given: string[]) {
  const printed: string[] = [];
  const complaints: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((text) => void printed.push(text));
  vi.spyOn(console, 'error').mockImplementation((text) => void complaints.push(text));
  vi.resetModules();
  process.argv = ['node', 'demo.mjs', ...given];
  process.exitCode = 0;
  await import('../../docs/examples/demo.mjs');
  return { out: printed.join('\n'), complaints: complaints.join('\n'), code: process.exitCode };
}

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe('the demo', () => {
  it('prints and writes the example', async () => {
    const { out, complaints, code } = await run();
    expect([complaints, code]).toEqual(['', 0]);
    expect(out).toMatch(/droop {5}-70 .*\n/);
    expect(out).toMatch(/bump: {2}reached \+70 mm, as asked/);
    expect(out).toMatch(/bump: {2}dead point at \+\d+\.\d mm/);
    expect(out).toMatch(/droop: dead point at -\d+\.\d mm/);
    expect(out).toMatch(/for planning[\s\S]*licensed engineer or inspector/);
    for (const [, name] of out.matchAll(/out\/([\w.-]+)/g)) {
      expect(existsSync(join(root, 'out', name)), name).toBe(true);
    }
    expect(faults(readPaper(readFileSync(join(root, 'out/front-corner.svg'), 'utf8')))).toEqual([]);
    expect(readFileSync(join(root, 'out/front-corner.csv'), 'utf8').split('\r\n').length).toBe(143);
  });

  it('says what is wrong with a file of the reader, and nothing else', async () => {
    const example = JSON.parse(readFileSync(join(root, 'docs/examples/front-corner.json'), 'utf8'));
    const wrong = await run(file('wrong.json', JSON.stringify({ ...example, upperArm: { inner: [1, 2] } })));
    expect(wrong).toMatchObject({ out: '', code: 1 });
    expect(wrong.complaints).toMatch(/^invalid double wishbone\n {2}upperArm\.outer: missing[^\n]*$/);

    const garbled = await run(file('garbled.json', '{ "lowerArm": '));
    expect(garbled).toMatchObject({ out: '', code: 1 });
    expect(garbled.complaints).toMatch(/JSON/);

    const missing = await run(join(folder, 'nowhere.json'));
    expect(missing).toMatchObject({ out: '', code: 1 });
    expect(missing.complaints).toMatch(/nowhere\.json/);
  });
});

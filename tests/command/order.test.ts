// The command `order` as a reader runs it, on the source instead of the build.
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { faults, readPaper } from '../report/paper.ts';
import { givenUp } from '../support/words.ts';
import { called } from './called.ts';

const root = join(import.meta.dirname, '../..');
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'jounce-demo-'));
});

afterEach(() => {
  rmSync(folder, { recursive: true });
});

/** What the command `order` prints, and its exit code. */
const run = (car: string, out = folder) => called('order', car, '--out', out);

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe('order', () => {
  it('prints and writes the example', async () => {
    const { out, complaints, code } = await run(join(root, 'docs/examples/car.json'));
    expect([complaints, code]).toEqual(['', 0]);
    // One screen: target, chosen, margin, conflicts, and where the rest was written.
    expect(out.split('\n').length).toBeLessThanOrEqual(50);
    expect(Math.max(...out.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(100);
    expect(out).toMatch(/bump travel +\d\.\d\d in +\d\.\d\d in +\+\d\.\d\d/);
    expect(out).toContain('No conflicts.');
    expect(givenUp(out)).toEqual([]);
    const front = readFileSync(join(folder, 'car-front.txt'), 'utf8');
    expect(front).toContain('== Car front ==');
    expect(givenUp(front)).toEqual([]);
    expect(front).toMatch(/The damper is topped out at \d\.\d+ in of droop/);
    expect(front).toMatch(/The linkage is at a dead point at \d+\.\d+ in of droop/);
    // One error of the hand method for a corner, on its page and in the report.
    const [, error] = front.match(/chosen by the hand method is (\d+ %) too soft at ride height/) ?? [];
    const sheet = readFileSync(join(folder, 'car-report.md'), 'utf8');
    expect(sheet).toMatch(new RegExp(`The hand method, [^\\n]*: ${error} low\\.`));
    // The requirement of the sizing, on the screen and on the page of the corner.
    const [, required, available] = out.match(/bump travel +(\d\.\d\d) in +(\d\.\d\d) in/) ?? [];
    expect(front).toContain(`Bump travel: ${available} in available, ${required} in required;`);
    expect(out).toMatch(/for planning[\s\S]*licensed engineer or inspector/);
    const written = [...out.matchAll(/^ {2}(\S+\.\w+)$/gm)];
    expect(written.length).toBeGreaterThan(10);
    for (const [, name] of written) expect(existsSync(name), name).toBe(true);
    for (const axle of ['front', 'rear']) {
      expect(faults(readPaper(readFileSync(join(folder, `car-${axle}.svg`), 'utf8')))).toEqual([]);
      expect(readFileSync(join(folder, `car-${axle}.csv`), 'utf8').split('\r\n').length).toBeGreaterThan(100);
    }
  });

  it('tells a weighed car which spring to change and how far to turn each perch', async () => {
    const { out, complaints, code } = await run(join(root, 'docs/examples/car-weighed.json'));
    // A rear spring that must be changed is a conflict.
    expect([complaints, code]).toEqual(['', 3]);
    const [, part] = /After weighing\n([\s\S]*?)Written:/.exec(out) ?? [];
    expect(part).toMatch(/Change the rear spring to 200 lbf\/in/);
    expect(part).toMatch(/Turn the left front perch \d\.\d turns towards the spring \(raises the corner\)/);
    expect(part).toMatch(/turn the right rear perch \d\.\d turns away from the spring/);
    const sheet = readFileSync(join(folder, 'car-weighed-report.md'), 'utf8');
    expect(part).toMatch(/cross weight on the scales is 50\.5 %/);
    expect(sheet).toContain('## After weighing');
    expect(sheet).toContain('### Rear, ordered as revision A of 2026-08-03');
  });

  it('writes a draft anew, and never writes over a revision of an order', async () => {
    const [name, out] = ['revised', join(folder, 'out')];
    const example = JSON.parse(readFileSync(join(root, 'docs/examples/car.json'), 'utf8'));
    const runWith = (change: (car: typeof example) => void) => {
      const car = structuredClone(example);
      change(car);
      return run(file(`${name}.json`, JSON.stringify(car)), out);
    };
    const issued = { revision: 'A', date: '2026-08-03' };
    const first = `${name}-order-A-2026-08-03`;
    await runWith(() => {});
    const draft = await runWith((car) => (car.use = 'Track.'));
    expect(draft.code).toBe(0);
    expect(readFileSync(join(out, `${name}-order.md`), 'utf8')).toContain('Track.');

    const sent = await runWith((car) => (car.order = issued));
    expect([sent.complaints, sent.code]).toEqual(['', 0]);
    const text = readFileSync(join(out, `${first}.html`), 'utf8');
    expect(text).toContain('<dt>Revision</dt> <dd>A</dd>');
    expect((await runWith((car) => (car.order = issued))).code).toBe(0);

    const other = await runWith((car) => Object.assign(car, { order: issued, use: 'Track.' }));
    expect(other.code).toBe(1);
    expect(other.complaints).toContain('Revision A has been written before, and is not the same.');
    expect(other.complaints).toMatch(/found: {4}order\.revision = "A", with/);
    expect(other.complaints).toContain(`${first}.html`);
    const later = await runWith((car) => (car.order = { revision: 'A', date: '2026-09-01' }));
    expect(later.code).toBe(1);
    expect(readFileSync(join(out, `${first}.html`), 'utf8')).toBe(text);

    const raised = await runWith((car) =>
      Object.assign(car, { order: { revision: 'B', date: '2026-09-01' }, use: 'Track.' }),
    );
    expect(raised.code).toBe(0);
    expect(readdirSync(out)).toEqual(
      expect.arrayContaining([
        `${first}.html`,
        `${first}.json`,
        `${name}-report-A-2026-08-03.html`,
        `${name}-order-B-2026-09-01.html`,
        `${name}-report-B-2026-09-01.md`,
      ]),
    );
    expect(readFileSync(join(out, `${first}.html`), 'utf8')).toBe(text);
  });

  it('writes outputs under any name that a file may have', async () => {
    const example = readFileSync(join(root, 'docs/examples/car.json'), 'utf8');
    for (const name of ['a#b', 'a?b=c', '50%', 'a%20b', 'my car', '[1] {2}', 'ümlaut', "it's"]) {
      const target = join(folder, 'written', name);
      const { out, complaints, code } = await run(file(`${name}.json`, example), target);
      expect([name, complaints, code]).toEqual([name, '', 0]);
      const wanted = [
        '-order.html',
        '-order.json',
        '-order.md',
        '-front.csv',
        '-front.svg',
        '-front.txt',
        '-rear.csv',
        '-rear.svg',
        '-rear.txt',
        '-report.html',
        '-report.json',
        '-report.md',
      ];
      expect(readdirSync(target).sort()).toEqual(wanted.map((end) => `${name}${end}`).sort());
      for (const end of wanted) expect(out).toContain(join(target, `${name}${end}`));
    }
  });
});

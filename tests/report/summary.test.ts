/** A sizing on one screen: target, chosen, margin, conflicts. */
import { readFileSync } from 'node:fs';
import { issueLines, readCar, reportSheet, sheetMarkdown, sizeCoilovers, sizingSummary } from 'jounce';
import { describe, expect, it } from 'vitest';
import { car, sized } from '../coilover/cars.ts';
import { givenUp } from '../support/words.ts';

const roadster = sizeCoilovers(readCar(readFileSync('docs/examples/car.json', 'utf8')));

describe('the summary of a sizing', () => {
  it('fits one screen: 100 columns, 45 lines for two axles', () => {
    const lines = sizingSummary(roadster).split('\n');
    expect(lines.length).toBeLessThanOrEqual(45);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  it('gives target and chosen frequency and spring in the units of the file', () => {
    const text = sizingSummary(roadster);
    expect(text).toMatch(/frequency +1\.60 Hz +1\.\d\d Hz/);
    expect(text).toMatch(/spring rate +\d+ lbf\/in +\d+ lbf\/in/);
    expect(text).not.toMatch(/\d mm|\d kg|N\/mm/);
  });

  it('has rows that add up as printed', () => {
    const rows = sizingSummary(roadster).matchAll(/travel +(-?[\d.]+) in +(-?[\d.]+) in +([+-]?[\d.]+)/g);
    const found = [...rows].map((row) => row.slice(1).map(Number));
    expect(found.length).toBeGreaterThanOrEqual(4);
    for (const [required, available, margin] of found) {
      expect((available - required).toFixed(2)).toBe(margin.toFixed(2));
    }
  });

  it('counts the conflicts that do not stand against an order, and says that they are to resolve or accept', () => {
    const far = sized(({ corners }) => {
      for (const axle of ['front', 'rear']) {
        corners[axle].sizing.springs = [{ name: 'a', rate: 70, freeLength: 260, solidLength: 60 }];
      }
    });
    const conflicts = far.conflicts.filter(({ severity }) => severity === 'conflict');
    expect(new Set(conflicts.map(({ code }) => code))).toEqual(new Set(['springFarFromTarget']));
    expect(far.status).toBe('enquiry');
    expect(sizingSummary(far).split('\n')[0]).toContain('2 conflicts to resolve or accept');
    expect(sheetMarkdown(reportSheet(far))).toContain('Resolve these conflicts, or accept them.');
    expect(sizingSummary(roadster).split('\n')[0]).not.toContain('conflict');
  });

  it('says that there are no conflicts, or tells each of them', () => {
    expect(sizingSummary(sized())).toContain('No conflicts.');
    const spoilt = sized((document) => {
      document.corners.front.sizing.unsprungMass = 500;
      document.corners.rear.limits.damper = { extendedLength: 500, compressedLength: 460 };
    });
    const text = sizingSummary(spoilt).replace(/\s+/g, ' ');
    expect(spoilt.conflicts.length).toBeGreaterThan(1);
    for (const issue of spoilt.conflicts) {
      expect(text).toContain(issueLines(issue).join(' ').replace(/\s+/g, ' '));
      expect(issueLines(issue).map((line) => /^ {2}\w+:/.exec(line)?.[0].trim() ?? line)).toEqual([
        expect.stringMatching(/^[A-Z]/),
        'found:',
        'required:',
        'fix:',
      ]);
    }
    expect(givenUp(text)).toEqual([]);
  });

  it('has nothing to say of what is not known', () => {
    const { masses: _, ...bare } = car();
    const text = sizingSummary(sizeCoilovers(readCar(bare)));
    expect(text).not.toMatch(/NaN|null|undefined/);
    expect(text).not.toContain('spring rate');
  });
});

import { array, assert, double, integer, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, placeLabels } from '../../src/report/labels.ts';

const frame: Box = { x: 0, y: 0, width: 900, height: 600 };
const nothing = { lines: [], boxes: [], dots: [] };

describe('placeLabels', () => {
  it('keeps labels apart, in the frame and off their points', () => {
    const wish = record({
      width: integer({ min: 30, max: 170 }),
      x: double({ min: 50, max: 850, noNaN: true }),
      y: double({ min: 50, max: 550, noNaN: true }),
    });
    assert(
      property(array(wish, { minLength: 1, maxLength: 14 }), (wishes) => {
        const labels = wishes.map(({ width, x, y }) => ({
          width,
          height: 15,
          anchor: [x, y] as const,
          clear: 8,
        }));
        const placed = placeLabels(labels, nothing, frame);
        expect(placed).toEqual(placeLabels(labels, nothing, frame));
        placed.forEach(({ box }, k) => {
          const { anchor } = labels[k];
          expect(box.x).toBeGreaterThanOrEqual(0);
          expect(box.y).toBeGreaterThanOrEqual(0);
          expect(box.x + box.width).toBeLessThanOrEqual(900);
          expect(box.y + box.height).toBeLessThanOrEqual(600);
          const covers =
            anchor[0] > box.x &&
            anchor[0] < box.x + box.width &&
            anchor[1] > box.y &&
            anchor[1] < box.y + box.height;
          expect(covers).toBe(false);
          for (const { box: other } of placed.slice(k + 1)) {
            const apart =
              box.x + box.width <= other.x ||
              other.x + other.width <= box.x ||
              box.y + box.height <= other.y ||
              other.y + other.height <= box.y;
            expect(apart).toBe(true);
          }
        });
      }),
    );
  });

  it('goes to the free side of a line, and leads back from afar', () => {
    const label = { width: 60, height: 15, anchor: [450, 300] as const, clear: 8 };
    const wall = { from: [440, 0] as const, to: [440, 600] as const, weight: 5 };
    const [right] = placeLabels([label], { ...nothing, lines: [wall] }, frame);
    expect(right.box.x).toBeGreaterThan(440);
    expect(right.leader).toBeNull();
    const crowd = [{ x: 370, y: 260, width: 160, height: 80 }];
    const [far] = placeLabels([label], { ...nothing, boxes: crowd }, frame);
    expect(far.leader).not.toBeNull();
  });
});

import { design, doubleWishbone, drawDesign, pushrod } from 'jounce';
import { describe, expect, it } from 'vitest';
import { faults, readPaper } from './paper.ts';

const travel = { bump: 40, droop: 40, step: 20 };

const corner = doubleWishbone({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});
const rocked = pushrod({
  lowerArm: { inner: [250, 160], outer: [630, 150] },
  upperArm: { inner: [300, 340], outer: [590, 360] },
  wheel: { centre: [700, 315], contactPatch: [702, 0] },
  rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
  rocker: { pivot: [260, 400] },
  coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
});

describe('drawDesign', () => {
  it('shows what went where, and what it came to, with nothing cut off or written over', () => {
    for (const height of [500, 800]) {
      const made = design(corner, {
        mounts: { shockMount: { y: [450, 560] }, shockChassisMount: { y: [300, 420], z: [450, height] } },
        objectives: [
          { quantity: 'designRatio', target: 0.9 },
          { quantity: 'jointForce', joint: 'lowerOuter', tyre: [0, 3000], max: 3500 },
        ],
        clearances: { mountToArm: { upperArm: 60 } },
        travel,
        starts: 1,
      });
      const paper = readPaper(drawDesign(corner, made));
      expect(faults(paper)).toEqual([]);
      const texts = paper.words.map(({ text }) => text);
      const [y] = made.mounts.shockMount.to;
      expect(texts).toEqual(
        expect.arrayContaining([
          'installation ratio at design ride height',
          '0.5649',
          'force in lowerOuter at design ride height',
          'at most 3500 N',
          'not met',
          'shock mount, y',
          '450 to 560',
          `shock mount: y +${Number((y - 505).toFixed(1))}, z +0 mm`,
          'Shock mount y is at its maximum, 560.0 mm.',
        ]),
      );
      expect(texts).not.toContain('shock mount, z');
    }
  });

  it('shows a rocker moved', () => {
    const made = design(rocked, {
      mounts: { rodRockerMount: { y: [300, 380] }, shockRockerMount: { y: [200, 270], z: [450, 520] } },
      objectives: [{ quantity: 'designRatio', target: 0.8 }],
      travel,
    });
    const paper = readPaper(drawDesign(rocked, made, { title: 'Rocker' }));
    expect(faults(paper)).toEqual([]);
    expect(paper.words.map(({ text }) => text)).toContain('Rocker');
  });
});

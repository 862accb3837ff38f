/** After the order: what was bought stays, and the advice that a weighed car gets. */
import * as fc from 'fast-check';
import { type AxleSizing, readCar, sentence, sizeCoilovers, type WheelAfterOrder } from 'jounce';
import { describe, expect, it } from 'vitest';
import { carOf } from '../../src/coilover/sizing/car.ts';
import { carStates } from '../../src/coilover/sizing/car-states.ts';
import { errorOf, exampleText, type Json } from '../document/support.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import { boughtFront, weighedCar } from './bought.ts';
import { carDocuments, GRAVITY, valueIn } from './cars.ts';

/** The same but for rounding. */
const expectNear = (actual: number, expected: number, share = 1e-10) =>
  expectWithin(actual / expected, 1, share);

const sizedFront = (document: Json): AxleSizing => sizeCoilovers(readCar(document)).axles[0];
const front = (change?: (document: Json) => void) => sizedFront(weighedCar(change));

/** A wheel after the order, which is there. */
function wheelOf(axle: AxleSizing, side: 'left' | 'right'): WheelAfterOrder {
  return axle.afterOrder?.wheels.find((wheel) => wheel.side === side) ?? expect.fail(`no ${side} wheel`);
}
const codesOf = ({ advice }: AxleSizing) => advice.map(({ code }) => code);
const adviceOf = (axle: AxleSizing, code: string) =>
  axle.advice.find((one) => one.code === code) ?? expect.fail(`no ${code}, but ${codesOf(axle)}`);

/** What comes back of what was bought. */
function comesBack(axle: AxleSizing, ordered: Json): void {
  const { damper, spring, valving, perch, bumpStop } = ordered;
  expect([axle.damper?.extendedLength, axle.damper?.compressedLength]).toEqual([
    damper.extendedLength,
    damper.compressedLength,
  ]);
  expect(axle.figure('extendedLength').value).toBe(damper.extendedLength);
  expect(axle.figure('compressedLength').value).toBe(damper.compressedLength);
  expect(axle.input.limits.bumpStop).toEqual({
    height: bumpStop.height,
    solidHeight: bumpStop.solidHeight,
  });
  expect(axle.input.sizing?.bumpStopTable).toEqual(bumpStop.table);
  expect(axle.input.sizing?.perch).toMatchObject({
    setting: perch.setting,
    min: perch.min,
    max: perch.max,
    threadPitch: perch.threadPitch,
  });
  if (axle.afterOrder === null) return;
  expect(axle.spring).toMatchObject({
    rate: spring.rate,
    freeLength: spring.freeLength,
    minLength: spring.minLength,
  });
  expect(axle.figure('springRate').value).toBe(spring.rate);
  if (axle.input.sizing?.helper === undefined)
    expect(axle.figure('freeLength').value).toBe(spring.freeLength);
  expect(axle.figure('perchSetting').value).toBe(perch.setting);
  expect(axle.figure('compressionDamping').value).toBe(valving.compressionDamping);
  expect(axle.figure('reboundDamping').value).toBe(valving.reboundDamping);
  for (const { asFitted } of axle.afterOrder.wheels) expect(asFitted?.setting).toBe(perch.setting);
}

describe('what was bought', () => {
  it('comes back bit for bit, whatever target, list, damper and perch the file has beside it', () => {
    comesBack(front(), boughtFront());
    comesBack(
      front(({ corners: { front } }) => {
        front.sizing.target = { frequency: 2.4 };
        front.sizing.springs = [{ name: 'other', rate: 30, freeLength: 180, solidLength: 70 }];
        front.sizing.perch = { setting: 100, min: 90, max: 110, threadPitch: 1 };
        front.limits.required = { bump: 200, droop: 200 };
      }),
      boughtFront(),
    );
  });

  it('comes back bit for bit from random cars', () => {
    let computed = 0;
    fc.assert(
      fc.property(carDocuments, (document) => {
        const ordered = boughtFront();
        const axle = sizedFront({
          ...document,
          corners: { ...document.corners, front: { ...document.corners.front, ordered } },
        });
        comesBack(axle, ordered);
        if (axle.afterOrder !== null) computed++;
      }),
      { numRuns: 30 },
    );
    expect(computed).toBeGreaterThan(2);
  });

  it('in inches comes back as the number nearest to the inches', () => {
    const document = JSON.parse(exampleText('car-weighed.json'));
    const { ordered } = document.corners.front;
    const axle = sizeCoilovers(readCar(document)).axles[0];
    // 25.4 mm in an inch, by the international agreement of 1959 (NIST SP 811, from memory).
    const exact = (inches: number) => Number((inches * 25.4).toPrecision(12));
    expectSame(axle.damper?.extendedLength, exact(ordered.damper.extendedLength));
    expectSame(axle.figure('freeLength').value, exact(ordered.spring.freeLength));
  });

  it('may be a force table, which is given back, and whose first row gives the low-speed damping', () => {
    const forceTable = [
      [50, 80, 120],
      [200, 300, 450],
    ];
    const axle = front(({ corners: { front } }) => {
      front.ordered.valving = { forceTable };
    });
    expect(axle.dampingTable.map(({ speed, compression, rebound }) => [speed, compression, rebound])).toEqual(
      forceTable,
    );
    // 80 N and 120 N at 0.05 m/s
    expectNear(valueIn(axle, 'compressionDamping'), 1600);
    expectNear(valueIn(axle, 'reboundDamping'), 2400);
  });

  it('in part leaves the rest as the file has it', () => {
    const axle = front(({ corners: { front } }) => {
      front.ordered = { spring: front.ordered.spring };
    });
    expect(axle.damper).toMatchObject({ extendedLength: 475, compressedLength: 350 });
    expect(axle.spring?.rate).toBe(50.3);
  });

  it('may be uncertain, and is then named by its place among what makes a figure uncertain', () => {
    const axle = front(({ corners: { front } }) => {
      front.ordered.perch.setting = { value: 260, plusMinus: 1 };
    });
    const { contributions, lower, upper } = axle.figure('staticTravel');
    expect(contributions.map(({ input }) => input)).toEqual(['corners.front.ordered.perch.setting']);
    expect((upper ?? 0) - (lower ?? 0)).toBeGreaterThan(1);
  });

  it('is measured: the tolerances of the order hold for what was not bought alone', () => {
    const doubtsWith = (...bought: string[]) => {
      const document = weighedCar(({ corners: { front } }) => {
        front.sizing.order = { lengthTolerance: 1, rateTolerance: 0.03 };
        front.ordered = Object.fromEntries(bought.map((part) => [part, front.ordered[part]]));
      });
      return carOf(readCar(document))
        .uncertain.filter(({ at }) => Array.isArray(at) && at.includes('made'))
        .map(({ at }) => String(Array.isArray(at) ? at.at(-1) : ''));
    };
    expect(doubtsWith('revision')).toEqual(['extendedLength', 'compressedLength', 'seat', 'rate']);
    expect(doubtsWith('damper')).toEqual(['seat', 'rate']);
    expect(doubtsWith('spring')).toEqual(['extendedLength', 'compressedLength', 'seat']);
    expect(doubtsWith('damper', 'spring', 'perch')).toEqual([]);
  });

  it('leaves no margin to a wheel that does not stand, and says where it goes', () => {
    // A perch set so far towards the spring that the wheel hangs on its limit.
    const axle = front(({ corners: { front } }) => {
      front.ordered.perch = { setting: 450 };
    });
    const { asFitted } = wheelOf(axle, 'left');
    expect(asFitted).toMatchObject({ state: 'droopLimit', bumpMargin: null, droopMargin: null });
    expect(codesOf(axle)).toContain('wheelStandsOnLimit');
  });

  it('is named by its place in what can not be', () => {
    const { conflicts } = sizeCoilovers(
      readCar(
        weighedCar(({ corners: { front } }) => {
          front.ordered.damper = { extendedLength: 400, compressedLength: 300 };
        }),
      ),
    );
    const paths = conflicts.map(({ path }) => path);
    expect(paths).toContain('corners.front.ordered.damper');
    expect(paths).not.toContain('corners.front.limits.damper');
  });

  it.each<[string, (ordered: Json) => void, string]>([
    [
      'exchanged lengths',
      (o) => (o.damper = { extendedLength: 300, compressedLength: 400 }),
      'damper.compressedLength: not less than damper.extendedLength',
    ],
    [
      'a minimum above the free length',
      (o) => (o.spring.minLength = 300),
      'spring.minLength: not less than spring.freeLength',
    ],
    [
      'a solid length above the minimum',
      (o) => (o.spring.solidLength = 80),
      'spring.solidLength: not less than spring.minLength',
    ],
    ['a falling stop table', (o) => o.bumpStop.table.reverse(), 'bumpStop.table[1]: the table does not rise'],
    ['one coefficient alone', (o) => delete o.valving.reboundDamping, 'valving.reboundDamping: missing'],
    [
      'two kinds of valving',
      (o) => (o.valving.forceTable = [[50, 1, 1]]),
      'valving: give compressionDamping and reboundDamping, or forceTable',
    ],
    ['a date that is none', (o) => (o.date = '29.11.2026'), 'date: not a date as 2026-11-29'],
    ['a revision with a slash', (o) => (o.revision = 'A/1'), 'revision: not a revision as A or B2'],
    ['an exchanged thread', (o) => (o.perch.max = 100), 'perch.min: not less than perch.max'],
  ])('with %s is refused', (_, change, message) => {
    const document = weighedCar(({ corners: { front } }) => change(front.ordered));
    expect(errorOf(() => readCar(document)).message).toContain(`corners.front.ordered.${message}`);
  });
});

describe('a wheel', () => {
  it('stands where spring, gas and ratio balance its own load', () => {
    const axle = front(({ corners: { front } }) => {
      front.ordered.perch.left = 262.5;
      front.ordered.perch.right = 258.25;
    });
    const [{ sizing, shock }] = carOf(readCar(weighedCar())).car.axles;
    const { unsprungMass } = sizing;
    for (const [side, mass, setting] of [
      ['left', 184, 262.5],
      ['right', 171, 258.25],
    ] as const) {
      const { asFitted, sprungMass } = wheelOf(axle, side);
      expectSame(asFitted?.setting, setting);
      expectNear(sprungMass, mass - (unsprungMass ?? Number.NaN));
      const { length, ratio } = shock.at(asFitted?.staticTravel ?? Number.NaN);
      // F R = m g, F = k (free + setting - L) + gas; the stop is not touched at this length.
      const force = 50.3 * (210.7 + setting - length) + 150;
      expect(length).toBeGreaterThan(350.7 + 39.7);
      expectNear(force * ratio, sprungMass * GRAVITY, 1e-10);
    }
  });

  it('comes to ride height within 1e-9 mm when its perch is turned as advised', () => {
    let turned = 0;
    fc.assert(
      fc.property(carDocuments, fc.double({ min: -30, max: 30, noNaN: true }), (document, off) => {
        const ordered = {
          spring: { rate: 60, freeLength: 260 },
          perch: { setting: 150 + off, threadPitch: 1.5 },
        };
        const given = {
          ...document,
          corners: { ...document.corners, front: { ...document.corners.front, ordered } },
        };
        const read = readCar(given);
        const { afterOrder } = sizeCoilovers(read).axles[0];
        for (const { side, perch, advised } of afterOrder?.wheels ?? []) {
          if (perch === null || perch.turns === null || advised === null) continue;
          if (!(advised.wheelRate > 0) || advised.state !== 'onSpring') continue;
          // The same perch given by its turned setting, and solved anew.
          const setting = 150 + off + 1.5 * perch.turns;
          if (!(setting > 0)) continue;
          const again = sizeCoilovers(
            readCar({
              ...given,
              corners: {
                ...given.corners,
                front: {
                  ...given.corners.front,
                  ordered: { ...ordered, perch: { ...ordered.perch, [side]: setting } },
                },
              },
            }),
          ).axles[0].afterOrder;
          const there = again?.wheels.find((wheel) => wheel.side === side)?.asFitted;
          expectWithin(there?.staticTravel ?? Number.NaN, 0, 1e-9);
          turned++;
        }
      }),
      { numRuns: 25 },
    );
    expect(turned).toBeGreaterThan(2);
  });

  it('gets turns that agree with the linear formula for a small move', () => {
    const asBought = ({ corners: { front } }: Json) => {
      front.sizing.target = { springRate: 50.3 };
    };
    const axle = front(asBought);
    const { perch, advised } = wheelOf(axle, 'left');
    const exact = perch?.requiredSetting ?? Number.NaN;
    const near = wheelOf(
      front((document) => {
        asBought(document);
        document.corners.front.ordered.perch.setting = exact - 0.01;
      }),
      'left',
    );
    // z = -p k_c R / k_w, k_c the rate of the spring alone.
    const [{ shock }] = carOf(readCar(weighedCar())).car.axles;
    const { ratio } = shock.at(0);
    const z = (0.01 * 50.3 * ratio) / (advised?.wheelRate ?? Number.NaN);
    expectWithin((near.asFitted?.staticTravel ?? Number.NaN) / z, 1, 1e-3);
    expectNear(near.perch?.turns ?? Number.NaN, 0.01 / 1.75, 1e-6);
  });

  it('on its bump stop is brought to ride height by a direct solve, where the linear formula is far off', () => {
    const axle = front(({ corners: { front } }) => {
      front.ordered.perch.setting = 155;
    });
    const { asFitted, perch } = wheelOf(axle, 'left');
    const [{ shock }] = carOf(readCar(weighedCar())).car.axles;
    const state = asFitted ?? expect.fail('does not stand');
    expect(shock.at(state.staticTravel).length).toBeLessThan(350.7 + 39.7);
    const stopped = (state.staticTravel * state.wheelRate) / (50.3 * shock.at(state.staticTravel).ratio);
    expect(Math.abs((perch?.move ?? 0) / stopped)).toBeLessThan(0.8);
    const { length, ratio } = shock.at(0);
    const x = ((184 - 30) * GRAVITY) / ratio / 50.3 - 150 / 50.3;
    expectNear(perch?.requiredSetting ?? Number.NaN, length + x - 210.7, 1e-10);
  });
});

describe('advice', () => {
  it('names the spring of the list that is nearest to the target, and the turns with that one', () => {
    const axle = front(({ corners: { front } }) => {
      front.sizing.springs = [
        { name: 'soft', rate: 30, freeLength: 240, minLength: 60 },
        { name: 'near', rate: 41, freeLength: 220, minLength: 60 },
        { name: 'stiff', rate: 70, freeLength: 200, minLength: 60 },
      ];
    });
    const { change, requiredRate } = axle.afterOrder ?? expect.fail('nothing after the order');
    expect(requiredRate).toBeGreaterThan(36);
    expect(requiredRate).toBeLessThan(50);
    expect(change?.spring.name).toBe('near');
    const wheel = wheelOf(axle, 'left');
    const [{ shock }] = carOf(readCar(weighedCar())).car.axles;
    const { length, ratio } = shock.at(0);
    const x = (((184 - 30) * GRAVITY) / ratio - 150) / 41;
    expectNear(wheel.perchWithChange?.requiredSetting ?? Number.NaN, length + x - 220, 1e-10);
    expect(sentence(adviceOf(axle, 'changeSpring'))).toMatch(/^Change the front spring to near, 41\.0 N\/mm/);
    expect(sentence(adviceOf(axle, 'perchTurn'))).toMatch(
      /^With the new spring, turn the left front perch \d+\.\d turns (towards|away from) the spring, /,
    );
  });

  it('leaves a spring that is nearest to the target', () => {
    const axle = front(({ corners: { front } }) => {
      front.sizing.target = { springRate: 50.3 };
      front.sizing.springs = [{ name: 'near', rate: 49, freeLength: 220, minLength: 60 }];
    });
    expect(axle.afterOrder?.change).toBeNull();
    expect(codesOf(axle)).not.toContain('changeSpring');
  });

  it('gives the next rate that is made, and what its lengths must be, where there is no list', () => {
    const axle = front(({ corners: { front } }) => {
      front.sizing.rateStep = 10;
    });
    expect(axle.afterOrder?.change?.spring).toMatchObject({ rate: 40, freeLength: 210.7 });
    expect(axle.afterOrder?.change?.maxMinLength).toBeGreaterThan(75.3);
    expect(codesOf(axle)).toContain('newSpringLengths');
  });

  it('says that the thread does not reach, and how far off the corner then stands', () => {
    const axle = front(({ corners: { front } }) => {
      front.sizing.target = { springRate: 50.3 };
      front.ordered.perch.setting = 190;
      front.ordered.perch.max = 195;
    });
    const { perch, advised } = wheelOf(axle, 'left');
    expect(perch?.withinThread).toBe(false);
    expect(advised?.setting).toBe(195);
    expect(advised?.staticTravel).toBeGreaterThan(1);
    expect(adviceOf(axle, 'perchOutOfThread').severity).toBe('conflict');
  });

  it('says that a spring can not carry the corner, that travel is short, that a setting is not known', () => {
    const weak = front(({ corners: { front } }) => {
      front.sizing.target = { springRate: 10 };
      front.ordered.spring = { rate: 10, freeLength: 210, minLength: 150 };
    });
    expect(codesOf(weak)).toContain('rideHeightNotCarried');
    expect(wheelOf(weak, 'left').advised).toBeNull();
    const short = front(({ corners: { front } }) => {
      front.limits.required = { bump: 200 };
    });
    expect(codesOf(short)).toContain('boughtTravelShort');
    const unknown = front(({ corners: { front } }) => delete front.ordered.perch.setting);
    expect(wheelOf(unknown, 'left').asFitted).toBeNull();
    expect(codesOf(unknown)).toContain('perchSet');
    const noLength = front(({ corners: { front } }) => {
      delete front.ordered.spring;
      delete front.ordered.perch.setting;
    });
    expect(codesOf(noLength)).toContain('perchSettingUnknown');
  });

  it('says of which part it is', () => {
    const { advice } = front();
    const placeOf = (wanted: string) => advice.find(({ code }) => code === wanted)?.path;
    expect(placeOf('wheelStands')).toBe('corners.front.ordered');
    expect(placeOf('changeSpring')).toBe('corners.front.ordered.spring');
    expect(placeOf('perchTurn')).toBe('corners.front.ordered.perch');
  });

  it('takes perches that were reset as set for ride height, and says where the given setting contradicts that', () => {
    const reset = front(({ masses, corners: { front } }) => {
      masses.scales.perches = 'reset';
      front.sizing.target = { springRate: 50.3 };
      delete front.ordered.perch.setting;
    });
    expectWithin(wheelOf(reset, 'left').asFitted?.staticTravel ?? Number.NaN, 0, 1e-9);
    expect(codesOf(reset)).toEqual(expect.arrayContaining(['perchStays']));
    const given = front(({ masses, corners: { front } }) => {
      masses.scales.perches = 'reset';
      front.ordered.perch.setting = 230;
    });
    expect(codesOf(given)).toContain('resetPerchOff');
  });

  it('gives the damping ratio of the bought valving: c R^2 / (2 sqrt(k_w m)), and the damping that meets the target', () => {
    const axle = front(({ corners: { front } }) => {
      front.sizing.target = { springRate: 50.3 };
      front.sizing.damping = { ratio: 0.3 };
      front.ordered.perch.setting = 225;
    });
    const { damping } = axle.afterOrder ?? expect.fail('nothing after the order');
    const [{ shock }] = carOf(readCar(weighedCar())).car.axles;
    const { ratio, slope } = shock.at(0);
    const mass = (184 + 171) / 2 - 30;
    const rate = 50.3 * ratio ** 2 + ((mass * GRAVITY) / ratio) * slope;
    const zeta = (c: number) => (c * ratio ** 2) / (2 * Math.sqrt(rate * 1000 * mass));
    expectNear(damping?.compression.design ?? Number.NaN, zeta(1711), 1e-10);
    expectNear(damping?.rebound.design ?? Number.NaN, zeta(2533), 1e-10);
    expectNear(zeta(damping?.requiredDamping ?? Number.NaN), 0.3, 1e-10);
    expect(codesOf(axle)).toContain(Math.abs(zeta(2122) - 0.3) > 0.03 ? 'dampingOffTarget' : 'perchTurn');
  });

  it('gives that damping ratio at full droop and at bump stop contact, or at full bump without a stop', () => {
    const spring = 50.3;
    const change = (document: Json) => (document.corners.front.sizing.target = { springRate: spring });
    const withStop = front(change);
    const withoutStop = front((document) => {
      change(document);
      // Short enough for the spring to push at full droop.
      document.corners.front.ordered.damper.extendedLength = 440;
      delete document.corners.front.ordered.bumpStop;
      delete document.corners.front.limits.bumpStop;
      delete document.corners.front.sizing.bumpStopTable;
    });
    const [{ shock }] = carOf(readCar(weighedCar())).car.axles;
    const mass = (184 + 171) / 2 - 30;
    const ride = shock.at(0);
    const loose = ride.length + (mass * GRAVITY) / ride.ratio / spring;
    /** c R^2 / (2 sqrt(k_w m)) with the spring alone. */
    const zeta = (c: number, travel: number) => {
      const { ratio, slope, length } = shock.at(travel);
      const rate = spring * ratio ** 2 + spring * (loose - length) * slope;
      return (c * ratio ** 2) / (2 * Math.sqrt(rate * 1000 * mass));
    };
    /** Travel at a length of the shock, by halving. */
    const travelAt = (length: number) => {
      let [low, high] = [0, 120];
      for (let k = 0; k < 60; k++) {
        const middle = (low + high) / 2;
        if (shock.at(middle).length > length) low = middle;
        else high = middle;
      }
      return low;
    };
    const coefficients = { compression: 1711, rebound: 2533, mean: (1711 + 2533) / 2 };
    expect(shock.at(withStop.limits.droop?.travel ?? 0).length).toBeGreaterThan(loose);
    expect(shock.at(withoutStop.limits.droop?.travel ?? 0).length).toBeLessThan(loose);
    for (const [axle, bump] of [
      [withStop, travelAt(350.7 + 39.7)],
      [withoutStop, withoutStop.limits.bump?.travel ?? Number.NaN],
    ] as const) {
      const droop = axle.limits.droop?.travel ?? Number.NaN;
      const damping = axle.afterOrder?.damping ?? expect.fail('no damping');
      for (const [name, c] of Object.entries(coefficients)) {
        const { [name as keyof typeof coefficients]: found } = damping;
        if (shock.at(droop).length < loose) expectNear(found.droop ?? Number.NaN, zeta(c, droop), 1e-9);
        else expect(found.droop).toBeNull();
        expectNear(found.design ?? Number.NaN, zeta(c, 0), 1e-9);
        expectNear(found.bump ?? Number.NaN, zeta(c, bump), 1e-9);
      }
    }
  });

  it('needs no target for the damping, and has none without valving or spring', () => {
    const { damping } =
      front(({ corners: { front } }) => delete front.sizing.damping).afterOrder ?? expect.fail();
    expect([damping?.target, damping?.requiredDamping]).toEqual([null, null]);
    expect(damping?.mean.design).toBeGreaterThan(0);
    expect(front(({ corners: { front } }) => delete front.ordered.valving).afterOrder?.damping).toBeNull();
  });
});

/** The shock of that car's front corner over wheel travel. */
const shockOf = () => carOf(readCar(weighedCar())).car.axles[0].shock;
/** Eye-to-eye length at which the bought bump stop is solid: compressed length and solid height. */
const SOLID = 350.7 + 12.3;
/** Loads of the two wheels less the unsprung mass, kg. */
const SPRUNG = { left: 184 - 30, right: 171 - 30 };
/** Length at which a spring of a rate is loose that carries a mass at ride height beside 150 N of gas: L + (m g / R - 150) / k. */
function looseFor(mass: number, rate: number): number {
  const { length, ratio } = shockOf().at(0);
  return length + ((mass * GRAVITY) / ratio - 150) / rate;
}
const changeOf = (axle: AxleSizing) => axle.afterOrder?.change ?? null;

describe('a bought coilover on a wheel', () => {
  /** Nothing but 15 mm of road and 2 mm of margin moves the wheels. */
  const onRoad = (change: (front: Json) => void) =>
    front(({ masses, corners: { front }, ...document }) => {
      delete masses.sprungCentreOfGravityHeight;
      document.downforce.force = 0;
      front.sizing.target = { springRate: 50.3 };
      change(front);
    });

  it('has the rate, frequency, travel margins and spring travel of where that wheel stands', () => {
    const settings = { left: 257.3, right: 239.1 };
    const axle = onRoad(({ ordered }) => Object.assign(ordered.perch, settings));
    const shock = shockOf();
    const bump = axle.limits.bump?.travel ?? Number.NaN;
    const droop = axle.limits.droop?.travel ?? Number.NaN;
    expectWithin(shock.at(bump).length, SOLID, 1e-8);
    expectWithin(shock.at(droop).length, 474.3, 1e-8);
    const stands = (['left', 'right'] as const).flatMap((side) => {
      const { asFitted, advised } = wheelOf(axle, side);
      return [
        { side, loose: 210.7 + settings[side], stand: asFitted ?? expect.fail() },
        { side, loose: looseFor(SPRUNG[side], 50.3), stand: advised ?? expect.fail() },
      ];
    });
    for (const { side, loose, stand } of stands) {
      const { staticTravel, wheelRate, frequency, bumpMargin, droopMargin, springMargin, state } = stand;
      expect(state).toBe('onSpring');
      const { ratio, slope, length } = shock.at(staticTravel);
      expect(length).toBeGreaterThan(350.7 + 39.7);
      const mass = SPRUNG[side];
      const rate = 50.3 * ratio ** 2 + ((mass * GRAVITY) / ratio) * slope;
      expectNear(wheelRate, rate, 1e-9);
      expectNear(frequency ?? Number.NaN, Math.sqrt((1000 * rate) / mass) / (2 * Math.PI), 1e-9);
      expectWithin(bumpMargin, bump - (staticTravel + 15 + 2), 1e-8);
      expectWithin(droopMargin, staticTravel - 15 - 2 - droop, 1e-8);
      expectWithin(springMargin, 210.7 - 75.3 - (loose - SOLID), 1e-8);
    }
  });

  it('has all of its spring travel left where the spring is loose on the solid stop, and none to name without its minimum length', () => {
    // 150.2 + 210.7 is less than the solid length, 363.
    const loose = onRoad(({ ordered }) => (ordered.perch.setting = 150.2));
    expectWithin(wheelOf(loose, 'left').asFitted?.springMargin ?? null, 210.7 - 75.3, 1e-9);
    const unknown = onRoad(({ ordered }) => (ordered.spring = { rate: 50.3, freeLength: 210.7 }));
    for (const wheel of ['left', 'right'] as const) {
      const { asFitted, advised } = wheelOf(unknown, wheel);
      expect([asFitted?.springMargin, advised?.springMargin]).toEqual([null, null]);
    }
    expect(codesOf(unknown)).not.toContain('boughtSpringTravelShort');
  });

  it('that is carried by a helper has both, and the ring between them, in its lengths', () => {
    const helper = { rate: 20, freeLength: 60, solidLength: 22, separatorHeight: 4 };
    const axle = onRoad(({ ordered }) => Object.assign(ordered, { helper }));
    const { perch, advised, asFitted } = wheelOf(axle, 'left');
    // The helper is solid at ride height: 20 x 38 = 760 N is less than the spring carries.
    const loose = looseFor(SPRUNG.left, 50.3) + 60 - 22;
    expectNear(perch?.requiredSetting ?? Number.NaN, loose - 210.7 - 60 - 4);
    expectWithin(advised?.springMargin ?? null, 210.7 - 75.3 + 38 - (loose - SOLID), 1e-8);
    expectSame(asFitted?.setting, 210.3);
  });

  it('leaves a wheel out that carries less than its unsprung mass', () => {
    const axle = front(({ masses }) => (masses.scales.frontRight = 29.9));
    expect(axle.afterOrder?.wheels.map(({ side }) => side)).toEqual(['left']);
    expectNear(wheelOf(axle, 'left').sprungMass, 184 - 30);
    const heavier = front(({ masses }) => (masses.scales.frontRight = 31));
    expectNear(wheelOf(heavier, 'right').sprungMass, 1, 1e-9);
  });

  it('is said to be weighed where scales gave the masses, with the revision and date of what was bought', () => {
    expect(front().afterOrder).toMatchObject({ weighed: true, revision: 'A', date: '2026-03-01' });
    const estimated = front(({ masses, corners: { front } }) => {
      delete masses.scales;
      masses.estimate = { total: 700, frontFraction: 0.48 };
      delete front.ordered.revision;
      delete front.ordered.date;
    });
    expect(estimated.afterOrder).toMatchObject({ weighed: false, revision: null, date: null });
    expect(estimated.afterOrder?.wheels.map(({ sprungMass }) => sprungMass)).toEqual([138, 138]);
  });

  it('has nothing to say without a spring or a sprung mass', () => {
    expect(
      front(({ corners: { front } }) => {
        delete front.sizing.target;
        front.ordered = { revision: 'A' };
      }).afterOrder,
    ).toBeNull();
    // The mean load of the two wheels is 177.5 kg.
    expect(front(({ corners: { front } }) => (front.sizing.unsprungMass = 178)).afterOrder).toBeNull();
    expect(front(({ corners: { front } }) => delete front.ordered).afterOrder).toBeNull();
  });
});

describe('the perch of a wheel', () => {
  const settingsOf = (change: (front: Json, masses: Json) => void) => {
    const axle = front(({ masses, corners: { front } }) => change(front, masses));
    return (['left', 'right'] as const).map((side) => wheelOf(axle, side).asFitted?.setting);
  };

  it('is set as its side was measured, else as both were, else as the sizing has it', () => {
    expect(settingsOf(({ ordered }) => (ordered.perch = { setting: 208, left: 212 }))).toEqual([212, 208]);
    expect(settingsOf(({ ordered }) => (ordered.perch = { setting: 208, right: 212 }))).toEqual([208, 212]);
    expect(
      settingsOf(({ ordered, sizing }) => {
        delete ordered.perch;
        sizing.perch = { setting: 205 };
      }),
    ).toEqual([205, 205]);
  });

  it('is set for ride height where masses are only estimated and nothing was measured', () => {
    const axle = front(({ masses, corners: { front } }) => {
      delete masses.scales;
      masses.estimate = { total: 700, frontFraction: 0.48 };
      front.sizing.target = { springRate: 50.3 };
      delete front.ordered.perch.setting;
    });
    const { asFitted, perch } = wheelOf(axle, 'left');
    expectNear(asFitted?.setting ?? Number.NaN, looseFor(138, 50.3) - 210.7);
    expectWithin(asFitted?.staticTravel ?? null, 0, 1e-9);
    expect([perch?.move, perch?.turns]).toEqual([0, 0]);
  });

  it('is moved from the setting that it has to the required one, in turns of its thread; towards the spring is +', () => {
    for (const setting of [200, 230]) {
      const axle = front(({ corners: { front } }) => {
        front.sizing.target = { springRate: 50.3 };
        front.ordered.perch.setting = setting;
      });
      for (const side of ['left', 'right'] as const) {
        const { perch, perchWithChange, advised } = wheelOf(axle, side);
        const required = looseFor(SPRUNG[side], 50.3) - 210.7;
        expectNear(perch?.requiredSetting ?? Number.NaN, required);
        expectNear(perch?.move ?? Number.NaN, required - setting, 1e-9);
        expectNear(perch?.turns ?? Number.NaN, (required - setting) / 1.75, 1e-9);
        expect(perchWithChange).toBeNull();
        expectNear(advised?.setting ?? Number.NaN, required);
        expectWithin(advised?.staticTravel ?? null, 0, 1e-9);
      }
    }
    const bare = front(({ corners: { front } }) => (front.ordered.perch = { setting: 200 }));
    const { perch } = wheelOf(bare, 'left');
    expect([perch?.turns, perch?.withinThread]).toEqual([null, null]);
    expect(perch?.move).not.toBeNull();
  });

  it('with a new spring is moved from where the old one has it to where the new one requires it', () => {
    const axle = front(({ corners: { front } }) => {
      front.sizing.springs = [{ name: 'near', rate: 41, freeLength: 220, minLength: 60 }];
    });
    for (const side of ['left', 'right'] as const) {
      const { asFitted, perch, perchWithChange, advised } = wheelOf(axle, side);
      const required = looseFor(SPRUNG[side], 41) - 220;
      expectNear(perchWithChange?.requiredSetting ?? Number.NaN, required);
      expectNear(perchWithChange?.move ?? Number.NaN, required - 210.3, 1e-9);
      expectNear(perch?.requiredSetting ?? Number.NaN, looseFor(SPRUNG[side], 50.3) - 210.7);
      expect(asFitted?.setting).toBe(210.3);
      expectNear(advised?.setting ?? Number.NaN, required);
      expectWithin(advised?.staticTravel ?? null, 0, 1e-9);
      const { ratio, slope } = shockOf().at(0);
      expectNear(
        advised?.wheelRate ?? Number.NaN,
        41 * ratio ** 2 + ((SPRUNG[side] * GRAVITY) / ratio) * slope,
        1e-9,
      );
    }
  });

  it('reaches what lies on either end of its thread or between, and from beyond goes to the nearer end', () => {
    const threaded = (thread: Json) => {
      const axle = front(({ corners: { front } }) => {
        front.sizing.target = { springRate: 50.3 };
        front.ordered.perch = { setting: 210.3, ...thread };
      });
      const { perch, advised } = wheelOf(axle, 'left');
      return { perch, advised, codes: codesOf(axle) };
    };
    const required = threaded({}).perch?.requiredSetting ?? Number.NaN;
    for (const thread of [
      { min: required },
      { max: required },
      { min: required - 5, max: required + 5 },
      { min: required - 5 },
      { max: required + 5 },
    ]) {
      const { perch, advised, codes } = threaded(thread);
      expect(perch?.withinThread).toBe(true);
      expect(advised?.setting).toBe(required);
      expectWithin(advised?.staticTravel ?? null, 0, 1e-9);
      expect(codes.filter((code) => code === 'perchOutOfThread')).toHaveLength(
        // The right wheel is lighter and requires less.
        thread.min === required ? 1 : 0,
      );
    }
    // k_c R p = k_w z: to first order a perch that ends p short of the spring leaves the wheel z = p k_c R / k_w low.
    const { ratio } = shockOf().at(0);
    const rate = threaded({}).advised?.wheelRate ?? Number.NaN;
    for (const [thread, off] of [
      [{ max: required - 0.1 }, 0.1],
      [{ min: required - 90, max: required - 0.1 }, 0.1],
      [{ min: required + 0.1 }, -0.1],
      [{ min: required + 0.1, max: required + 90 }, -0.1],
    ] as const) {
      const { perch, advised, codes } = threaded(thread);
      expect(perch?.withinThread).toBe(false);
      expectNear(advised?.setting ?? Number.NaN, required - off);
      expectNear(advised?.staticTravel ?? Number.NaN, (off * 50.3 * ratio) / rate, 0.01);
      expect(codes).toContain('perchOutOfThread');
    }
  });

  it('of a spring whose length is not known stays if it was set for ride height, else can not be told', () => {
    const bare = (perches: string) =>
      front(({ masses, corners: { front } }) => {
        masses.scales.perches = perches;
        front.ordered = { revision: 'A', perch: { min: 150, max: 300, threadPitch: 1.75 } };
      });
    const reset = bare('reset');
    for (const side of ['left', 'right'] as const) {
      const { perch, asFitted, advised } = wheelOf(reset, side);
      expect(perch).toEqual({ requiredSetting: null, move: 0, turns: 0, withinThread: null });
      for (const stand of [asFitted, advised]) {
        expect([stand?.setting, stand?.springMargin, stand?.state]).toEqual([null, null, 'onSpring']);
        expectWithin(stand?.staticTravel ?? null, 0, 1e-9);
      }
    }
    const untouched = wheelOf(bare('untouched'), 'left');
    expect(untouched.asFitted).toBeNull();
    expect(untouched.perch).toEqual({ requiredSetting: null, move: null, turns: null, withinThread: null });
  });
});

describe('a spring to change to', () => {
  const listed = (target: number, fitted: Json, ...springs: Json[]) =>
    front(({ corners: { front } }) => {
      front.sizing.target = { springRate: target };
      if (springs.length > 0) front.sizing.springs = springs;
      Object.assign(front.ordered.spring, fitted);
    });
  const meanMass = (SPRUNG.left + SPRUNG.right) / 2;

  it('is nearer to the target as a ratio: 47 is 1.175 times 40, 34 and 34.1 are 1 / 1.176 and 1 / 1.173 of it', () => {
    const with_ = (rate: number) =>
      listed(40, { rate: 47 }, { name: 'other', rate, freeLength: 220, minLength: 60 });
    expect(changeOf(with_(34))).toBeNull();
    expect(changeOf(with_(34.1))).toMatchObject({ because: 'target', listed: true, fits: true });
    expect(changeOf(with_(46.9))?.spring).toMatchObject({ name: 'other', rate: 46.9, freeLength: 220 });
    expect(changeOf(with_(47.1))).toBeNull();
    expect(changeOf(with_(47))).toBeNull();
  });

  it('is one of the list with enough travel where the fitted one has too little, though farther from the target', () => {
    const stiffer = (minLength: number) => ({ name: 'long', rate: 55, freeLength: 260, minLength });
    const mass = meanMass;
    // Compression of the fitted spring and of the other at the bump limit, where the stop is solid.
    const [fitted, other] = [50.3, 55].map((rate) => looseFor(mass, rate) - SOLID);
    const shortBy = (by: number) => ({ minLength: 210.7 - fitted + by });
    const axle = listed(50.3, shortBy(0.01), stiffer(260 - other - 0.01));
    const change = changeOf(axle);
    expect(change).toMatchObject({ because: 'travel', listed: true, fits: true, spring: { name: 'long' } });
    expectWithin(change?.maxMinLength ?? null, 260 - other, 1e-8);
    expect(codesOf(axle)).toContain('changeSpringForTravel');
    expect(codesOf(axle)).not.toContain('changeSpring');
    expect(codesOf(axle)).not.toContain('newSpringDoesNotFit');
    // The fitted one has enough; the other has not; there is no other.
    expect(changeOf(listed(50.3, shortBy(-0.01), stiffer(60)))).toBeNull();
    expect(changeOf(listed(50.3, shortBy(0.01), stiffer(260 - other + 0.01)))).toBeNull();
    expect(changeOf(listed(50.3, shortBy(0.01)))).toBeNull();
  });

  it('is one that carries the corner where the fitted one is shut before ride height, and fits only if it does', () => {
    const carrying = { name: 'long', rate: 55, freeLength: 260, minLength: 60 };
    // 1 mm of travel is less than the compression at ride height.
    expect(looseFor(meanMass, 55) - shockOf().at(0).length).toBeGreaterThan(1);
    const axle = listed(50.3, { minLength: 209.7 }, carrying);
    expect(changeOf(axle)).toMatchObject({ because: 'travel', fits: true, spring: { name: 'long' } });
    expect(wheelOf(axle, 'left').perch).toBeNull();
    expect(wheelOf(axle, 'left').advised?.state).toBe('onSpring');
    expect(changeOf(listed(50.3, { minLength: 209.7 }, { ...carrying, minLength: 259 }))).toBeNull();
    const nearer = listed(40, {}, { name: 'short', rate: 40, freeLength: 220, minLength: 219 });
    expect(changeOf(nearer)).toMatchObject({ because: 'target', fits: false, maxMinLength: null });
    expect(wheelOf(nearer, 'left').advised).toBeNull();
    expect(codesOf(nearer)).toContain('rideHeightNotCarried');
  });

  it('may not fit itself, for want of travel or for the body of the damper, and is then named with a conflict', () => {
    const near = { name: 'near', rate: 40, freeLength: 220, minLength: 60 };
    const travel = looseFor(meanMass, 40) - SOLID;
    const fitting = listed(40, {}, { ...near, minLength: 220 - travel - 0.01 });
    expect(changeOf(fitting)?.fits).toBe(true);
    expect(codesOf(fitting)).not.toContain('newSpringDoesNotFit');
    const short = listed(40, {}, { ...near, minLength: 220 - travel + 0.01 });
    const narrow = front(({ corners: { front } }) => {
      front.sizing.target = { springRate: 40 };
      front.sizing.springs = [{ ...near, innerDiameter: 60 }];
      front.sizing.order = { bodyDiameter: 60.1 };
    });
    for (const axle of [short, narrow]) {
      expect(changeOf(axle)).toMatchObject({ because: 'target', fits: false });
      expect(adviceOf(axle, 'newSpringDoesNotFit').severity).toBe('conflict');
      expect(adviceOf(axle, 'newSpringDoesNotFit').values).toMatchObject({ name: 'near', rate: 40 });
    }
  });

  it('without a list has free length and inner diameter of the fitted one, and a minimum length that the travel leaves it', () => {
    const axle = listed(40, { innerDiameter: 61 });
    const change = changeOf(axle);
    expect(change).toMatchObject({ because: 'target', listed: false, fits: true });
    expect(change?.spring).toMatchObject({ rate: 40, freeLength: 210.7, innerDiameter: 61, minLength: null });
    expectWithin(change?.maxMinLength ?? null, 210.7 - (looseFor(meanMass, 40) - SOLID), 1e-8);
    expect(adviceOf(axle, 'newSpringLengths').values).toMatchObject({
      freeLength: 210.7,
      maxMinLength: change?.maxMinLength,
    });
  });

  it('is none without a target', () => {
    const axle = front(({ corners: { front } }) => {
      delete front.sizing.target;
      front.sizing.springs = [{ name: 'near', rate: 41, freeLength: 220, minLength: 60 }];
    });
    expect(axle.afterOrder).toMatchObject({ change: null, requiredRate: null });
  });

  it('gives the damping ratio, not the fitted one', () => {
    const axle = listed(40, {}, { name: 'near', rate: 41, freeLength: 220, minLength: 60 });
    const { ratio, slope } = shockOf().at(0);
    const rate = 41 * ratio ** 2 + ((meanMass * GRAVITY) / ratio) * slope;
    expectNear(
      axle.afterOrder?.damping?.mean.design ?? Number.NaN,
      (2122 * ratio ** 2) / (2 * Math.sqrt(rate * 1000 * meanMass)),
      1e-10,
    );
  });
});

it('valving that does not damp has a damping ratio of 0, and no multiple of it meets the target', () => {
  const axle = front(({ corners: { front } }) => {
    front.ordered.valving = { compressionDamping: 0, reboundDamping: 0 };
  });
  const { mean, target, requiredDamping } = axle.afterOrder?.damping ?? expect.fail('no damping');
  expect([mean.design, target, requiredDamping]).toEqual([0, 0.3, null]);
  expect(codesOf(axle)).not.toContain('dampingOffTarget');
});

/** Places of a value at which a number is not finite, or a sentence has such a number in it. */
function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} ${value}`];
  if (typeof value === 'string') return /NaN|undefined|Infinity|null/.test(value) ? [`${path} ${value}`] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}

it('random weighed cars, whatever was bought, get finite figures and whole sentences', () => {
  const size = (min: number, max: number) => fc.integer({ min, max });
  const ordered = fc.record(
    {
      damper: size(250, 400).map((length) => ({ compressedLength: length, extendedLength: length + 120 })),
      spring: fc.record(
        { rate: size(5, 150), freeLength: size(150, 300), minLength: size(40, 140) },
        { requiredKeys: ['rate', 'freeLength'] },
      ),
      helper: fc.constant({ rate: 20, freeLength: 60, solidLength: 20 }),
      bumpStop: fc.constant({ height: 40, solidHeight: 12, table: [[10, 500]] }),
      valving: fc.constantFrom(
        { compressionDamping: 0, reboundDamping: 0 },
        { forceTable: [[50, 100, 150]] },
      ),
      perch: fc.record(
        { setting: size(50, 300), left: size(50, 300), min: size(40, 90), threadPitch: size(1, 3) },
        { requiredKeys: [] },
      ),
    },
    { requiredKeys: [] },
  );
  const reading = size(60, 400);
  const scales = fc.record({
    frontLeft: reading,
    frontRight: reading,
    rearLeft: reading,
    rearRight: reading,
    perches: fc.constantFrom('reset', 'untouched'),
  });
  let advised = 0;
  fc.assert(
    fc.property(carDocuments, ordered, ordered, scales, (document, front, rear, scales) => {
      const { corners } = document;
      const sizing = sizeCoilovers(
        readCar({
          ...document,
          masses: {
            scales,
            states: [{ name: 'one more', loads: [{ name: 'one', mass: 80, frontFraction: 0.4 }] }],
          },
          corners: {
            front: { ...corners.front, ordered: front },
            ...(corners.rear === undefined ? {} : { rear: { ...corners.rear, ordered: rear } }),
          },
        }),
      );
      for (const { afterOrder, advice, loadStates } of sizing.axles) {
        expect(notFinite({ afterOrder, advice, loadStates })).toEqual([]);
        advised += advice.length;
      }
      expect(notFinite(sizing.conflicts)).toEqual([]);
    }),
    { numRuns: 25 },
  );
  expect(advised).toBeGreaterThan(10);
});

describe('loads on the scales', () => {
  const masses = (change: (masses: Json) => void) => {
    const document = weighedCar((document) => {
      document.masses.added = [
        { name: 'driver', mass: 80, frontFraction: 0.5, leftFraction: 0.6 },
        { name: 'fuel', mass: 20, frontFraction: 0.25 },
      ];
      change(document.masses);
    });
    const bare = { spring: null, damper: null, ends: null };
    return carStates(carOf(readCar(document)).car, [bare, bare]).masses;
  };

  it('are not added twice where they were aboard, and added where they were not', () => {
    const scales = { left: 184, right: 171 };
    expect(masses(({ scales }) => (scales.aboard = ['driver', 'fuel']))?.front).toEqual(scales);
    const fuel = masses(({ scales }) => (scales.aboard = ['driver']));
    expectNear(fuel?.front.left ?? 0, 184 + 20 * 0.25 * 0.5);
    expectNear(fuel?.total ?? 0, 184 + 171 + 190 + 186 + 20);
    const both = masses(() => {});
    expectNear(both?.front.left ?? 0, 184 + 80 * 0.5 * 0.6 + 20 * 0.25 * 0.5);
    expectNear(both?.total ?? 0, 184 + 171 + 190 + 186 + 100);
  });

  it('that nothing is named after are refused', () => {
    const document = weighedCar(({ masses }) => {
      masses.added = [{ name: 'driver', mass: 80, frontFraction: 0.5 }];
      masses.scales.aboard = ['diver'];
    });
    expect(errorOf(() => readCar(document)).message).toContain(
      'masses.scales.aboard[0]: no added load of this name, got "diver" (allowed: driver)',
    );
  });
});

it('a car that stands low has its static loads where it stands, and the axial force of its figures', () => {
  for (const { forces, figure } of sizeCoilovers(readCar(exampleText('car-weighed.json'))).axles) {
    const { name, travel, tyre, shock } = forces?.cases[0] ?? expect.fail('no cases');
    const value = (of: Parameters<typeof figure>[0]) => figure(of).value ?? Number.NaN;
    expect(name).toBe('static');
    expect(travel).toBeGreaterThan(2);
    expectWithin(travel, value('staticTravel'), 1e-9);
    expectNear(shock.total, value('staticAxialForce'));
    expectWithin(shock.metalContact, 0, 1e-8);
    // The wheel carries its weight, but for what the unsprung weight moves less or more than the contact patch does.
    const unsprung = (value('leftWheelMass') + value('rightWheelMass')) / 2 - value('sprungMass');
    const weight = ((value('leftWheelMass') + value('rightWheelMass')) / 2) * GRAVITY;
    expectWithin(tyre?.[1] ?? Number.NaN, weight, 0.02 * unsprung * GRAVITY);
  }
});

it('a car from tape to order to scales gets advice on what to change, in its own units', () => {
  const sizing = sizeCoilovers(readCar(exampleText('car-weighed.json')));
  const lines = sizing.axles.flatMap(({ advice }) => advice.map((one) => sentence(one, sizing.units)));
  const says = (text: RegExp) =>
    expect(
      lines.some((line) => text.test(line)),
      String(text),
    ).toBe(true);
  says(/^The front left corner stands \d\.\d\d in low with what is fitted\.$/);
  says(
    /^Turn the left front perch \d\.\d turns towards the spring \(raises the corner\), \d\.\d\d in, to a setting of \d\.\d\d in\.$/,
  );
  says(/^Change the rear spring to 200 lbf\/in: the target requires \d+ lbf\/in, 175 lbf\/in is fitted\.$/);
  says(/^With the new spring, turn the right rear perch \d\.\d turns away from the spring, /);
  // Before the order the same corners had no advice.
  const before = sizeCoilovers(readCar(exampleText('car.json')));
  expect(before.axles.map(({ afterOrder }) => afterOrder)).toEqual([null, null]);
});

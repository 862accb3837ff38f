/** Lengths, damping, downforce and roll of the sheet against their definitions, written down a second time. */
import { readFileSync } from 'node:fs';
import { type AxleSizing, readCar, sizeCoilovers, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { front, GRAVITY, sized, valueIn } from './cars.ts';

const of = (axle: AxleSizing) => (name: string) => valueIn(axle, name);
/** The wheel's column of the curves at a travel. */
const curve = (axle: AxleSizing, travel: number, name: string) => axle.curves?.at(travel)[name] ?? Number.NaN;

describe('lengths of the damper', () => {
  it('closed is dead length and stroke, open dead length and twice the stroke', () => {
    const v = of(front());
    expect(v('extendedLength')).toBe(475);
    expectClose(v('compressedLength'), v('deadLength') + v('stroke'), { times: 2, scale: 475 });
    expectClose(v('extendedLength'), v('deadLength') + 2 * v('stroke'), { times: 2, scale: 475 });
    expectClose(v('compressionStroke') + v('extensionStroke'), v('stroke'), { times: 4, scale: 475 });
  });

  it('end the travel where the shock has them: open, and with the stop solid', () => {
    const axle = front();
    const v = of(axle);
    const length = (travel: number) =>
      sweep(axle.input.corner, { bump: 150, droop: 150 }).at(travel).shockLength ?? Number.NaN;
    expectWithin(length(v('bumpTravelAvailable')), 350 + 12, 1e-6);
    expectWithin(length(-v('droopTravelAvailable')), 475, 1e-6);
  });

  it('that follow from the travel hold what is needed, in whole mm outward', () => {
    const v = of(
      front((corner) => {
        delete corner.limits.damper;
        // The lengths are found before there is a stop to help.
        delete corner.sizing.bumpStopTable;
      }),
    );
    expect([v('extendedLength') % 1, v('compressedLength') % 1]).toEqual([0, 0]);
    for (const side of ['bump', 'droop']) {
      expect(v(`${side}TravelMargin`)).toBeGreaterThanOrEqual(-1e-9);
      // One mm of the shock is so much travel at the most, where the ratio is more than a half.
      expect(v(`${side}TravelMargin`)).toBeLessThan(2);
    }
  });

  it('needed are the most of the cases, each the sum of its parts', () => {
    const axle = front();
    for (const { parts, travel } of axle.travelRequirement.cases) {
      expectClose(
        travel,
        Object.values(parts).reduce((sum, part) => sum + part, 0),
        { times: 8, scale: 200 },
      );
    }
    const most = Math.max(
      ...axle.travelRequirement.cases.filter(({ side }) => side === 'bump').map(({ travel }) => travel),
    );
    expectWithin(axle.travelRequirement.bump, most, 1e-9);
  });
});

describe('travel that is asked for', () => {
  it('counts from the drawn ride height, wherever the car stands', () => {
    const axle = front((corner) => {
      corner.limits.required = { bump: 150, droop: 140 };
      corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 90 }];
      corner.sizing.perch = { setting: 240 };
    });
    expect(Math.abs(valueIn(axle, 'staticTravel'))).toBeGreaterThan(0.1);
    expectWithin(valueIn(axle, 'bumpTravelRequired'), 150, 1e-9);
    expectWithin(valueIn(axle, 'droopTravelRequired'), 140, 1e-9);
  });
});

describe('a car twice as heavy', () => {
  it('needs springs, dampers and forces twice as strong for the same motion', () => {
    const [one, two] = [1, 2].map(
      (k) =>
        sized((document) => {
          document.masses.estimate.total *= k;
          document.downforce.force *= k;
          for (const { sizing } of [document.corners.front, document.corners.rear]) {
            sizing.unsprungMass *= k;
            sizing.tyreRate *= k;
            sizing.gas.force *= k;
            sizing.rateStep = 5 * k;
            for (const point of sizing.bumpStopTable) point[1] *= k;
          }
        }).axles[0],
    );
    const grows = [
      'requiredSpringRate',
      'springRate',
      'wheelRate',
      'staticAxialForce',
      'meanDamping',
      'rollStiffness',
      'sprungMass',
    ];
    const stays = [
      'frequency',
      'preload',
      'bumpTravelRequired',
      'topSpeedRideHeightLoss',
      'dampingRatioAtDroop',
      'wheelHopDampingRatio',
    ];
    for (const name of grows) expectWithin(valueIn(two, name) / valueIn(one, name), 2, 1e-9);
    for (const name of stays) expectWithin(valueIn(two, name), valueIn(one, name), 1e-7);
  });
});

describe('damping', () => {
  const damped = (more: object) =>
    front((corner) => {
      corner.sizing.damping = { ratio: 0.35, ...more };
    });

  // J. L. Meriam, L. G. Kraige, "Dynamics", sample problems 8/2 and 8/6 (inputs seen): ratios of 0.625 and 0.4923.
  it('has as ratio c over twice the root of rate and mass, as in Meriam & Kraige', () => {
    expect(20 / (2 * Math.sqrt(32 * 8))).toBe(0.625);
    const axle = damped({});
    const v = of(axle);
    const critical = 2 * Math.sqrt(v('wheelRate') * 1000 * v('sprungMass'));
    expectWithin((v('meanDamping') * v('installationRatio') ** 2) / critical, 0.35, 1e-9);
    expectWithin(v('staticDampingRatio'), 0.35, 1e-9);
    const hop = 2 * Math.sqrt((v('wheelRate') + 200) * 1000 * 30);
    expectWithin(v('wheelHopDampingRatio'), (v('meanDamping') * v('installationRatio') ** 2) / hop, 1e-9);
  });

  it('in bump and rebound averages to what is wanted, shared as asked', () => {
    const v = of(damped({ compressionFraction: 0.3 }));
    expectClose((v('compressionDamping') + v('reboundDamping')) / 2, v('meanDamping'), {
      times: 8,
      scale: v('meanDamping'),
    });
    expectClose(v('compressionDamping') / (v('compressionDamping') + v('reboundDamping')), 0.3, {
      times: 8,
      scale: 1,
    });
  });

  it('bends at the knee of shaft speed', () => {
    const axle = damped({ kneeSpeed: 100, highSpeedFraction: 0.25, shaftSpeeds: [200, 50, 100] });
    const [slow, knee, fast] = axle.dampingTable;
    const c = valueIn(axle, 'compressionDamping');
    expect([slow.speed, knee.speed, fast.speed]).toEqual([50, 100, 200]);
    expectClose(slow.compression, c * 0.05, { times: 8, scale: c });
    expectClose(knee.compression, c * 0.1, { times: 8, scale: c });
    expectClose(fast.compression, c * (0.1 + 0.25 * 0.1), { times: 8, scale: c });
    expectClose(fast.rebound / fast.compression, 1.5, { times: 32, scale: 1 });
  });

  it('has a row at the knee among its shaft speeds, and round speeds in the units of the file', () => {
    const bends = damped({ kneeSpeed: 120, highSpeedFraction: 0.25, shaftSpeeds: [200, 50] });
    expect(bends.dampingTable.map(({ speed }) => speed)).toEqual([50, 120, 200]);
    const usual = damped({}).dampingTable.map(({ speed }) => speed);
    expect(usual).toEqual([25, 50, 100, 150, 200, 300, 400, 500]);
    const inches = JSON.parse(readFileSync('docs/examples/car.json', 'utf8'));
    const speeds = sizeCoilovers(readCar(inches)).axles.map((axle) =>
      axle.dampingTable.map(({ speed }) => Number((speed / 25.4).toFixed(9))),
    );
    // The knee at the front is at 6 in/s, which is one of them.
    expect(speeds).toEqual([0, 1].map(() => [1, 2, 4, 6, 8, 12, 16, 20]));
  });

  it('lists what it takes from common practice among the assumptions', () => {
    const codes = (damping: object) =>
      sized(({ corners: { front, rear } }) => {
        for (const { sizing } of [front, rear]) sizing.damping = { ratio: 0.3, ...damping };
      })
        .assumptions.map(({ code, values }) => `${code} ${values.fraction}`)
        .filter((code) => code.includes('Fraction'));
    const twice = (...names: string[]) => [...names, ...names];
    expect(codes({})).toEqual(twice('compressionFractionAssumed 0.4'));
    expect(codes({ kneeSpeed: 100 })).toEqual(
      twice('compressionFractionAssumed 0.4', 'highSpeedFractionAssumed 0.5'),
    );
    expect(codes({ kneeSpeed: 100, compressionFraction: 0.4, highSpeedFraction: 0.5 })).toEqual([]);
  });

  it('varies over travel with ratio and rate, and is told at droop and at the touch of the stop', () => {
    const axle = damped({});
    const v = of(axle);
    const { droop } = axle.curves?.end ?? expect.fail('no curves');
    expectWithin(v('dampingRatioAtDroop'), curve(axle, droop.travel, 'dampingRatio'), 1e-9);
    // A hair before the stop is touched: there its rate is not counted.
    const { shockLength } = axle.curves?.at(0) ?? {};
    const touch = axle.limits.events.find(({ event }) => event === 'bumpStopContact')?.travel ?? Number.NaN;
    expect(shockLength).toBeGreaterThan(390);
    expectWithin(v('dampingRatioAtBump'), curve(axle, touch - 1e-6, 'dampingRatio'), 1e-6);
  });
});

describe('downforce', () => {
  it('goes with the square of the speed, by its share, and the car sinks by it on spring and tyre', () => {
    const axle = front();
    const [slow, known, fast] = axle.speedRows;
    expectWithin(known.downforce, (600 * 0.4) / 2, 1e-9);
    expectWithin(slow.downforce, known.downforce / 4, 1e-9);
    expectWithin(fast.downforce, known.downforce * 1.5625, 1e-9);
    const v = of(axle);
    for (const { downforce, travel, rideHeightLoss, state, frequency } of axle.speedRows) {
      const at = (name: string) => curve(axle, travel ?? Number.NaN, name);
      expect(state).toBe('onSpring');
      expectWithin(at('wheelLoad'), (v('sprungMass') + 30) * GRAVITY + downforce, 1e-6);
      expectWithin(rideHeightLoss, (travel ?? Number.NaN) + downforce / 200, 1e-9);
      // The mass does not grow with the load.
      expectWithin(frequency, Math.sqrt((at('wheelRate') * 1000) / v('sprungMass')) / 2 / Math.PI, 1e-9);
    }
  });

  it('is judged from where the car stands, to stop and limit, on the tyre as well where its rate is known', () => {
    const standing = (change: Parameters<typeof front>[0] = () => {}) =>
      front((corner) => {
        corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 60 }];
        corner.sizing.perch = { setting: 215 };
        change(corner);
      });
    const axle = standing();
    const v = of(axle);
    const stands = v('staticTravel');
    expect(Math.abs(stands)).toBeGreaterThan(5);
    for (const row of axle.speedRows) {
      const at = (name: string) => curve(axle, row.travel ?? Number.NaN, name);
      const ride = 1 / (1 / at('wheelRate') + 1 / 200);
      expectWithin(row.rideHeightLoss, (row.travel ?? Number.NaN) - stands + row.downforce / 200, 1e-9);
      expectWithin(row.frequencyWithTyre, Math.sqrt((ride * 1000) / v('sprungMass')) / 2 / Math.PI, 1e-9);
      expectWithin(row.travelToLimit, v('bumpTravelAvailable') - (row.travel ?? Number.NaN), 1e-9);
      // The stop, 40 mm high, is touched that far from the compressed length of 350 mm.
      const touched = (row.travel ?? Number.NaN) + (row.travelToContact ?? Number.NaN);
      expectWithin(curve(axle, touched, 'shockLength'), 390, 1e-6);
    }
    const rigid = standing(({ sizing }) => delete sizing.tyreRate);
    for (const { rideHeightLoss, travel, frequencyWithTyre } of rigid.speedRows) {
      expectWithin(rideHeightLoss, (travel ?? Number.NaN) - stands, 1e-9);
      expect(frequencyWithTyre).toBeNull();
    }
    const bare = standing(({ limits, sizing }) => {
      delete limits.bumpStop;
      delete sizing.bumpStopTable;
    });
    expect(bare.speedRows.map(({ travelToContact }) => travelToContact)).toEqual([null, null, null]);
  });

  it('of a corner that does not stand, or without a spring, is a force alone', () => {
    for (const axle of [
      front(({ sizing }) => (sizing.springs = [{ name: 'S', rate: 2, freeLength: 240, solidLength: 60 }])),
      front(({ sizing }) => delete sizing.target),
    ]) {
      const [, { speed, downforce, ...others }] = axle.speedRows;
      expect(speed).toBe(160);
      expectWithin(downforce, (600 * 0.4) / 2, 1e-9);
      expect(new Set(Object.values(others))).toEqual(new Set([null]));
    }
  });

  it('past the limit puts the car on the stops', () => {
    const [axle] = sized((document) => {
      document.downforce.force = 100_000;
    }).axles;
    const { state, travel, travelToLimit, rideHeightLoss } = axle.speedRows[2];
    expect(state).toBe('bumpLimit');
    expect([travelToLimit, rideHeightLoss]).toEqual([0, null]);
    expectWithin(travel, valueIn(axle, 'bumpTravelAvailable'), 1e-6);
  });
});

describe('roll', () => {
  it('of an axle is wheel rate by half the square of the track, and a bar’s on top', () => {
    const axle = front((corner) => {
      corner.sizing.antiRollBarStiffness = 120;
    });
    const v = of(axle);
    const y = sweep(axle.input.corner, { bump: 1, droop: 1 }).at(0);
    const patch = 705 - 312 * Math.tan((-0.5 * Math.PI) / 180);
    const stiffness = ((v('wheelRate') * (2 * patch) ** 2) / 2 / 1000) * (Math.PI / 180);
    expectWithin(v('rollStiffness'), stiffness, 1e-9 * stiffness);
    expectWithin(v('rollStiffnessWithBar'), stiffness + 120, 1e-9 * stiffness);
    expectWithin(v('rollCentreHeight'), y.rollCentreHeight ?? Number.NaN, 1e-6);
  });

  // T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992, ch. 6 (from memory); the same angle is Barton & Fieldhouse, eq. 3.18 (read).
  it('angle per g is the moment about the roll axis by what stiffness is left', () => {
    const sizing = sized();
    const [one, other] = sizing.axles.map(of);
    const masses = [one, other].map((v) => 2 * v('sprungMass'));
    const sprung = masses[0] + masses[1];
    const axis = (masses[0] * one('rollCentreHeight') + masses[1] * other('rollCentreHeight')) / sprung;
    const moment = (sprung * GRAVITY * (450 - axis)) / 1000;
    const stiffness = ((one('rollStiffness') + other('rollStiffness')) * 180) / Math.PI;
    const angle = ((moment / (stiffness - moment)) * 180) / Math.PI;
    expectWithin(valueIn(sizing, 'rollGradient'), angle, 1e-9);
  });
});

describe('a helper', () => {
  const helped = (rate: number) =>
    front((corner) => {
      corner.sizing.helper = { rate, freeLength: 60, solidLength: 20, separatorHeight: 5 };
      corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 90 }];
    });

  it('that is shut at ride leaves the rate to the main spring, and counts with its travel in the preload', () => {
    const [plain, soft] = [
      front((corner) => {
        corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 90 }];
      }),
      helped(2),
    ];
    expectClose(valueIn(soft, 'wheelRate'), valueIn(plain, 'wheelRate'), { times: 1e4, scale: 40 });
    expectWithin(
      valueIn(soft, 'staticSpringCompression'),
      valueIn(plain, 'staticSpringCompression') + 40,
      1e-9,
    );
    expectWithin(valueIn(soft, 'freeLength'), 240 + 60 + 5, 1e-12);
    // Seats are as far apart as shut helper, ring and main spring are long.
    const main = 240 - valueIn(soft, 'staticSpringForce') / 40;
    expectWithin(valueIn(soft, 'staticSpringLength'), 20 + 5 + main, 1e-9);
  });

  it('that still works is in series with it', () => {
    const axle = helped(100);
    const v = of(axle);
    const together = 1 / (1 / 40 + 1 / 100);
    const shock = sweep(axle.input.corner, { bump: 1, droop: 1 });
    const h = 1e-3;
    const R = (z: number) => shock.at(z).installationRatio ?? Number.NaN;
    const slope = (R(h) - R(-h)) / (2 * h);
    expectWithin(v('wheelRate'), together * R(0) ** 2 + v('staticAxialForce') * slope, 1e-6);
  });
});

describe('the perch', () => {
  it('as it is set gives the travel at which the car stands, and that is where the load is borne', () => {
    const axle = front((corner) => {
      corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 90 }];
      corner.sizing.perch = { setting: 235, min: 200, max: 260 };
    });
    const v = of(axle);
    expect(Math.abs(v('staticTravel'))).toBeGreaterThan(0.1);
    expectWithin(v('perchSetting'), 235, 1e-9);
    expectWithin(curve(axle, v('staticTravel'), 'wheelLoad'), (v('sprungMass') + 30) * GRAVITY, 1e-6);
    const { travelAtMin, travelAtMax } = axle.perch ?? expect.fail('no range');
    expect(travelAtMin).toBeGreaterThan(v('staticTravel'));
    expect(travelAtMax).toBeLessThan(v('staticTravel'));
  });

  it('set at a limit has nothing left of what ends its range there', () => {
    const set = (setting?: number) =>
      front((corner) => {
        corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 90, minLength: 100 }];
        corner.sizing.perch = { ...(setting === undefined ? {} : { setting }), min: 150, max: 330 };
      });
    // The limits of required travel keep the roll gradient of the setting as it is: only the spring's are exact.
    const margins = {
      springMinLength: 'springTravelMargin',
      springLoose: 'preload',
    } as const;
    const { limits, usable } = set().perch ?? expect.fail('no range');
    const found = limits.flatMap(({ cause, setting, travel }) => {
      if (!(cause in margins)) return [];
      const v = of(set(setting));
      expectWithin(v(margins[cause as keyof typeof margins]), 0, 1e-6);
      expectWithin(v('staticTravel'), travel, 1e-6);
      return [cause];
    });
    expect(found).toEqual(['springLoose', 'springMinLength']);
    const settings = (end: string) => limits.filter((one) => one.end === end).map(({ setting }) => setting);
    expect(usable).toEqual({ min: Math.max(...settings('min')), max: Math.min(...settings('max')) });
  });
});

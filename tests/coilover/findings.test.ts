/** What can't be: each is named with its numbers, and all that does not hang on it is still there. */
import { readCar, reportSheet, type Sizing, sheetMarkdown, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { worded } from '../../src/sentences/worded.ts';
import { type Json, placesOf } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { car, sized, valueIn } from './cars.ts';

/** Findings by path. */
const paths = ({ conflicts }: Sizing) => conflicts.map(({ path }) => path);
/** The one finding of a car. */
const only = (change: (document: Json) => void) => onlyOf(sized(change));
/** The one finding of a car whose parts were changed after it was read: in a file a share outside 0 to 1 is refused. */
function onlyAfterReading(change: (sizing: Json) => void) {
  const document = readCar(car());
  const sizing = structuredClone(document.sizing);
  change(sizing);
  return onlyOf(sizeCoilovers({ ...document, sizing }));
}
function onlyOf(sizing: Sizing) {
  expect(paths(sizing)).toHaveLength(1);
  const [finding] = sizing.conflicts;
  const { got, allowed } = worded(finding, sizing.units);
  // Told with its numbers.
  expect(`${got} ${allowed}`).toMatch(/\d/);
  return { sizing, finding };
}

describe('a quiet car', () => {
  it('has nothing against it', () => {
    expect(paths(sized())).toEqual([]);
  });
});

describe('what can’t be', () => {
  it('a share of mass outside 0 to 1: what hangs on masses is left out, lengths are there', () => {
    const { sizing, finding } = onlyAfterReading(({ masses }) => {
      masses.estimate.frontFraction = 48;
    });
    expect(finding.path).toBe('masses.estimate.frontFraction');
    expect(worded(finding, 'metric').advice).toContain('0.48');
    expect(sizing.axles[0].figure('sprungMass').value).toBeNull();
    expect(valueIn(sizing.axles[0], 'stroke')).toBe(125);
    expect(valueIn(sizing.axles[0], 'installationRatio')).toBeGreaterThan(0);
  });

  it('a share of downforce outside 0 to 1: the speeds are left out, springs are there', () => {
    const { sizing, finding } = onlyAfterReading(({ downforce }) => {
      downforce.frontFraction = 1.2;
    });
    expect(finding.path).toBe('downforce.frontFraction');
    expect(finding.values.fraction).toBe(1.2);
    expect(sizing.axles[0].speedRows).toEqual([]);
    expect(sizing.axles[0].figure('topSpeedRideHeightLoss').value).toBeNull();
    expect(valueIn(sizing.axles[0], 'springRate')).toBeGreaterThan(0);
  });

  it('no sprung mass left: the other axle is still sized', () => {
    const { sizing, finding } = only((document) => {
      document.corners.front.sizing.unsprungMass = 500;
    });
    expect(finding.path).toBe('corners.front.sizing.unsprungMass');
    expect(finding.values).toEqual({ unsprungMass: 500, wheelMass: expect.closeTo(168, 9) });
    expect(sizing.axles[0].spring).toBeNull();
    expect(valueIn(sizing.axles[0], 'designLength')).toBeGreaterThan(0);
    expect(valueIn(sizing.axles[1], 'springRate')).toBeGreaterThan(0);
  });

  it('an input that no car can have stops the order, and is told first', () => {
    const sizing = sized((document) => {
      document.corners.front.sizing.target = { frequency: 96 };
    });
    expect(sizing.status).toBe('notForOrder');
    expect(sizing.conflicts[0]).toMatchObject({
      code: 'frequencyPerMinute',
      severity: 'error',
      path: 'corners.front.sizing.target.frequency',
    });
    expect(sizing.checks.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('a travel that could not be counted is a check, and never called enough', () => {
    const sizing = sized((document) => {
      delete document.masses.wheelbase;
    });
    expect(sizing.checks.filter(({ severity }) => severity === 'check')).toMatchObject([
      {
        code: 'travelPartOmitted',
        severity: 'check',
        path: 'masses.wheelbase',
        values: { part: 'dive', needs: 'wheelbase' },
      },
    ]);
    const sheet = sheetMarkdown(reportSheet(sizing));
    expect(sheet).toContain('not every case could be counted');
    expect(sheet).not.toMatch(/travel: enough/);
  });

  it('roll and dive that need an axle that is not described are checks, not travel of 0', () => {
    const whole = valueIn(sized().axles[0], 'bumpTravelRequired');
    const spoils: [parts: string[], spoil: (document: Json) => boolean][] = [
      [['roll', 'dive'], ({ corners }) => delete corners.rear],
      [['roll'], ({ corners }) => delete corners.rear.sizing.target],
    ];
    for (const [parts, spoil] of spoils) {
      const sizing = sized((document) => void spoil(document));
      expect(valueIn(sizing.axles[0], 'bumpTravelRequired')).toBeLessThanOrEqual(whole);
      expect(sizing.checks.filter(({ severity }) => severity === 'check')).toMatchObject(
        parts.map((part) => ({
          code: 'travelPartOmitted',
          severity: 'check',
          path: 'corners.rear',
          values: { part, needs: 'bothAxles' },
        })),
      );
      expect(sheetMarkdown(reportSheet(sizing))).toContain('Check these inputs');
    }
  });

  it('an axle without sizing: its unsprung mass is unknown, not 0, and so is its sprung mass', () => {
    const sizing = sized((document) => {
      delete document.corners.rear.sizing;
    });
    const [finding] = sizing.conflicts;
    expect(finding).toMatchObject({
      code: 'unsprungMassMissing',
      severity: 'conflict',
      path: 'corners.rear.sizing.unsprungMass',
    });
    const [, rear] = sizing.axles;
    expect(rear.figure('sprungMass').value).toBeNull();
    expect(rear.figure('unsprungMass').value).toBeNull();
    // 700 kg, 52 % of it at the rear, half on each side: the scales would still say so.
    expect(valueIn(rear, 'leftWheelMass')).toBeCloseTo(700 * 0.52 * 0.5, 9);
    expect(valueIn(sizing.axles[0], 'springRate')).toBeGreaterThan(0);
  });

  it('a sprung mass of the corner itself stands in for an unknown unsprung mass', () => {
    const sizing = sized((document) => {
      delete document.corners.rear.sizing;
      document.corners.rear.sprungMass = 150;
    });
    expect(sizing.checks.map(({ code, path }) => [code, path])).toEqual([
      ['travelPartOmitted', 'corners.rear'],
    ]);
    expect(valueIn(sizing.axles[1], 'sprungMass')).toBe(150);
  });

  it('a target that needs a spring of negative rate', () => {
    // A shock that leans outboard and gains ratio: the force term alone is stiffer than what is asked.
    const { sizing, finding } = only((document) => {
      const { front } = document.corners;
      front.coilover = { on: 'lowerArm', mount: [505, 170], chassisMount: [200, 320] };
      front.limits = {};
      front.sizing.target = { wheelRate: 0.5 };
      delete front.sizing.bumpStopTable;
    });
    expect(finding.path).toBe('corners.front.sizing.target');
    expect(finding.values.springRate).toBeLessThan(0);
    expect(sizing.axles[0].spring).toBeNull();
    expect(valueIn(sizing.axles[0], 'requiredWheelRate')).toBe(0.5);
    expect(valueIn(sizing.axles[1], 'springRate')).toBeGreaterThan(0);
  });

  it('coils that bind before the bump limit', () => {
    const sizing = sized((document) => {
      document.corners.front.sizing.springs = [
        { name: 'short', rate: 40, freeLength: 150, solidLength: 110 },
      ];
    });
    // They bind above ride height: the corner does not stand, and no travel can be required.
    expect(sizing.conflicts.map(({ code }) => code)).toEqual(['springSolidAtRide', 'springTravelShort']);
    expect(paths(sizing)).toEqual(['corners.front.sizing.springs', 'corners.front.sizing.springs']);
    expect(sizing.axles[0].figure('bumpTravelRequired').value).toBeNull();
    expect(valueIn(sizing.axles[0], 'springTravelMargin')).toBeLessThan(0);
    expect(sizing.axles[0].springOptions[0].conflicts).toHaveLength(1);
    expect(sizing.axles[0].limits.bump?.cause).toBe('springMinLength');
  });

  it('a stroke that can’t fit the installed length', () => {
    const { sizing, finding } = only((document) => {
      document.corners.front.sizing.deadLength = 300;
    });
    expect(finding.path).toBe('corners.front.sizing.deadLength');
    expect(finding.values.available).toBe(225);
    expect(valueIn(sizing.axles[0], 'springRate')).toBeGreaterThan(0);
  });

  it('a damper that does not fit the installed length', () => {
    const sizing = sized((document) => {
      document.corners.front.limits.damper = { extendedLength: 400, compressedLength: 300 };
    });
    expect(paths(sizing)).toContain('corners.front.limits.damper');
    expect(valueIn(sizing.axles[1], 'springRate')).toBeGreaterThan(0);
  });

  it('a damper too short or too long for the ride height: no travel is available on that side', () => {
    const [{ figure }] = sized().axles;
    const installed = figure('designLength').value ?? 0;
    for (const [side, short] of [
      ['droop', { extendedLength: installed - 3, compressedLength: installed - 100 }],
      ['bump', { extendedLength: installed + 100, compressedLength: installed + 3 }],
    ] as const) {
      const sizing = sized(({ corners: { front } }) => {
        front.limits.damper = short;
        delete front.limits.bumpStop;
      });
      const [axle] = sizing.axles;
      // The wheel stands beyond ride height by 3 mm of the shock, over its ratio to first order.
      const ratio = valueIn(axle, 'installationRatio');
      expectWithin(valueIn(axle, `${side}TravelAvailable`), -3 / ratio, 0.1);
      expect(valueIn(axle, `${side}TravelMargin`)).toBeLessThan(0);
      const codes = sizing.conflicts.flatMap(({ code, path }) => (path.includes('front') ? [code] : []));
      expect(codes).toContain('damperDoesNotFit');
      expect(codes).toContain(`${side}TravelShort`);
    }
  });

  it('a tyre rate that is asked for and missing', () => {
    const sizing = sized((document) => {
      const { sizing: asked } = document.corners.front;
      delete asked.tyreRate;
      asked.target = { frequency: 1.6, withTyre: true };
    });
    expect(paths(sizing)).toEqual(['corners.front.sizing.tyreRate']);
    expect(sizing.axles[0].spring).toBeNull();
    expect(valueIn(sizing.axles[1], 'frequency')).toBeGreaterThan(0);
  });

  it('a frequency on the tyre beyond that of the tyre alone', () => {
    const { finding } = only((document) => {
      document.corners.front.sizing.target = { frequency: 9, withTyre: true };
    });
    expect(finding.path).toBe('corners.front.sizing.target.frequency');
    expect(finding.values.max).toBeCloseTo(6.06, 2);
  });

  it('gas that carries more than the car', () => {
    const { finding } = only((document) => {
      document.corners.front.sizing.gas = { force: 5000 };
    });
    expect(finding.path).toBe('corners.front.sizing.gas');
    expect(finding.values.gasAndStop).toBe(5000);
  });

  it('a wire that makes no spring: the others of the list are there', () => {
    const { sizing, finding } = only((document) => {
      document.corners.front.sizing.springs = [
        {
          name: 'no',
          freeLength: 200,
          wire: { diameter: 10, meanDiameter: 60, totalCoils: 2, ends: 'closed' },
        },
        { name: 'yes', rate: 40, freeLength: 260, solidLength: 90 },
      ];
    });
    expect(finding.path).toBe('corners.front.sizing.springs[0].wire.totalCoils');
    expect(sizing.axles[0].spring?.name).toBe('yes');
  });

  it('a spring that is no longer free than at its least length', () => {
    const { sizing, finding } = only((document) => {
      document.corners.front.sizing.springs = [
        { name: 'no', rate: 38, freeLength: 100, solidLength: 120 },
        { name: 'yes', rate: 40, freeLength: 260, solidLength: 90 },
      ];
    });
    expect(finding.path).toBe('corners.front.sizing.springs[0].freeLength');
    expect(sizing.axles[0].spring?.name).toBe('yes');
  });

  it('a helper that is no longer free than shut', () => {
    const { finding } = only((document) => {
      document.corners.front.sizing.helper = { rate: 5, freeLength: 20, solidLength: 30 };
    });
    expect(finding.path).toBe('corners.front.sizing.helper.freeLength');
  });

  it('a table of the bump stop that does not rise', () => {
    const { finding } = only((document) => {
      document.corners.front.sizing.bumpStopTable = [
        [10, 500],
        [10, 800],
      ];
    });
    expect(finding.path).toBe('corners.front.sizing.bumpStopTable[1]');
  });

  it('several at once, on both axles', () => {
    const document = readCar(
      car(({ corners }) => {
        corners.front.sizing.deadLength = 300;
        corners.rear.sizing.unsprungMass = 900;
      }),
    );
    const spoilt = structuredClone(document.sizing) as Json;
    spoilt.downforce.frontFraction = -1;
    const sizing = sizeCoilovers({ ...document, sizing: spoilt });
    expect(paths(sizing).sort()).toEqual([
      'corners.front.sizing.deadLength',
      'corners.rear.sizing.unsprungMass',
      'downforce.frontFraction',
    ]);
  });
});

it('all findings and notes of spoilt cars have code, severity, path and values', () => {
  const spoil: Readonly<Record<string, (sizing: Json) => void>> = {
    fractionOutOfRange: ({ downforce }) => {
      downforce.frontFraction = 40;
    },
    coilDiameterOutOfRange: ({ corners }) => {
      corners.front.springs = [
        { name: 'a', freeLength: 200, wire: { diameter: 8, meanDiameter: 7, totalCoils: 8, ends: 'closed' } },
      ];
    },
    coilOutOfRange: ({ corners }) => {
      corners.front.springs = [
        {
          name: 'a',
          freeLength: 200,
          wire: { diameter: 8, meanDiameter: 60, totalCoils: 2, ends: 'closed' },
        },
      ];
    },
    coilEndsUnknown: ({ corners }) => {
      corners.front.springs = [
        {
          name: 'a',
          freeLength: 200,
          wire: { diameter: 8, meanDiameter: 60, totalCoils: 9, ends: 'toString' },
        },
      ];
    },
    springWithoutTravel: ({ corners }) => {
      corners.front.springs = [{ name: 'a', rate: 38, freeLength: 100, solidLength: 120 }];
    },
    minLengthBelowSolid: ({ corners }) => {
      corners.front.springs = [{ name: 'a', rate: 38, freeLength: 200, solidLength: 120, minLength: 100 }];
    },
    bumpStopTableFalls: ({ corners }) => {
      corners.front.bumpStopTable = [
        [20, 500],
        [10, 800],
      ];
    },
    noSprungMass: ({ corners }) => {
      corners.rear.unsprungMass = 900;
    },
    springCarriesNothing: ({ corners }) => {
      corners.front.gas = { force: 90_000 };
    },
    targetNeedsNegativeSpring: ({ corners }) => {
      corners.front.target = { wheelRate: 0.01 };
    },
    tyreRateMissing: ({ corners }) => {
      corners.front.target = { frequency: 1.5, withTyre: true };
      delete corners.front.tyreRate;
    },
    springFarFromTarget: ({ corners }) => {
      corners.front.springs = [{ name: 'a', rate: 200, freeLength: 300, solidLength: 100 }];
    },
    deadLengthShort: ({ corners }) => {
      corners.rear.deadLength = 400;
    },
  };
  for (const [code, change] of Object.entries(spoil)) {
    const document = readCar(car());
    const whole = structuredClone(document.sizing) as Json;
    const { front, rear } = document.corners;
    const corners = structuredClone({ front: front.sizing, rear: rear?.sizing }) as Json;
    change({ ...whole, corners });
    const { conflicts, checks } = sizeCoilovers({
      ...document,
      sizing: whole,
      corners: {
        front: { ...front, sizing: corners.front },
        ...(rear === undefined ? {} : { rear: { ...rear, sizing: corners.rear } }),
      },
    });
    expect(conflicts.map((one) => one.code)).toContain(code);
    for (const one of [...conflicts, ...checks]) {
      expect([typeof one.code, typeof one.severity, typeof one.path, typeof one.values], code).toEqual([
        'string',
        'string',
        'string',
        'object',
      ]);
    }
  }
});

describe('a table of the bump stop', () => {
  it('may begin with [0, 0]', () => {
    const points = [
      [10, 500],
      [20, 3000],
    ];
    const axle = (table: number[][]) =>
      sized((document) => {
        document.corners.front.sizing.bumpStopTable = table;
      }).axles[0];
    expect(axle([[0, 0], ...points]).forces?.cases).toEqual(axle(points).forces?.cases);
  });
});

describe('scales', () => {
  it('with the perches reset leave a perch measured before out, also where it is unsure', () => {
    const weighed = (perches: string) =>
      sized((document) => {
        document.masses = {
          scales: { frontLeft: 170, frontRight: 166, rearLeft: 180, rearRight: 184, perches },
        };
        document.corners.front.sizing.springs = [{ name: 'S', rate: 40, freeLength: 260, solidLength: 90 }];
        document.corners.front.sizing.perch = { setting: { value: 200, plusMinus: 2 } };
      }).axles[0];
    const [reset, untouched] = [
      weighed('reset').figure('staticTravel'),
      weighed('untouched').figure('staticTravel'),
    ];
    expect(Math.abs(reset.value ?? Number.NaN)).toBeLessThan(1e-9);
    expect(Math.abs(untouched.value ?? Number.NaN)).toBeGreaterThan(1);
    expect(reset.contributions).toEqual([]);
    expect(untouched.contributions[0].input).toBe('corners.front.sizing.perch.setting');
  });
});

describe('what is left out', () => {
  it('can be left out, one field of the document after the other, without a word that is not a number', () => {
    const whole = car();
    for (const [keys] of placesOf(whole)) {
      const document = JSON.parse(JSON.stringify(whole));
      const holder = keys.slice(0, -1).reduce((at: Json, key) => at[key], document);
      if (Array.isArray(holder)) continue;
      delete holder[keys[keys.length - 1]];
      let read: ReturnType<typeof readCar>;
      try {
        read = readCar(document);
      } catch {
        // It must be there.
        continue;
      }
      const { axles } = sizeCoilovers(read);
      expect(valueIn(axles[0], 'designLength')).toBeGreaterThan(0);
    }
  });
});

describe('a unit that is hard to build', () => {
  it('has a dead length of less than 100 mm: a check, unless the file gives the smallest', () => {
    const short = (change: (front: Json) => void = () => {}) =>
      sized((document) => {
        // 413.6 mm long at ride height: 340 mm of stroke leave 40 mm.
        document.corners.front.limits.damper = { extendedLength: 720, compressedLength: 380 };
        change(document.corners.front);
      });
    const found = short().checks.find(({ code }) => code === 'deadLengthSmall');
    expect(found).toMatchObject({ severity: 'check', values: { available: 40, stroke: 340 } });
    const given = short((front) => (front.sizing.deadLength = 30));
    expect(given.checks.map(({ code }) => code)).not.toContain('deadLengthSmall');
  });
});

describe('a unit that cannot be put together', () => {
  /** Findings of the front axle with its parts changed, by code. */
  const valuesOf = (change: (front: Json) => void) =>
    Object.fromEntries(
      sized(({ corners: { front } }) => change(front)).conflicts.map(({ code, values }) => [code, values]),
    );
  const wired = { diameter: 12, meanDiameter: 72, totalCoils: 8, ends: 'closedGround' };

  it('has a stroke no shorter than its compressed length, where no dead length is given', () => {
    const found = (compressedLength: number) =>
      valuesOf(({ limits }) => (limits.damper = { extendedLength: 475, compressedLength }));
    expect(found(237).strokeTooLong).toEqual({ stroke: 238, compressed: 237 });
    expect(found(237.5)).toHaveProperty('strokeTooLong');
    expect(found(238)).not.toHaveProperty('strokeTooLong');
  });

  it('has a spring wider than its room, or too near to the body', () => {
    const found = (order: Json) =>
      valuesOf(({ sizing }) => {
        sizing.springs = [{ name: 'w', freeLength: 300, wire: wired }];
        sizing.order = order;
      });
    // 72 - 12 inside, 72 + 12 outside.
    expect(found({ maxSpringOuterDiameter: 83.9 }).springOuterDiameterLarge).toEqual({
      outerDiameter: 84,
      maxSpringOuterDiameter: 83.9,
    });
    expect(found({ maxSpringOuterDiameter: 84 })).not.toHaveProperty('springOuterDiameterLarge');
    expect(found({ bodyDiameter: 55, springClearance: 2.6 }).springClearanceSmall).toEqual({
      clearance: 2.5,
      required: 2.6,
      innerDiameter: 60,
      bodyDiameter: 55,
    });
    expect(found({ bodyDiameter: 55, springClearance: 2.5 })).not.toHaveProperty('springClearanceSmall');
    expect(found({ bodyDiameter: 60, springClearance: 2.5 })).not.toHaveProperty('springClearanceSmall');
    expect(found({ bodyDiameter: 60, springClearance: 2.5 })).toHaveProperty('springInnerDiameterSmall');
  });

  it('has a perch whose thread does not reach the setting for ride height; bought, it is judged wheel by wheel', () => {
    const spring = { name: 's', rate: 40, freeLength: 300, minLength: 100 };
    const perched = (perch: Json, ordered?: Json) => (front: Json) => {
      front.sizing.springs = [spring];
      front.sizing.perch = perch;
      if (ordered !== undefined) front.ordered = ordered;
    };
    const setting = valueIn(
      sized(({ corners }) => perched({ min: 1, max: 900 })(corners.front)).axles[0],
      'perchSetting',
    );
    for (const perch of [
      { min: setting + 0.1, max: setting + 50 },
      { min: setting - 50, max: setting - 0.1 },
    ]) {
      expect(valuesOf(perched(perch)).perchOutOfRange).toEqual({ setting, ...perch });
      const damper = { extendedLength: 475, compressedLength: 350 };
      expect(valuesOf(perched(perch, { damper }))).not.toHaveProperty('perchOutOfRange');
    }
    expect(valuesOf(perched({ min: setting, max: setting }))).not.toHaveProperty('perchOutOfRange');
  });

  it('has a bump stop whose table goes beyond its solid height', () => {
    // 40 - 12 mm.
    const found = (at: number) =>
      valuesOf(({ sizing }) => {
        sizing.bumpStopTable = [
          [10, 500],
          [at, 3000],
        ];
      });
    expect(found(28.5).bumpStopTableBeyondSolid).toEqual({ compression: 28.5, max: 28 });
    expect(found(28)).not.toHaveProperty('bumpStopTableBeyondSolid');
  });
});

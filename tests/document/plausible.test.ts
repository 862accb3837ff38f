/** Each check of plausibility: files with exactly that mistake; and that files without one raise none. */
import * as fc from 'fast-check';
import { describeIssue, type SurveyInput, survey } from 'jounce';
import { describe, expect, it } from 'vitest';
import { readCar, readCorner } from '../../src/corner/read-corner.ts';
import { CHECKS } from '../../src/sentences/checks.ts';
import { car as quietCar } from '../coilover/cars.ts';
import { errorOf, exampleText, type Json, roadsterText } from './support.ts';

const example = (name: string) => JSON.parse(exampleText(name));
const changed = (document: Json, change: (document: Json) => void): Json => {
  change(document);
  return document;
};
const inches = (change: (document: Json) => void) => changed(example('car.json'), change);
const inchFront = (change: (front: Json) => void) => inches(({ corners }) => change(corners.front));
const metric = (change: (document: Json) => void) => quietCar(change);
const metricFront = (change: (front: Json) => void) => metric(({ corners }) => change(corners.front));
const rod = (change: (corner: Json) => void) => changed(example('pushrod-corner.json'), change);
const read = (file: Json) => (file.corners === undefined ? readCorner(file) : readCar(file));
const notesOf = (file: Json) => read(file).notes;

/** Codes that some test has raised: at the end each check has been seen. */
const raised = new Set<string>();
function codesOf(notes: readonly { code: string; path: string }[]) {
  for (const { code } of notes) raised.add(code);
  return notes.map(({ code, path }) => `${code} ${path}`);
}

describe('files without a mistake raise nothing', () => {
  it.each(['car.json', 'front-corner.json', 'pushrod-corner.json', 'strut-corner.json'])('%s', (name) => {
    expect(codesOf(notesOf(example(name)))).toEqual([]);
  });

  it('the survey', () => {
    expect(survey(exampleText('survey.json')).notes).toEqual([]);
  });

  it('a car in mm, and one in inches', () => {
    expect(codesOf(notesOf(metric(() => {})))).toEqual([]);
    expect(codesOf(notesOf(JSON.parse(roadsterText())))).toEqual([]);
  });
});

describe('a file with one mistake raises its check', () => {
  const swap = (holder: Json, one: string, other: string) => {
    [holder[one], holder[other]] = [holder[other], holder[one]];
  };
  const parts = (...masses: number[]) => ({
    parts: masses.map((mass, k) => ({ name: `part ${k}`, mass, frontFraction: 0.5 })),
  });
  const bar = {
    on: 'lowerArm',
    linkMount: [480, 175],
    leverEnd: [470, 330],
    leverLength: 180,
    roundBar: { diameter: 16, length: 800 },
  };
  const scales = (frontLeft: number) => ({
    scales: { frontLeft, frontRight: 371, rearLeft: 405, rearRight: 398, perches: 'reset' },
  });

  it.each<[mistake: string, file: Json, note: string, text: RegExp]>([
    [
      'frequency in cycles a minute',
      inches((c) => (c.corners.front.sizing = { unsprungMass: 62, target: { frequency: 90 } })),
      'frequencyPerMinute corners.front.sizing.target.frequency',
      /got 90 Hz \(usual: 8 Hz at most\); if it is in cycles per minute, write 1\.5$/,
    ],
    [
      'frequency that is none',
      metricFront((c) => (c.sizing.target.frequency = 0.2)),
      'frequencyUnusual corners.front.sizing.target.frequency',
      /got 0\.2 Hz \(usual: 0\.6 to 8 Hz\); check the number$/,
    ],
    [
      'tyre diameter for its radius',
      inchFront((c) => (c.limits.tyre = { overallRadius: 22.8, width: 7.75 })),
      'tyreDiameterForRadius corners.front.limits.tyre.overallRadius',
      /got 22\.8 in, with the wheel centre 10\.88 in above the ground; if it is the diameter, write 11\.4$/,
    ],
    [
      'tyre of more than 20 in of radius',
      metricFront((c) => {
        c.wheel.centre[1] = 390;
        c.upperArm.outer[1] = 450;
        c.limits.tyre = { overallRadius: 520, width: 200 };
      }),
      'sizeUnusual corners.front.limits.tyre.overallRadius',
      /got 520 mm \(usual: 150 to 510 mm\); check the digits and the decimal point$/,
    ],
    [
      'bore in mm in an inch file',
      inchFront(
        (c) => (c.sizing = { unsprungMass: 62, order: { mounts: { mount: { type: 'eye', bore: 12.7 } } } }),
      ),
      'sizeUnusual corners.front.sizing.order.mounts.mount.bore',
      /got 12\.7 in \(usual: 0\.2 to 1\.2 in\); check the digits and the decimal point; was it measured in mm\? It was read in inches$/,
    ],
    [
      'width of an end in inches in a mm file',
      metricFront((c) => (c.sizing.order = { mounts: { chassis: { type: 'eye', width: 1.5 } } })),
      'sizeUnusual corners.front.sizing.order.mounts.chassis.width',
      /got 1\.5 mm \(usual: 8 to 120 mm\); check the digits and the decimal point; was it measured in inches\? It was read in mm$/,
    ],
    [
      'kg in a pound file',
      inches((c) => (c.masses = { estimate: { total: 645, frontFraction: 0.46 } })),
      'totalMassUnusual masses.estimate.total',
      /got 645 lb \(usual: 880 lb to 5500 lb\); check the number; is it in kg\?$/,
    ],
    [
      'pounds in a kg file',
      metric((c) => (c.masses.estimate.total = 3100)),
      'totalMassUnusual masses.estimate.total',
      /got 3100 kg \(usual: 400 kg to 2500 kg\); check the number; is it in lb\?$/,
    ],
    [
      'kg on the scales of a pound file',
      inches(
        (c) =>
          (c.masses = {
            scales: { frontLeft: 150, frontRight: 151, rearLeft: 160, rearRight: 158, perches: 'reset' },
          }),
      ),
      'totalMassUnusual masses.scales',
      /got 619 lb \(usual: 880 lb to 5500 lb\); check the number; is it in kg\?$/,
    ],
    [
      'unsprung mass far from usual',
      metricFront((c) => (c.sizing.unsprungMass = 3)),
      'massUnusual corners.front.sizing.unsprungMass',
      /got 3 kg \(usual: 8 to 60 kg\); check the digits and the decimal point$/,
    ],
    [
      'a drop link that leans',
      metricFront((c) => (c.bar = { ...bar, leverEnd: [300, 275] })),
      'dropLinkLeans corners.front.bar.linkMount',
      /got 60\.95 deg \(usual: 50 deg at most\); check linkMount and leverEnd$/,
    ],
    [
      'a bar stiffer than its diameter',
      metricFront((c) => (c.bar = { ...bar, torsionalStiffness: 21 })),
      'barStifferThanItsDiameter corners.front.bar.torsionalStiffness',
      /got 21 N·m\/deg \(usual: 11\.13 N·m\/deg at most: bends, links, levers and bushes make it softer\); check/,
    ],
    [
      'a bar in inches in a mm file',
      metricFront((c) => (c.bar = { ...bar, leverLength: 7 })),
      'sizeUnusual corners.front.bar.leverLength',
      /got 7 mm \(usual: 40 to 600 mm\); .* was it measured in inches\?/,
    ],
    [
      'a scale reading of 40 beside 371',
      metric((c) => (c.masses = scales(40))),
      'scaleReadingOff masses.scales.frontLeft',
      /got 40 kg \(usual: 398 kg, the middle one of the other three\); check for a digit missing or too many$/,
    ],
    [
      'a scale reading with a digit too many',
      metric((c) => (c.masses = scales(3850))),
      'scaleReadingOff masses.scales.frontLeft',
      /3850 kg/,
    ],
    [
      'a tyre rate of 11',
      metricFront((c) => (c.sizing.tyreRate = 11)),
      'rateUnusual corners.front.sizing.tyreRate',
      /got 11 N\/mm \(usual: 80 to 600 N\/mm\); check the digits and the decimal point; was it measured in kgf\/mm\? It was read in N\/mm$/,
    ],
    [
      'a tyre rate in N/mm in an inch file',
      inchFront((c) => (c.sizing = { unsprungMass: 62, tyreRate: 185 })),
      'rateUnusual corners.front.sizing.tyreRate',
      /got 185 lbf\/in \(usual: 460 to 3400 lbf\/in\); check the digits and the decimal point; was it measured in N\/mm\? It was read in lbf\/in$/,
    ],
    [
      'a spring rate in lbf/in in a mm file',
      metricFront((c) => (c.sizing.target = { springRate: 900 })),
      'rateUnusual corners.front.sizing.target.springRate',
      /got 900 N\/mm \(usual: 4 to 600 N\/mm\); check the digits and the decimal point; was it measured in lbf\/in\? It was read in N\/mm$/,
    ],
    [
      'a wheel rate of nearly nothing',
      metricFront((c) => (c.sizing.target = { wheelRate: 0.5 })),
      'rateUnusual corners.front.sizing.target.wheelRate',
      /got 0\.5 N\/mm \(usual: 2 to 300 N\/mm\); check the digits and the decimal point; was it measured in kgf\/mm\? It was read in N\/mm$/,
    ],
    [
      'an estimate that is too sure',
      inches(
        (c) => (c.masses = { estimate: { total: { value: 1650, plusMinus: 0.1 }, frontFraction: 0.46 } }),
      ),
      'massTooSure masses.estimate.total.plusMinus',
      /got 1650 lb ± 0\.1 lb \(usual: ± 83 lb or more for an estimate\); give scales if the car was weighed; else a wider plusMinus$/,
    ],
    [
      'parts that add to a third of the car',
      metric((c) => (c.masses = parts(120, 80, 30))),
      'partsIncomplete masses.parts',
      /got 230 kg in 3 parts \(usual: 400 kg or more\); check for a missing part$/,
    ],
    [
      'parts in kg in a pound file',
      inches((c) => (c.masses = parts(400, 200, 45))),
      'partsIncomplete masses.parts',
      /got 645 lb in 3 parts \(usual: 880 lb or more\); check for a missing part; is it in kg\?$/,
    ],
    [
      'a mount beyond the ball joint',
      metricFront((c) => (c.coilover.mount = [690, 160])),
      'mountBeyondJoint corners.front.coilover.mount',
      /50\.\d+ mm beyond the ball joint of lowerArm|49\.\d+ mm beyond/,
    ],
    [
      'a mount 8 in from its arm',
      inchFront((c) => (c.coilover.mount = [19, 13.5])),
      'mountOffPart corners.front.coilover.mount',
      /got 7\.987 in away; check the point, and the part that it is on$/,
    ],
    [
      'a mount far from the upright',
      metricFront((c) => {
        c.coilover.on = 'upright';
        c.coilover.mount = [300, 200];
      }),
      'mountOffPart corners.front.coilover.mount',
      /got 326 mm away; check the point, and the part that it is on$/,
    ],
    [
      "a rod's mount beyond the ball joint",
      rod((c) => (c.rod.mount = [690, 150])),
      'mountBeyondJoint rod.mount',
      /beyond the ball joint of lowerArm/,
    ],
    [
      "a rod's mount far from its arm",
      rod((c) => (c.rod.mount = [520, 390])),
      'mountOffPart rod.mount',
      /got 238\.4 mm away; check the point, and the part that it is on$/,
    ],
    [
      'a coilover across the centreline with a rod',
      rod((c) => (c.coilover.chassisMount = [-212, 472])),
      'coiloverAcrossCentreline coilover.chassisMount',
      /got 212 mm across; check its sign$/,
    ],
    [
      'wheelbase in feet',
      inches((c) => (c.masses.wheelbase = 7.7)),
      'sizeUnusual masses.wheelbase',
      /got 7\.7 in \(usual: 55 to 180 in\); check the digits and the decimal point; was it measured in feet\? It was read in inches$/,
    ],
    [
      'wheelbase in metres',
      metric((c) => (c.masses.wheelbase = 2.35)),
      'sizeUnusual masses.wheelbase',
      /got 2\.35 mm \(usual: 1400 to 4500 mm\); check the digits and the decimal point; was it measured in metres\? It was read in mm$/,
    ],
    [
      'height of the centre of gravity in mm in an inch file',
      inches((c) => (c.masses.sprungCentreOfGravityHeight = 445)),
      'sizeUnusual masses.sprungCentreOfGravityHeight',
      /got 445 in \(usual: 5\.9 to 39 in\); check the digits and the decimal point; was it measured in mm\? It was read in inches$/,
    ],
    [
      'height of the centre of gravity in inches in a mm file',
      metric((c) => (c.masses.sprungCentreOfGravityHeight = 17.5)),
      'sizeUnusual masses.sprungCentreOfGravityHeight',
      /got 17\.5 mm \(usual: 150 to 1000 mm\); check the digits and the decimal point; was it measured in inches\? It was read in mm$/,
    ],
    [
      'y and z exchanged in a ball joint',
      inchFront((c) => c.upperArm.outer.reverse()),
      'coordinatesExchanged corners.front.upperArm.outer',
      /got \[14, 22\.75\], higher above the ground than far from the centreline; write \[y, z\]: outboard first, then up$/,
    ],
    [
      'y and z exchanged in a mount',
      metricFront((c) => (c.coilover.mount = [170, 505])),
      'coordinatesExchanged corners.front.coilover.mount',
      /\[170, 505\]/,
    ],
    [
      'y and z exchanged in all points',
      metricFront((c) => {
        for (const point of [
          c.lowerArm.inner,
          c.lowerArm.outer,
          c.upperArm.inner,
          c.upperArm.outer,
          c.wheel.centre,
          c.coilover.mount,
          c.coilover.chassisMount,
        ])
          point.reverse();
      }),
      'allCoordinatesExchanged corners.front',
      /got the wheel centre at \[312, 705\], higher above the ground than far from the centreline; write \[y, z\]: outboard first, then up$/,
    ],
    [
      "camber's sign against the contact patch",
      inchFront((c) => {
        c.wheel.camber = 1.97;
        c.wheel.contactPatch = [27.25, 0];
      }),
      'camberSignReversed corners.front.wheel.camber',
      /got 1\.97 deg, where centre and contact patch give -1\.975; check its sign$/,
    ],
    [
      'a right-hand corner',
      changed(example('front-corner.json'), (c) => {
        for (const point of [
          c.lowerArm.inner,
          c.lowerArm.outer,
          c.upperArm.inner,
          c.upperArm.outer,
          c.wheel.centre,
          c.coilover.mount,
          c.coilover.chassisMount,
        ])
          point[0] *= -1;
      }),
      'rightHandCorner wheel.centre',
      /a right-hand corner/,
    ],
    [
      'a wheel on the other side',
      inchFront((c) => (c.wheel.centre[0] *= -1)),
      'wheelOnOtherSide corners.front.wheel.centre',
      /most points/,
    ],
    [
      'a point on the other side',
      inchFront((c) => (c.lowerArm.inner[0] *= -1)),
      'pointOnOtherSide corners.front.lowerArm.inner',
      /got \[-9\.25, 5\.75\]; check its sign$/,
    ],
    [
      'a point below the ground',
      inchFront((c) => (c.limits.arch[0][1] *= -1)),
      'pointBelowGround corners.front.limits.arch[0]',
      /below the ground/,
    ],
    [
      'arms exchanged',
      inchFront((c) => swap(c, 'lowerArm', 'upperArm')),
      'armsExchanged corners.front.upperArm',
      /got its ball joint 8\.625 in below that of lowerArm; exchange the two arms$/,
    ],
    [
      'outer points exchanged',
      inchFront(({ lowerArm, upperArm }) => {
        [lowerArm.outer, upperArm.outer] = [upperArm.outer, lowerArm.outer];
      }),
      'outerPointsExchanged corners.front.upperArm',
      /the two outer points/,
    ],
    [
      'ends of an arm exchanged',
      inchFront(({ upperArm }) => swap(upperArm, 'inner', 'outer')),
      'armEndsExchanged corners.front.upperArm',
      /inner and outer/,
    ],
    [
      'ends of the coilover exchanged',
      inchFront(({ coilover }) => swap(coilover, 'mount', 'chassisMount')),
      'endsExchanged corners.front.coilover',
      /below its mount/,
    ],
    [
      'a wheel inboard of its ball joints',
      inchFront((c) => (c.wheel.centre[0] = 20)),
      'wheelInboardOfJoints corners.front.wheel.centre',
      /inboard of both ball joints/,
    ],
    ['all sizes in another unit', inches((c) => delete c.units), 'unitsWrong units', /measured in inches/],
    [
      'much camber',
      inchFront((c) => (c.wheel.camber = -10)),
      'camberUnusual corners.front.wheel.camber',
      /-10 deg/,
    ],
    [
      'camber against the contact patch',
      inchFront((c) => (c.wheel.contactPatch = [26.5, 0])),
      'camberAgainstContactPatch corners.front.wheel.contactPatch',
      /got -0\.75 deg, where centre and contact patch give 1\.975; measure again, or leave one out; until then the load acts at the contact patch, and the camber is shown as given$/,
    ],
    [
      'a contact patch above the ground',
      inchFront((c) => {
        delete c.wheel.camber;
        c.wheel.contactPatch = [27.01, 1];
        c.limits.tyre = '205/60R15';
      }),
      'contactPatchOffGround corners.front.wheel.contactPatch',
      /got z = 1 in \(usual: 0: heights are measured from the ground\); check the height$/,
    ],
    [
      'a point copied',
      inchFront((c) => (c.upperArm.inner = [9.25, 5.75])),
      'pointCopied corners.front.upperArm.inner',
      /copied and not changed/,
    ],
    [
      'a coilover on the pivot of its arm',
      inchFront((c) => (c.coilover.mount = [9.25, 5.75])),
      'mountOnPivot corners.front.coilover.mount',
      /the pivot of lowerArm/,
    ],
    [
      'a tyre no larger than the wheel centre is high',
      inchFront((c) => (c.limits.tyre = '155/50R13')),
      'overallRadiusNotAboveLoaded corners.front.limits.tyre',
      /got 9\.551 in, with the wheel centre 10\.88 in above the ground; give the radius without load; the height of the wheel centre is the loaded radius, measured with the wheel on the ground under the weight of the car$/,
    ],
    [
      'a car on one corner',
      inchFront((c) => (c.sprungMass = 2200)),
      'sprungMassUnusual corners.front.sprungMass',
      /got 2200 lb \(usual: 66 to 1800 lb\); check that it is the mass on one corner, in lb$/,
    ],
  ])('%s', (_, file, note, text) => {
    const { notes, units } = read(file);
    expect(codesOf(notes)).toEqual([note]);
    expect(describeIssue(notes[0], units)).toMatch(text);
  });

  it('beside the other checks of a corner, with all of its coordinates in a unit that has no size of a car', () => {
    const file = JSON.parse(
      JSON.stringify(example('front-corner.json'), (_, value) =>
        typeof value === 'number' ? value / 1000 : value,
      ),
    );
    expect(codesOf(notesOf(file))).toEqual(['unitsWrong units']);
  });
});

describe('a note as data', () => {
  it('has code, severity, place and values in the units of the library', () => {
    const [note] = notesOf(inches((c) => (c.masses.wheelbase = 7.7)));
    expect(note).toMatchObject({ code: 'sizeUnusual', severity: 'check', path: 'masses.wheelbase' });
    expect(note.values.value).toBeCloseTo(7.7 * 25.4, 9);
    expect(note.values).toMatchObject({ what: 'wheelbase', least: 1400, most: 4500, unit: 'feet' });
    expect(JSON.parse(JSON.stringify(note))).toEqual(note);
  });

  it('is an error where no car can be so', () => {
    const severities = (file: Json) => notesOf(file).map(({ severity }) => severity);
    expect(severities(metricFront((c) => (c.sizing.target.frequency = 90)))).toEqual(['error']);
    expect(severities(inches((c) => delete c.units))).toEqual(['error']);
    expect(severities(metricFront((c) => (c.sizing.tyreRate = 11)))).toEqual(['check']);
  });

  it('says the same of a file in inches as of one in mm', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), (eighths) => {
        const height = eighths / 8;
        const inInches = notesOf(
          inches(
            (c) =>
              (c.masses = {
                estimate: { total: 1400, frontFraction: 0.5 },
                sprungCentreOfGravityHeight: height,
              }),
          ),
        );
        const inMm = notesOf(
          metric(
            (c) =>
              (c.masses = {
                estimate: { total: 700, frontFraction: 0.5 },
                sprungCentreOfGravityHeight: height * 25.4,
              }),
          ),
        );
        expect(codesOf(inInches)).toEqual(codesOf(inMm));
      }),
    );
  });
});

describe('percent for a fraction', () => {
  const firstOf = (file: Json) => {
    const [{ path, advice }, ...more] = errorOf(() => readCar(file)).issues;
    expect(more).toEqual([]);
    return [path, advice];
  };
  it.each<[path: string, write: number, file: Json]>([
    ['masses.estimate.frontFraction', 48, metric((c) => (c.masses.estimate.frontFraction = 48))],
    ['masses.estimate.leftFraction', 51.5, metric((c) => (c.masses.estimate.leftFraction = 51.5))],
    [
      'masses.added[0].frontFraction',
      30,
      metric((c) => (c.masses.added = [{ name: 'fuel', mass: 30, frontFraction: 30 }])),
    ],
    ['downforce.frontFraction', 40, metric((c) => (c.downforce.frontFraction = 40))],
    ['corners.front.sizing.damping.ratio', 30, metricFront((c) => (c.sizing.damping.ratio = 30))],
    [
      'corners.front.sizing.damping.compressionFraction',
      40,
      metricFront((c) => (c.sizing.damping.compressionFraction = 40)),
    ],
    [
      'corners.front.sizing.damping.highSpeedFraction',
      35,
      metricFront((c) => (c.sizing.damping.highSpeedFraction = 35)),
    ],
    [
      'corners.front.sizing.order.rateTolerance',
      3,
      metricFront((c) => (c.sizing.order = { rateTolerance: 3 })),
    ],
  ])('%s is refused, with what to write', (path, percent, file) => {
    expect(firstOf(file)).toEqual([path, `if ${percent} % is meant, write ${percent / 100}`]);
  });

  it('is refused also where it is uncertain', () => {
    const file = metric((c) => (c.masses.estimate.frontFraction = { value: 46, plusMinus: 0.02 }));
    expect(firstOf(file)).toEqual(['masses.estimate.frontFraction.value', 'if 46 % is meant, write 0.46']);
  });

  it('that is missing is told as missing', () => {
    const { issues } = errorOf(() => readCar(metric((c) => delete c.masses.estimate.frontFraction)));
    expect(issues.map(({ path, problem }) => [path, problem])).toEqual([
      ['masses.estimate.frontFraction', 'missing'],
    ]);
  });

  it('is no more than the usual advice for a share below 0, one beyond 100 %, or a speed', () => {
    const PLAIN = 'check the number, its sign and its unit';
    for (const frontFraction of [-0.1, 148]) {
      expect(firstOf(metric((c) => (c.masses.estimate.frontFraction = frontFraction)))).toEqual([
        'masses.estimate.frontFraction',
        PLAIN,
      ]);
    }
    expect(firstOf(metric((c) => (c.travelCases.lateralAcceleration = 40)))).toEqual([
      'travelCases.lateralAcceleration',
      PLAIN,
    ]);
    expect(firstOf(metricFront((c) => (c.wheel.camber = 50)))[1]).toBe(PLAIN);
  });
});

describe('a survey with one mistake raises its check', () => {
  const readings = (change: (document: Json) => void): SurveyInput => changed(example('survey.json'), change);
  const inUnit = (factor: number) => (c: Json) => {
    for (const point of Object.values<Json>(c.points)) {
      if (point.estimate !== undefined)
        point.estimate = point.estimate.map((value: number) => value * factor);
      if (point.x !== undefined) point.x *= factor;
    }
    for (const kind of ['distances', 'heights', 'laterals'])
      for (const reading of c[kind]) {
        reading.value *= factor;
        if (reading.plusMinus !== undefined) reading.plusMinus *= factor;
      }
  };

  it.each<[mistake: string, input: SurveyInput, note: string, text: RegExp]>([
    [
      'all in inches, read as mm',
      readings(inUnit(1 / 25.4)),
      'surveyUnitsWrong units',
      /got 28\.74 mm, the largest; if it was measured in inches, write "units": "imperial"$/,
    ],
    [
      'all in mm, read as inches',
      readings((c) => (c.units = 'imperial')),
      'surveyUnitsWrong units',
      /got 730 in, the largest; if it was measured in mm, write "units": "metric"$/,
    ],
    [
      'one distance in inches',
      readings((c) => (c.distances[0].value = 16.16)),
      'readingInOtherUnit distances[0]',
      /got 16\.16 mm \(usual: 397 mm between the first estimates\); if it was read in inches, convert it$/,
    ],
    [
      'one height in cm',
      readings((c) => (c.heights[8].value = 49.15)),
      'readingInOtherUnit heights[8]',
      /got 49\.15 mm \(usual: 490 mm between the first estimates\); if it was read in cm, convert it$/,
    ],
    [
      'a lean read from horizontal',
      readings((c) => (c.inclinations[0].value = 90 - 25.7)),
      'angleFromOtherAxis inclinations[0]',
      /got 64\.3 deg from vertical \(usual: 28\.9 deg between the first estimates\); if it was read from horizontal, write 25\.7 with its sign$/,
    ],
    [
      'a slope read from vertical',
      readings((c) => (c.slopes[0].value = 86.5)),
      'angleFromOtherAxis slopes[0]',
      /got 86\.5 deg from horizontal \(usual: 4\.76 deg between the first estimates\); if it was read from vertical, write 3\.5 with its sign$/,
    ],
  ])('%s', (_, input, note, text) => {
    const { notes, units } = survey(input);
    expect(codesOf(notes)).toEqual([note]);
    expect(describeIssue(notes[0], units)).toMatch(text);
  });
});

describe('the table', () => {
  it('has had each of its checks raised by a file above', () => {
    expect(Object.keys(CHECKS).filter((code) => !raised.has(code))).toEqual([]);
  });
});

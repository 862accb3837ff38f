import { type Diagnostic, fault } from '../diagnostic.ts';
import { carNotes } from '../document/checks/car-checks.ts';
import { cornerNotes } from '../document/checks/corner-checks.ts';
import { UNNAMED_KIND } from '../document/corner-kind.ts';
import { isCorner, kindOf } from '../document/file-schema.ts';
import type {
  AntiRollBarInput,
  CarFile,
  CarSizingFile,
  CornerSizingFile,
  LimitOptions,
  OrderedFile,
  RollSpringInput,
  ThirdSpringInput,
} from '../document/inputs.ts';
import { loadNameFindings, orderedFindings } from '../document/ordered-findings.ts';
import { type Finding, type Place, pathText, valueAt } from '../document/parse.ts';
import { cornerFindings, readDocument } from '../document/read-document.ts';
import { carSizingShape } from '../document/sizing-schema.ts';
import { certain } from '../document/uncertain.ts';
import { pointsOf } from '../document/written.ts';
import { refusal } from '../errors/file.ts';
import { deepFreeze } from '../linkage/freeze.ts';
import type { Units } from '../units.ts';
import { AXLES } from './axles.ts';
import { type DrawnCorner, drawnCorner } from './corner.ts';
import { correlated, correlationFindings } from './correlations.ts';
import { FILES } from './file-schemas.ts';
import { KINDS, type Kind } from './kinds.ts';
import { tyreFindings, tyreOf } from './tyre.ts';

/** A corner from a document, with what ends its travel and what it carries. */
export interface DocumentCorner {
  readonly corner: DrawnCorner;
  /** As `limits` takes it, mm and degrees; mirrored as the corner was. Empty where the document has none. */
  readonly limits: Omit<LimitOptions, 'notes'>;
  /** Sprung mass of this corner, kg. */
  readonly sprungMass?: number;
  /** The anti-roll bar of its axle, as `axle` takes it, mm and N·m/deg; mirrored as the corner was. */
  readonly bar?: AntiRollBarInput;
  /** The springs between both wheels of its axle, as `axle` takes them, mm, N and N/mm; mirrored as the corner was. */
  readonly thirdSpring?: ThirdSpringInput;
  readonly rollSpring?: RollSpringInput;
  /** What its coilover is sized by, in the library's units; numbers may be `{ value, plusMinus }`. */
  readonly sizing?: CornerSizingFile;
  /** What was bought for it, in the library's units: it replaces the same parts of limits and sizing. */
  readonly ordered?: OrderedFile;
}

/** What `readCorner` returns. */
export interface CornerDocument extends DocumentCorner {
  readonly name?: string;
  /** What the document is written in; what comes out is metric either way. */
  readonly units: Units;
  /** Unusual values and remarks, in the order of the document. */
  readonly notes: readonly Diagnostic[];
}

/** What `readCar` returns. */
export interface CarDocument {
  readonly name?: string;
  /** What the document is written in; what comes out is metric either way. */
  readonly units: Units;
  readonly corners: { readonly front: DocumentCorner; readonly rear?: DocumentCorner };
  /** What sizes the coilovers of both axles: use, masses, downforce and so on, as far as the document has them. */
  readonly sizing: CarSizingFile;
  /** Unusual values and remarks, in the order of the document. */
  readonly notes: readonly Diagnostic[];
}

/**
 * A corner from a document: a JSON text, or the value of one. Its fields are those of `doubleWishbone`, or, where `kind`
 * says so, of `pushrod` or `strut`, with `units` (metric or imperial), `limits`, `sprungMass`, `name` and `notes`;
 * `cornerJsonSchema` describes them, and `CornerFile` is their type. Converted to mm and kg.
 *
 * @throws InputError with every issue, each by its path; for a text that is not JSON, with line and column.
 */
export function readCorner(json: unknown): CornerDocument {
  const { written, metric, units } = readDocument(
    (value) => FILES.corner[kindAt(value, [])],
    json,
    'corner file',
    (value, units) => {
      if (valueAt(value, ['corners']) !== undefined && !isCorner(KINDS, value)) {
        throw refusal('corner file', [fault('carInPlaceOfCorner', 'corners')], units);
      }
      return cornerChecks(value, [], units);
    },
  );
  const { name } = written;
  return Object.freeze({
    ...(name === undefined ? {} : { name }),
    units,
    ...cornerOf(metric),
    notes: Object.freeze(notesOf(metric, [], units)),
  });
}

/**
 * The corners of a car from a document: a JSON text, or the value of one. `carJsonSchema` describes its fields, and
 * `CarFile` is its type. Converted to mm and kg.
 *
 * @throws InputError with every issue, each by its path; for a text that is not JSON, with line and column.
 */
export function readCar(json: unknown): CarDocument {
  const { written, metric, units } = readDocument(
    (value) => FILES.car(kindAt(value, FRONT), kindAt(value, REAR)),
    json,
    'car file',
    (value, units) => {
      if (isCorner(KINDS, value) && valueAt(value, ['corners']) === undefined) {
        throw refusal('car file', [fault('cornerInPlaceOfCar', '')], units);
      }
      return [
        ...loadNameFindings(valueAt(value, ['masses'])),
        ...[FRONT, REAR].flatMap((at) => cornerChecks(value, at, units)),
      ];
    },
  );
  const { name } = written;
  const ofCorners = AXLES.flatMap((axle) => {
    const corner = metric.corners[axle];
    return corner === undefined ? [] : notesOf(corner, ['corners', axle], units);
  });
  // In a wrong unit nothing fits.
  const areUnitsWrong = ofCorners.some(({ path }) => path === 'units');
  const notes = areUnitsWrong ? ofCorners : [...carNotes(metric, units), ...ofCorners];
  const { front, rear } = metric.corners;
  const sizing = Object.keys(carSizingShape).map((key) => [key, metric[key as keyof CarSizingFile]] as const);
  return Object.freeze({
    ...(name === undefined ? {} : { name }),
    units,
    corners: Object.freeze({
      front: Object.freeze(cornerOf(front)),
      ...(rear === undefined ? {} : { rear: Object.freeze(cornerOf(rear)) }),
    }),
    sizing: deepFreeze(Object.fromEntries(sizing.filter(([, given]) => given !== undefined))),
    // What is asked of the file as a whole is asked once.
    notes: Object.freeze(
      notes.filter(
        ({ path }, k) => path !== 'units' || notes.findIndex((note) => note.path === 'units') === k,
      ),
    ),
  });
}

const [FRONT, REAR] = AXLES.map((axle): Place => ['corners', axle]);

function kindAt(value: unknown, at: Place): Kind {
  return kindOf(KINDS, valueAt(value, at));
}

/** A corner as a car has it; a file with one corner is one too. */
type Written = CarFile['corners']['front'];

/** Checks of the corner at a place: those of its geometry, limits, correlations and what was bought, and whether its tyre's size can be read. */
function cornerChecks(value: unknown, at: Place, units: Units): Finding[] {
  const bought: Place = [...at, 'ordered'];
  const ordered = orderedFindings(valueAt(value, bought), units);
  return [
    ...cornerFindings(KINDS[kindAt(value, at)].input, value, at, units),
    ...tyreFindings(value, [...at, 'limits', 'tyre']),
    ...correlationFindings(value, at),
    ...ordered.map((finding) => ({ ...finding, at: [...bought, ...finding.at] })),
  ];
}

function cornerOf(given: Written): DocumentCorner {
  const { limits = {}, sprungMass, bar, thirdSpring, rollSpring, sizing, ordered } = given;
  const corner = surveyed(drawnCorner(given), given);
  const { notes: _, ...rest } = limits;
  return {
    corner,
    limits: deepFreeze(corner.mirrored ? mirrored(rest) : rest),
    ...(sprungMass === undefined ? {} : { sprungMass }),
    ...(bar === undefined ? {} : { bar: deepFreeze(corner.mirrored ? turnedBar(bar) : bar) }),
    ...(thirdSpring === undefined
      ? {}
      : { thirdSpring: deepFreeze(corner.mirrored ? turnedSpring(thirdSpring) : thirdSpring) }),
    ...(rollSpring === undefined
      ? {}
      : { rollSpring: deepFreeze(corner.mirrored ? turnedSpring(rollSpring) : rollSpring) }),
    ...(sizing === undefined ? {} : { sizing: deepFreeze(sizing) }),
    ...(ordered === undefined ? {} : { ordered: deepFreeze(ordered) }),
  };
}

/** A corner with what its file says of the survey of its points. */
function surveyed(corner: DrawnCorner, { correlations, surveyChecks = [] }: Written): DrawnCorner {
  const covariance = correlations === undefined ? undefined : correlated(corner, correlations);
  const checks = surveyChecks.map(
    ({ code, ...values }, k): Diagnostic => ({
      code,
      severity: 'check',
      path: `surveyChecks[${k}]`,
      values,
    }),
  );
  return deepFreeze({
    ...corner,
    ...(covariance === undefined ? {} : { plusMinus: covariance }),
    ...(checks.length === 0 ? {} : { checks }),
  });
}

type Limits = DocumentCorner['limits'];
type BallJoint = NonNullable<NonNullable<Limits['ballJoints']>[string]>;

/** Limits with all that has a side turned to the other. */
function mirrored(limits: Limits): Limits {
  const { arch, chassisLowPoints, ballJoints } = limits;
  return {
    ...limits,
    ...(arch === undefined ? {} : { arch: arch.map(turned) }),
    ...(chassisLowPoints === undefined ? {} : { chassisLowPoints: chassisLowPoints.map(turned) }),
    ...(ballJoints === undefined
      ? {}
      : {
          ballJoints: Object.fromEntries(
            Object.entries(ballJoints).map(([name, joint]) => [name, joint && turnedJoint(joint)]),
          ),
        }),
  };
}

function turned([y, z]: readonly [number, number]): readonly [number, number] {
  return [0 - y, z];
}

function turnedBar({ linkMount, leverEnd, axis, right, ...bar }: AntiRollBarInput): AntiRollBarInput {
  return {
    ...bar,
    linkMount: turned(linkMount),
    leverEnd: turned(leverEnd),
    ...(axis === undefined ? {} : { axis: turned(axis) }),
    ...(right === undefined
      ? {}
      : { right: { ...right, linkMount: turned(right.linkMount), leverEnd: turned(right.leverEnd) } }),
  };
}

/** A spring between both wheels; its right end has y outboard as its corner has. */
function turnedSpring<Spring extends ThirdSpringInput | RollSpringInput>(spring: Spring): Spring {
  const { mount, right } = spring;
  return {
    ...spring,
    mount: turned(mount),
    ...(right === undefined ? {} : { right: { ...right, mount: turned(right.mount) } }),
  };
}

function turnedJoint({ housingAxis, studAxis, ...joint }: BallJoint): BallJoint {
  return {
    ...joint,
    ...(housingAxis === undefined ? {} : { housingAxis: turned(housingAxis) }),
    ...(studAxis === undefined ? {} : { studAxis: turned(studAxis) }),
  };
}

/** What to look at again in a corner that was read. */
function notesOf(metric: Written, at: Place, units: Units): Diagnostic[] {
  const corner = certain(metric);
  const tyre = corner.limits?.tyre;
  const path = typeof tyre === 'string' ? 'limits.tyre' : 'limits.tyre.overallRadius';
  const kind = KINDS[corner.kind ?? UNNAMED_KIND].input;
  const subject = {
    kind,
    corner,
    points: pointsOf(kind, corner),
    units,
    ...(tyre === undefined ? {} : { tyre: { path, overallRadius: tyreOf(tyre).overallRadius } }),
  };
  return cornerNotes(subject, pathText(at));
}

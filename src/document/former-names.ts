// Names that fields had before 1.0. An input with such a name is refused with the name of today; meanwhile it is judged as if it had that,
// so that all else is reported at once.

import type * as z from 'zod';
import { show } from '../diagnostic.ts';
import { type Finding, found, type Place } from './finding.ts';
import { bare, namesOf, schemaAt } from './schema-walk.ts';

/** A name before and now; `within` are the fields that hold it, `*` a point of a survey, the empty name the file itself. */
export interface FormerName {
  readonly within: readonly string[];
  readonly was: string;
  readonly is: string;
}

const renamed = (within: string, was: string, is: string): FormerName => ({
  within: within.split(' '),
  was,
  is,
});

/** Fields; a field within a renamed one is looked for under the new name of that. */
export const FORMER_NAMES: readonly FormerName[] = [
  renamed('', 'openPoints', 'openQuestions'),
  renamed('masses', 'guess', 'estimate'),
  renamed('masses', 'centreHeight', 'sprungCentreOfGravityHeight'),
  renamed('estimate parts added loads downforce', 'frontShare', 'frontFraction'),
  renamed('estimate parts added loads', 'leftShare', 'leftFraction'),
  renamed('downforce', 'speeds', 'speedsToCheck'),
  renamed('travelCases', 'lateral', 'lateralAcceleration'),
  renamed('travelCases', 'braking', 'deceleration'),
  renamed('coilover shock', 'offset', 'foreAftOffset'),
  renamed('strut', 'top', 'topMount'),
  renamed('strut', 'lower', 'lowerMount'),
  renamed('damper', 'open', 'extendedLength'),
  renamed('damper', 'closed', 'compressedLength'),
  renamed('limits', 'springAtLeast', 'springMinLengthAt'),
  renamed('limits', 'ground', 'chassisLowPoints'),
  renamed('limits', 'ends', 'bearings'),
  renamed('mount chassis otherEnd', 'bolt', 'boltAxis'),
  renamed('mount chassis otherEnd', 'maxTilt', 'maxMisalignment'),
  renamed('target', 'onTyre', 'withTyre'),
  renamed('sizing', 'antiRollBar', 'antiRollBarStiffness'),
  renamed('gas', 'rodDiameter', 'shaftDiameter'),
  renamed('springs helper', 'free', 'freeLength'),
  renamed('springs', 'solid', 'solidLength'),
  renamed('springs', 'least', 'minLength'),
  renamed('helper', 'least', 'solidLength'),
  renamed('helper', 'minLength', 'solidLength'),
  renamed('springs', 'coil', 'wire'),
  renamed('wire', 'wire', 'diameter'),
  renamed('wire', 'coils', 'totalCoils'),
  renamed('helper', 'separator', 'separatorHeight'),
  renamed('sizing', 'bumpStopForces', 'bumpStopTable'),
  renamed('perch', 'eyesToSeats', 'setting'),
  renamed('perch', 'least', 'min'),
  renamed('perch', 'most', 'max'),
  renamed('perch', 'pitch', 'threadPitch'),
  renamed('damping', 'bumpShare', 'compressionFraction'),
  renamed('damping', 'knee', 'kneeSpeed'),
  renamed('damping', 'kneeShare', 'highSpeedFraction'),
  renamed('damping', 'speeds', 'shaftSpeeds'),
  renamed('sizing', 'unit', 'unitMass'),
  renamed('unitMass', 'mass', 'new'),
  renamed('unitMass', 'oldMass', 'replaced'),
  renamed('order', 'handing', 'handed'),
  renamed('order', 'body', 'bodyEnd'),
  renamed('order', 'ends', 'mounts'),
  renamed('order', 'springSpace', 'maxSpringOuterDiameter'),
  renamed('*', 'guess', 'estimate'),
  renamed('*', 'at', 'known'),
  renamed('*', 'axis', 'pivotAxis'),
  renamed('distances heights laterals inclinations slopes', 'is', 'value'),
  renamed('', 'leans', 'inclinations'),
  renamed('', 'inLine', 'collinear'),
];

/** Choices, by the fields that they were written in. */
export const FORMER_CHOICES: readonly FormerName[] = [
  renamed('boltAxis', 'foreAft', 'longitudinal'),
  renamed('state', 'open', 'extended'),
  renamed('state', 'closed', 'compressed'),
];

/** An input under the names of today. */
export interface Renamed {
  readonly value: unknown;
  /** A finding for each former name. */
  readonly findings: readonly Finding[];
  /** A place of `value` as the input has it. */
  readonly writtenAt: (at: Place) => Place;
}

/** The input with former names replaced as far as the schema knows the new ones; the input itself where it has none. */
export function withoutFormerNames(schema: z.core.$ZodType, input: unknown): Renamed {
  const findings: Finding[] = [];
  const written = new Map<string, PropertyKey>();

  const walk = (here: z.core.$ZodTypes | undefined, value: unknown, at: Place, from: Place): unknown => {
    if (here === undefined) return value;
    if (typeof value === 'string') return choice(here, value, at, from);
    if (Array.isArray(value)) return list(here, value, at, from);
    return typeof value === 'object' && value !== null ? fields(here, value, at, from) : value;
  };

  const choice = (here: z.core.$ZodTypes, value: string, at: Place, from: Place): string => {
    const choices = here._zod.def.type === 'enum' ? Object.values(here._zod.def.entries) : [];
    const former = choices.includes(value)
      ? undefined
      : FORMER_CHOICES.find(
          ({ was, is, within }) => was === value && choices.includes(is) && isWithin(within, at),
        );
    if (former === undefined) return value;
    const names = { was: JSON.stringify(former.was), is: JSON.stringify(former.is) };
    findings.push(found(from, 'renamed', { ...names, got: show(value), isThere: false }));
    return former.is;
  };

  const list = (here: z.core.$ZodTypes, value: readonly unknown[], at: Place, from: Place): unknown => {
    // Not by `map`, which would ask a list that has a field `constructor` for its kind.
    const items = Array.from(value, (item, k) => walk(schemaAt(here, [k]), item, [...at, k], [...from, k]));
    return items.some((item, k) => item !== value[k]) ? items : value;
  };

  const fields = (here: z.core.$ZodTypes, value: object, at: Place, from: Place): unknown => {
    const { type } = here._zod.def;
    if (type !== 'object' && type !== 'union' && type !== 'record') return value;
    const known = namesOf(here);
    const before = Object.entries(value);
    const entries = before.flatMap(([name, inner]): [string, unknown][] => {
      const former = known.includes(name) ? undefined : formerName(name, known, at);
      if (former === undefined)
        return [[name, walk(schemaAt(here, [name]), inner, [...at, name], [...from, name])]];
      const { is } = former;
      const isThere = Object.hasOwn(value, is);
      findings.push(found([...from, name], 'renamed', { was: name, is, got: show(inner), isThere }));
      if (isThere) return [];
      written.set(keyOf([...at, is]), name);
      return [[is, walk(schemaAt(here, [is]), inner, [...at, is], [...from, name])]];
    });
    const isSame =
      entries.length === before.length &&
      entries.every(([name, inner], k) => name === before[k][0] && inner === before[k][1]);
    return isSame ? value : Object.fromEntries(entries);
  };

  const value = walk(bare(schema), input, [], []);
  return {
    value,
    findings,
    writtenAt: (at) => at.map((key, k) => written.get(keyOf(at.slice(0, k + 1))) ?? key),
  };
}

function formerName(name: string, known: readonly string[], at: Place): FormerName | undefined {
  return FORMER_NAMES.find(
    ({ was, is, within }) => was === name && known.includes(is) && isWithin(within, at),
  );
}

/** Whether one of some fields holds what stands at a place. Inputs of functions begin anywhere in a file, so that theirs may be any. */
function isWithin(within: readonly string[], at: Place): boolean {
  const names = at.filter((key) => typeof key === 'string');
  const holder = names.at(-1);
  return holder === undefined || within.includes(holder) || (within.includes('*') && at.at(-2) === 'points');
}

function keyOf(at: Place): string {
  return JSON.stringify(at);
}

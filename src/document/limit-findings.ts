import { show } from '../errors.ts';
import { limitOptionsSchema } from './limits-schema.ts';
import { type Finding, valueAt } from './parse.ts';
import { meantName } from './spelling.ts';

/**
 * What no single value of the limits shows: lengths that contradict each other, what lacks what it counts from. Where a coilover is
 * `sized` its damper may follow from that.
 */
export function limitFindings(limits: unknown, unit: string, sized = false): Finding[] {
  return [...contradictions(limits, unit), ...lacking(limits, sized), ...withoutDirection(limits)];
}

/** Pairs of lengths of which the first is the smaller: where, what each is called, why. */
const SMALLER: readonly [holder: string, small: string, large: string, advice: string][] = [
  ['damper', 'compressedLength', 'extendedLength', 'are the two lengths exchanged?'],
  [
    'bumpStop',
    'solidHeight',
    'height',
    'height is that with no load on it, solidHeight what is left when it gives no more: are the two exchanged?',
  ],
  ['donor', 'stroke', 'length', 'length is that between the end eyes, stroke how far the unit moves'],
];

function contradictions(limits: unknown, unit: string): Finding[] {
  const less = (at: string[], large: number | undefined, than: string, advice: string): Finding[] => {
    const small = sizeAt(limits, at);
    if (small === undefined || large === undefined || small < large) return [];
    return [
      {
        at,
        problem: `not less than ${than}`,
        got: `${small} ${unit}`,
        allowed: `less than ${Number(large.toPrecision(12))} ${unit}`,
        advice,
      },
    ];
  };
  const findings = SMALLER.flatMap(([holder, small, large, advice]) =>
    less([holder, small], sizeAt(limits, [holder, large]), `${holder}.${large}`, advice),
  );
  const extended = sizeAt(limits, ['damper', 'extendedLength']) ?? 0;
  const compressed = sizeAt(limits, ['damper', 'compressedLength']) ?? 0;
  const solid = ['bumpStop', 'solidHeight'];
  if (compressed < extended && compressed > 0 && !findings.some(({ at }) => at[1] === solid[1])) {
    findings.push(
      ...less(
        solid,
        extended - compressed,
        "the damper's stroke",
        'a stop as high as the stroke leaves nothing of it: check it and the lengths of the damper',
      ),
    );
  }
  return findings;
}

/** A number of 0 or more; what is less is told as such. */
function sizeAt(value: unknown, at: string[]): number | undefined {
  const number = valueAt(value, at);
  return typeof number === 'number' && Number.isFinite(number) && number >= 0 ? number : undefined;
}

function lacking(limits: unknown, sized: boolean): Finding[] {
  const has = (name: string) => {
    const value = valueAt(limits, [name]);
    return value !== undefined && !(Array.isArray(value) && value.length === 0);
  };
  const findings: Finding[] = [];
  // A name that is told as unknown may be the one that is missed.
  if (Object.keys(limits ?? {}).some((name) => !(name in limitOptionsSchema.shape))) return [];
  if (has('bumpStop') && !has('damper') && !sized) {
    findings.push({
      at: ['bumpStop'],
      problem: 'a bump stop without a damper',
      advice:
        'give damper: { extendedLength, compressedLength } too: its heights count from the compressed length',
    });
  }
  if (has('arch') && !has('tyre')) {
    findings.push({
      at: ['arch'],
      problem: 'an arch without a tyre',
      advice: 'give tyre: { overallRadius, width }, or its marking as "205/55R16"',
    });
  }
  return findings;
}

function withoutDirection(limits: unknown): Finding[] {
  return Object.keys(valueAt(limits, ['ballJoints']) ?? {}).flatMap((joint) =>
    ['housingAxis', 'studAxis'].flatMap((axis): Finding[] => {
      const at = ['ballJoints', joint, axis];
      const direction = valueAt(limits, at);
      if (!Array.isArray(direction) || direction[0] !== 0 || direction[1] !== 0) return [];
      return [
        {
          at,
          problem: 'no direction',
          got: show(direction),
          allowed: 'a direction [y, z] that is not nothing: [0, 1] is up',
        },
      ];
    }),
  );
}

/** An end named that the coilover has not: its second one is fixed on the chassis, or moves. */
export function endFindings(ends: unknown, isFixed: boolean): Finding[] {
  const [wrong, right] = isFixed ? ['otherEnd', 'chassis'] : ['chassis', 'otherEnd'];
  if (valueAt(ends, [wrong]) === undefined) return [];
  return [
    {
      at: [wrong],
      problem: isFixed ? 'an end that does not move in this corner' : 'an end that moves in this corner',
      advice: `name it ${right}`,
    },
  ];
}

/** What is wrong with ball joints in a corner; `holders` are the parts that can hold the housing, by the joints that it has. */
export function jointFindings(
  ballJoints: unknown,
  holders: Readonly<Record<string, readonly string[]>>,
): Finding[] {
  if (typeof ballJoints !== 'object' || ballJoints === null) return [];
  const names = Object.keys(holders);
  return Object.entries(ballJoints).flatMap(([name, joint]): Finding[] => {
    if (joint === undefined) return [];
    if (!Object.hasOwn(holders, name)) {
      return [
        { at: [name], problem: 'unknown joint', allowed: names.join(', '), ...suggestion(name, names) },
      ];
    }
    const housing = valueAt(joint, ['housing']);
    if (typeof housing !== 'string' || holders[name].includes(housing)) return [];
    return [
      {
        at: [name, 'housing'],
        problem: 'not a part of this joint',
        got: show(housing),
        allowed: holders[name].join(', '),
        ...suggestion(housing, holders[name]),
      },
    ];
  });
}

function suggestion(written: string, names: readonly string[]): { advice?: string } {
  const meant = meantName(written, names);
  return meant === undefined ? {} : { advice: `did you mean ${meant}?` };
}

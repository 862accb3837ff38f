import { show } from '../diagnostic.ts';
import { meantName } from '../spelling.ts';
import { toMetric, type Units } from '../units.ts';
import { limitOptionsSchema } from './limits-schema.ts';
import { type Finding, found, valueAt } from './parse.ts';

/**
 * What no single value of the limits shows: lengths that contradict each other, what lacks what it counts from. Where a coilover is
 * `sized` its damper may follow from that.
 */
export function limitFindings(limits: unknown, units: Units, sized = false): Finding[] {
  return [...contradictions(limits, units), ...lacking(limits, sized), ...withoutDirection(limits)];
}

/** Pairs of lengths of which the first is the smaller: the code where it is not, where they stand, what each is called. */
const SMALLER: readonly [code: string, holder: string, small: string, large: string][] = [
  ['damperLengthsExchanged', 'damper', 'compressedLength', 'extendedLength'],
  ['bumpStopHeightsExchanged', 'bumpStop', 'solidHeight', 'height'],
  ['strokeNotLessThanLength', 'donor', 'stroke', 'length'],
];

function contradictions(limits: unknown, units: Units): Finding[] {
  const less = (code: string, at: string[], large: number | undefined, values: Values): Finding[] => {
    const small = sizeAt(limits, at);
    if (small === undefined || large === undefined || small < large) return [];
    return [found(at, code, { ...values, got: show(small), below: toMetric(large, 'length', units) })];
  };
  const findings = SMALLER.flatMap(([code, holder, small, large]) =>
    less(code, [holder, small], sizeAt(limits, [holder, large]), {
      than: `${holder}.${large}`,
      small,
      large,
    }),
  );
  const extended = sizeAt(limits, ['damper', 'extendedLength']) ?? 0;
  const compressed = sizeAt(limits, ['damper', 'compressedLength']) ?? 0;
  const solid = ['bumpStop', 'solidHeight'];
  if (compressed < extended && compressed > 0 && !findings.some(({ at }) => at[1] === solid[1])) {
    findings.push(...less('bumpStopAsHighAsStroke', solid, extended - compressed, {}));
  }
  return findings;
}

type Values = Finding['values'];

/** A number of 0 or more; what is less is reported as such. */
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
  // A name that is reported as unknown may be the one that is missed.
  if (Object.keys(limits ?? {}).some((name) => !(name in limitOptionsSchema.shape))) return [];
  if (has('bumpStop') && !has('damper') && !sized) {
    findings.push(
      found(['bumpStop'], 'bumpStopWithoutDamper', { fields: ['extendedLength', 'compressedLength'] }),
    );
  }
  if (has('arch') && !has('tyre')) {
    findings.push(found(['arch'], 'archWithoutTyre'));
  }
  return findings;
}

function withoutDirection(limits: unknown): Finding[] {
  return Object.keys(valueAt(limits, ['ballJoints']) ?? {}).flatMap((joint) =>
    ['housingAxis', 'studAxis'].flatMap((axis): Finding[] => {
      const at = ['ballJoints', joint, axis];
      const direction = valueAt(limits, at);
      if (!Array.isArray(direction) || direction[0] !== 0 || direction[1] !== 0) return [];
      return [found(at, 'noDirection', { got: show(direction) })];
    }),
  );
}

/** An end named that the coilover has not: its second one is fixed on the chassis, or moves. */
export function endFindings(ends: unknown, isFixed: boolean): Finding[] {
  const [wrong, right] = isFixed ? ['otherEnd', 'chassis'] : ['chassis', 'otherEnd'];
  if (valueAt(ends, [wrong]) === undefined) return [];
  return [found([wrong], isFixed ? 'endDoesNotMove' : 'endMoves', { meant: right })];
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
      return [found([name], 'unknownJoint', { allowed: names, meant: meantName(name, names) ?? null })];
    }
    const housing = valueAt(joint, ['housing']);
    if (typeof housing !== 'string' || holders[name].includes(housing)) return [];
    return [
      found([name, 'housing'], 'holdsNotThisJoint', {
        got: show(housing),
        allowed: holders[name],
        meant: meantName(housing, holders[name]) ?? null,
      }),
    ];
  });
}

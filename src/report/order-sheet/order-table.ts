import { hardestCase } from '../../coilover/forces/corner-forces.ts';
import { axleName } from '../../coilover/sizing/inputs.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { type Block, table } from './blocks.ts';
import { endWords, minLengthWords, type Say } from './words.ts';

/** What nobody has settled yet. */
const UNDECIDED = 'to be agreed';
/** Coilovers on an axle, where nothing else is said. */
const PAIR = 2;

/** What to make, one column an axle: the facts that an order needs. */
export function orderTable(axles: readonly AxleSizing[], say: Say): Block {
  const rows = FACTS.map(([label, of]) => [label, ...axles.map((axle) => of(axle, say) ?? UNDECIDED)]);
  return table(['', ...axles.map(({ axle }) => axleName(axle))], rows, []);
}

type Fact = readonly [label: string, of: (axle: AxleSizing, say: Say) => string | null | undefined];

const figure =
  (name: AxleFigureName) =>
  ({ figure }: AxleSizing, say: Say) => {
    const { value, quantity } = figure(name);
    return value === null ? null : say(value, quantity);
  };

const order = ({ input }: AxleSizing) => input.sizing?.order;

/** The number of one that may be known to plus or minus. */
function numberOf(given: number | { readonly value: number }): number {
  return typeof given === 'number' ? given : given.value;
}

const FACTS: readonly Fact[] = [
  ['quantity', (axle) => String(order(axle)?.quantity ?? PAIR)],
  ['handing', (axle) => order(axle)?.handed],
  ['length at ride height, eye to eye', figure('designLength')],
  ['extended length', figure('extendedLength')],
  ['compressed length', figure('compressedLength')],
  ['stroke', figure('stroke')],
  ['dead length', figure('deadLength')],
  [
    'length tolerance',
    (axle, say) => {
      const tolerance = order(axle)?.lengthTolerance;
      return tolerance === undefined ? null : `± ${say.given(tolerance, 'length')}`;
    },
  ],
  [
    'length adjustment',
    (axle, say) => {
      const adjustment = order(axle)?.lengthAdjustment;
      if (adjustment === undefined) return null;
      return adjustment === 0
        ? 'none: only the perch is adjustable'
        : `over ${say.given(adjustment, 'length')}`;
    },
  ],
  ['moving end', (axle, say) => endWords(axle, 'mount', say)],
  ['chassis end', (axle, say) => endWords(axle, 'chassis', say)],
  [
    'body',
    (axle, say) => {
      const { bodyEnd, bodyDiameter, maxSpringOuterDiameter } = order(axle) ?? {};
      const parts = [
        bodyEnd === undefined ? null : `body ${bodyEnd}`,
        bodyDiameter === undefined ? null : `outer diameter ${say.given(bodyDiameter, 'length')}`,
        maxSpringOuterDiameter === undefined
          ? null
          : `room for a spring of ${say.given(maxSpringOuterDiameter, 'length')} outer diameter`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  [
    'bump stop',
    ({ input }, say) => {
      const stop = input.limits.bumpStop;
      const table = input.sizing?.bumpStopTable ?? [];
      const forces = table.map(
        ([pressed, force]) => `${say.given(pressed, 'length')} ${say.given(force, 'force')}`,
      );
      return stop === undefined
        ? null
        : `${say.given(stop.height, 'length')} high, solid at ${say.given(stop.solidHeight, 'length')}${forces.length === 0 ? '' : `; force by compression: ${forces.join(', ')}`}`;
    },
  ],
  [
    'spring',
    ({ spring, springOptions }, say) => {
      if (spring === null) return null;
      const { name, rate, freeLength, solidLength, innerDiameter, minLengthSource } = spring;
      // What follows from the wire has digits without end.
      const listed = minLengthSource === 'wire' || name === '' ? say : say.given;
      const parts = [
        listed(rate, 'rate'),
        freeLength === null ? 'free length to be agreed' : `free ${listed(freeLength, 'length')}`,
        solidLength === null ? null : `solid ${listed(solidLength, 'length')}`,
        minLengthWords(spring, say),
        innerDiameter === null ? null : `inner diameter ${listed(innerDiameter, 'length')}`,
      ].filter((part) => part !== null);
      const fits = springOptions.length === 0 || springOptions[0].conflicts.length === 0;
      return `${fits ? '' : 'DOES NOT FIT, see above: '}${name === '' ? '' : `${name}: `}${parts.join(', ')}`;
    },
  ],
  [
    'helper spring',
    ({ input }, say) => {
      const helper = input.sizing?.helper;
      if (helper === undefined) return 'none';
      const { rate, freeLength: free, minLength: least, separatorHeight: separator } = helper;
      const ring = separator === undefined ? [] : [`separator ${say.given(separator, 'length')}`];
      return [
        say.given(rate, 'rate'),
        `free ${say.given(free, 'length')}`,
        `solid at ${say.given(least, 'length')}`,
        ...ring,
      ].join(', ');
    },
  ],
  [
    'perch',
    ({ input, figure }, say) => {
      const { min, max, threadPitch } = input.sizing?.perch ?? {};
      const set = figure('perchSetting').value;
      const parts = [
        set === null ? null : `perch setting ${say(set, 'length')} (eye-to-eye length minus spring length)`,
        min === undefined || max === undefined
          ? null
          : `adjustable from ${say.given(min, 'length')} to ${say.given(max, 'length')}`,
        threadPitch === undefined ? null : `${say.given(threadPitch, 'length')} per turn`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  [
    'spring rate tolerance',
    (axle, _say) => {
      const tolerance = order(axle)?.rateTolerance;
      return tolerance === undefined ? null : `± ${(100 * tolerance).toFixed(0)} %`;
    },
  ],
  ['preload at full extension', figure('preload')],
  ['spring travel required', figure('springTravelRequired')],
  [
    'gas force',
    (axle, say) => {
      const { shaftDiameter, pressure } = axle.input.sizing?.gas ?? {};
      const value = axle.figure('gasForce').value;
      if (value === null || axle.input.sizing?.gas === undefined) return null;
      const rod =
        shaftDiameter === undefined ? [] : [`shaft ${say.given(numberOf(shaftDiameter), 'length')}`];
      const gas = pressure === undefined ? [] : [say.given(numberOf(pressure), 'pressure')];
      return [say(value, 'force'), ...rod, ...gas].join(', ');
    },
  ],
  [
    'target at ride height',
    ({ input }, say) => {
      const { target, damping } = input.sizing ?? {};
      const { frequency, withTyre, wheelRate, springRate } = target ?? {};
      const parts = [
        frequency === undefined
          ? null
          : `${say.given(numberOf(frequency), 'frequency')}${withTyre === true ? ' with the tyre' : ''}`,
        wheelRate === undefined ? null : `${say.given(numberOf(wheelRate), 'rate')} at the wheel`,
        springRate === undefined ? null : `a spring of ${say.given(numberOf(springRate), 'rate')}`,
        damping === undefined ? null : `damping ratio ${numberOf(damping.ratio)}`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  ['damping in compression, low-speed', figure('compressionDamping')],
  ['damping in rebound, low-speed', figure('reboundDamping')],
  ['adjusters', (axle) => order(axle)?.adjusters],
  ['reservoir', (axle) => order(axle)?.reservoir],
  ['sprung mass per corner', figure('sprungMass')],
  [
    'maximum axial force',
    ({ forces }, say) => {
      if (forces === null) return null;
      const { name, shock } = hardestCase(forces.cases);
      return `${say(shock.total, 'force')}, load case "${name}"`;
    },
  ],
];

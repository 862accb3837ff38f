import { axleName } from '../../coilover/sizing/inputs.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { type Block, table } from './blocks.ts';
import { endWords, minLengthWords, type Say } from './words.ts';

const OPEN = 'open';
/** Coilovers on an axle, where nothing else is said. */
const PAIR = 2;

/** What to make, one column an axle: the facts that an order needs. */
export function orderTable(axles: readonly AxleSizing[], say: Say): Block {
  const rows = FACTS.map(([label, of]) => [label, ...axles.map((axle) => of(axle, say) ?? OPEN)]);
  return table(['', ...axles.map(({ axle }) => axleName(axle))], rows, []);
}

type Fact = readonly [label: string, of: (axle: AxleSizing, say: Say) => string | null | undefined];

const figure =
  (name: string) =>
  ({ figure }: AxleSizing, say: Say) => {
    const { value, quantity } = figure(name);
    return value === null ? null : say(value, quantity);
  };

const order = ({ document }: AxleSizing) => document.sizing?.order;

/** The number of one that may be known to plus or minus. */
function numberOf(given: number | { readonly value: number }): number {
  return typeof given === 'number' ? given : given.value;
}

const FACTS: readonly Fact[] = [
  ['how many', (axle) => String(order(axle)?.quantity ?? PAIR)],
  ['handing', (axle) => order(axle)?.handing],
  ['installed length', figure('installedLength')],
  ['open length', figure('openLength')],
  ['closed length', figure('closedLength')],
  ['stroke', figure('stroke')],
  ['dead length', figure('deadLength')],
  [
    'lengths may be off by',
    (axle, say) => {
      const tolerance = order(axle)?.lengthTolerance;
      return tolerance === undefined ? null : `± ${say.given(tolerance, 'length')}`;
    },
  ],
  [
    'length of the body',
    (axle, say) => {
      const adjustment = order(axle)?.lengthAdjustment;
      if (adjustment === undefined) return null;
      return adjustment === 0
        ? 'fixed: only the perch is set'
        : `can be set over ${say.given(adjustment, 'length')}`;
    },
  ],
  ['moving end', (axle, say) => endWords(axle, 'mount', say)],
  ['chassis end', (axle, say) => endWords(axle, 'chassis', say)],
  [
    'body',
    (axle, say) => {
      const { body, bodyDiameter, springSpace } = order(axle) ?? {};
      const parts = [
        body === undefined ? null : `lies ${body}`,
        bodyDiameter === undefined ? null : `outer diameter ${say.given(bodyDiameter, 'length')}`,
        springSpace === undefined ? null : `room for a spring of ${say.given(springSpace, 'length')} outside`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  [
    'bump stop',
    ({ document }, say) => {
      const stop = document.limits.bumpStop;
      const table = document.sizing?.bumpStopForces ?? [];
      const forces = table.map(
        ([pressed, force]) => `${say.given(pressed, 'length')} ${say.given(force, 'force')}`,
      );
      return stop === undefined
        ? null
        : `${say.given(stop.height, 'length')} high, solid at ${say.given(stop.solidHeight, 'length')}${forces.length === 0 ? '' : `; pressed in: ${forces.join(', ')}`}`;
    },
  ],
  [
    'spring',
    ({ spring, choices }, say) => {
      if (spring === null) return null;
      const { name, rate, free, solidLength, innerDiameter, minLengthSource } = spring;
      // What follows from the wire has digits without end.
      const listed = minLengthSource === 'wire' || name === '' ? say : say.given;
      const parts = [
        listed(rate, 'rate'),
        free === null ? 'free length open' : `free ${listed(free, 'length')}`,
        solidLength === null ? null : `solid ${listed(solidLength, 'length')}`,
        minLengthWords(spring, say),
        innerDiameter === null ? null : `inner diameter ${listed(innerDiameter, 'length')}`,
      ].filter((part) => part !== null);
      const fits = choices.length === 0 || choices[0].against.length === 0;
      return `${fits ? '' : 'DOES NOT FIT, see above: '}${name === '' ? '' : `${name}: `}${parts.join(', ')}`;
    },
  ],
  [
    'helper spring',
    ({ document }, say) => {
      const helper = document.sizing?.helper;
      if (helper === undefined) return 'none';
      const { rate, free, least, separator } = helper;
      const ring = separator === undefined ? [] : [`ring between them ${say.given(separator, 'length')}`];
      return [
        say.given(rate, 'rate'),
        `free ${say.given(free, 'length')}`,
        `shut at ${say.given(least, 'length')}`,
        ...ring,
      ].join(', ');
    },
  ],
  [
    'perch',
    ({ document, figure }, say) => {
      const { least, most, pitch } = document.sizing?.perch ?? {};
      const set = figure('eyesToSeats').value;
      const parts = [
        set === null ? null : `set with eyes to seats ${say(set, 'length')}`,
        least === undefined || most === undefined
          ? null
          : `goes from ${say.given(least, 'length')} to ${say.given(most, 'length')}`,
        pitch === undefined ? null : `${say.given(pitch, 'length')} a turn`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  [
    'rates may be off by',
    (axle, _say) => {
      const tolerance = order(axle)?.rateTolerance;
      return tolerance === undefined ? null : `± ${(100 * tolerance).toFixed(0)} %`;
    },
  ],
  ['preload at full extension', figure('preload')],
  ['spring travel needed', figure('springTravelNeeded')],
  [
    'gas force',
    (axle, say) => {
      const { rodDiameter, pressure } = axle.document.sizing?.gas ?? {};
      const value = axle.figure('gasForce').value;
      if (value === null || axle.document.sizing?.gas === undefined) return null;
      const rod = rodDiameter === undefined ? [] : [`rod ${say.given(numberOf(rodDiameter), 'length')}`];
      const gas = pressure === undefined ? [] : [say.given(numberOf(pressure), 'pressure')];
      return [say(value, 'force'), ...rod, ...gas].join(', ');
    },
  ],
  [
    'wanted at ride height',
    ({ document }, say) => {
      const { target, damping } = document.sizing ?? {};
      const { frequency, onTyre, wheelRate, springRate } = target ?? {};
      const parts = [
        frequency === undefined
          ? null
          : `${say.given(numberOf(frequency), 'frequency')}${onTyre === true ? ' on the tyre' : ''}`,
        wheelRate === undefined ? null : `${say.given(numberOf(wheelRate), 'rate')} at the wheel`,
        springRate === undefined ? null : `a spring of ${say.given(numberOf(springRate), 'rate')}`,
        damping === undefined ? null : `damping ratio ${numberOf(damping.ratio)}`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  ['damping, bump', figure('bumpDamping')],
  ['damping, rebound', figure('reboundDamping')],
  ['adjusters', (axle) => order(axle)?.adjusters],
  ['reservoir', (axle) => order(axle)?.reservoir],
  ['sprung mass of a corner', figure('sprungMass')],
  [
    'greatest force between the eyes',
    ({ forces }, say) => {
      if (forces === null) return null;
      // A stop that is harder than the case asks for can still be driven to its end.
      const force = ({ shock }: (typeof forces.cases)[number]) =>
        Math.max(shock.total, shock.spring + shock.gas + shock.stop);
      const most = forces.cases.reduce((a, b) => (force(b) > force(a) ? b : a));
      const driven = force(most) > most.shock.total;
      return `${say(force(most), 'force')}, ${most.name}${driven ? ': spring, gas and stop with the stop driven solid' : ''}`;
    },
  ],
];

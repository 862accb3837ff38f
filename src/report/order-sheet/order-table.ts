import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { inBoth } from '../quantity-text.ts';
import { type Block, table } from './blocks.ts';
import { axleName, endWords } from './words.ts';

const OPEN = 'open';
/** Coilovers on an axle, where nothing else is said. */
const PAIR = 2;

/** What to make, one column an axle: the facts that an order needs. */
export function orderTable(axles: readonly AxleSizing[]): Block {
  const rows = FACTS.map(([label, of]) => [label, ...axles.map((axle) => of(axle) ?? OPEN)]);
  return table(['', ...axles.map(({ axle }) => axleName(axle))], rows, []);
}

type Fact = readonly [label: string, of: (axle: AxleSizing) => string | null | undefined];

const figure =
  (name: string) =>
  ({ figure }: AxleSizing) => {
    const { value, quantity } = figure(name);
    return value === null ? null : inBoth(value, quantity);
  };

const order = ({ document }: AxleSizing) => document.sizing?.order;

const FACTS: readonly Fact[] = [
  ['how many', (axle) => String(order(axle)?.quantity ?? PAIR)],
  ['handing', (axle) => order(axle)?.handing ?? 'left and right alike'],
  ['installed length', figure('installedLength')],
  ['open length', figure('openLength')],
  ['closed length', figure('closedLength')],
  ['stroke', figure('stroke')],
  ['dead length', figure('deadLength')],
  [
    'lengths may be off by',
    (axle) => {
      const tolerance = order(axle)?.lengthTolerance;
      return tolerance === undefined ? null : `± ${inBoth(tolerance, 'length')}`;
    },
  ],
  [
    'length of the body',
    (axle) => {
      const adjustment = order(axle)?.lengthAdjustment;
      if (adjustment === undefined) return null;
      return adjustment === 0
        ? 'fixed: only the perch is set'
        : `can be set over ${inBoth(adjustment, 'length')}`;
    },
  ],
  ['moving end', (axle) => endWords(axle, 'mount')],
  ['chassis end', (axle) => endWords(axle, 'chassis')],
  [
    'body',
    (axle) => {
      const { body, bodyDiameter, springSpace } = order(axle) ?? {};
      const parts = [
        body === undefined ? null : `lies ${body}`,
        bodyDiameter === undefined ? null : `outer diameter ${inBoth(bodyDiameter, 'length')}`,
        springSpace === undefined ? null : `room for a spring of ${inBoth(springSpace, 'length')} outside`,
      ].filter((part) => part !== null);
      return parts.length === 0 ? null : parts.join(', ');
    },
  ],
  [
    'bump stop',
    ({ document }) => {
      const stop = document.limits.bumpStop;
      return stop === undefined
        ? null
        : `${inBoth(stop.height, 'length')} high, solid at ${inBoth(stop.solidHeight, 'length')}`;
    },
  ],
  [
    'spring',
    ({ spring }) => {
      if (spring === null) return null;
      const { name, rate, free, least, innerDiameter } = spring;
      const parts = [
        inBoth(rate, 'rate'),
        free === null ? 'free length open' : `free ${inBoth(free, 'length')}`,
        least === null ? null : `least ${inBoth(least, 'length')}`,
        innerDiameter === null ? null : `inner diameter ${inBoth(innerDiameter, 'length')}`,
      ].filter((part) => part !== null);
      return `${name === '' ? '' : `${name}: `}${parts.join(', ')}`;
    },
  ],
  [
    'rates may be off by',
    (axle) => {
      const tolerance = order(axle)?.rateTolerance;
      return tolerance === undefined ? null : `± ${(100 * tolerance).toFixed(0)} %`;
    },
  ],
  ['preload at full extension', figure('preload')],
  ['spring travel needed', figure('springTravelNeeded')],
  ['gas force', figure('gasForce')],
  ['damping, bump', figure('bumpDamping')],
  ['damping, rebound', figure('reboundDamping')],
  ['adjusters', (axle) => order(axle)?.adjusters],
  ['reservoir', (axle) => order(axle)?.reservoir ?? 'none'],
  ['sprung mass of a corner', figure('sprungMass')],
  [
    'greatest force between the eyes',
    ({ forces }) => {
      if (forces === null) return null;
      // A stop that is harder than a case asks for can still be driven to its end.
      const force = ({ shock }: (typeof forces.cases)[number]) =>
        Math.max(shock.total, shock.spring + shock.gas + shock.stop);
      const most = forces.cases.reduce((a, b) => (force(b) > force(a) ? b : a));
      return `${inBoth(force(most), 'force')}, ${most.name}`;
    },
  ],
];

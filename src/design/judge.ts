import { type Diagnostic, fault } from '../diagnostic.ts';
import type { Assessed } from '../numerics/lagrangian.ts';
import { type Margin, marginsOf } from './clearances.ts';
import { deviationOf, QUANTITY_COLUMNS, valueAt } from './objectives.ts';
import type { CheckedDesign } from './options.ts';
import { tryAt } from './trial.ts';

/** What a corner comes to. */
export interface Judged extends Assessed {
  readonly margins: readonly Margin[];
}

/** Why a corner could not be judged, and how many could not. */
export interface Refused {
  readonly why: Diagnostic;
  count: number;
}

/** Judges corners by their coordinates. */
export interface Judge {
  /** Null where a corner can't be judged. */
  assess(x: readonly number[]): Judged | null;
  /** Why corners could not be judged, and how many each time. */
  readonly refused: ReadonlyMap<string, Refused>;
}

/** Makes the judge of a design. */
export function judgeOf({ plan, objectives, clearances }: CheckedDesign): Judge {
  const { bodies } = plan.model.drawing;
  const places = [...new Set(Object.values(bodies).flat())].flatMap((point) => [`${point}Y`, `${point}Z`]);
  const wantsPlaces =
    Object.keys(clearances).length > 0 || objectives.some(({ quantity }) => quantity === 'jointForce');
  const moving = places.filter((name) => !plan.model.drawing.ground.includes(name.slice(0, -1)));
  const columns = [...QUANTITY_COLUMNS, ...(wantsPlaces ? ['camber', ...moving] : [])];
  const whole = { ...plan, sweep: { ...plan.sweep, columns } };
  const refused = new Map<string, Refused>();
  const refuse = (why: Diagnostic) => {
    const key = JSON.stringify(why);
    const before = refused.get(key);
    if (before === undefined) refused.set(key, { why, count: 1 });
    else before.count++;
    return null;
  };
  return {
    refused,
    assess(x) {
      const trial = tryAt(whole, x);
      if ('code' in trial) return refuse(trial);
      const values: number[] = [];
      const deviations = [];
      for (const objective of objectives) {
        const value = valueAt(objective, trial);
        if (value === null) return refuse(fault(NO_VALUE[objective.quantity] ?? 'valueNotDefined', ''));
        values.push(value.value);
        deviations.push(deviationOf(objective, value));
      }
      const margins = marginsOf(clearances, trial);
      return { values, deviations, margins, constraints: margins.map(({ clearance: room }) => room) };
    },
  };
}

const NO_VALUE: Readonly<Record<string, string>> = {
  springRate: 'coiloverCarriesNothing',
  jointForce: 'forceNotDetermined',
};

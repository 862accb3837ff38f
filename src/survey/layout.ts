// Where the points of a survey are: y and z of each as linear forms of the unknowns. A known point has constants, a sought one
// two unknowns of its own. A point where the axis of A and B pierces the plane at its x lies on their line at the share
// t = (x - x_A) / (x_B - x_A), and has y = (1 - t) y_A + t y_B, and z alike.

import type { SurveyInput } from '../document/inputs.ts';
import type { Point } from '../linkage/drawing.ts';

/** A coordinate as a linear form of the unknowns. */
export interface Form {
  readonly constant: number;
  readonly terms: readonly (readonly [unknown: number, times: number])[];
}

/** A point of a survey. */
export interface Station {
  readonly name: string;
  /** Forward of the plane across the wheel centre, mm. */
  readonly x: number;
  /** y and z. */
  readonly forms: readonly [Form, Form];
  /** Known beforehand, sought, or on the axis of two others. */
  readonly kind: 'known' | 'sought' | 'axis';
  /** The two points of its axis. */
  readonly axis: readonly string[];
}

/** The points of a survey and their unknowns. */
export interface Layout {
  readonly stations: ReadonlyMap<string, Station>;
  /** First estimate of each unknown, mm. */
  readonly guess: readonly number[];
}

/** The points of a document, in its order. */
export function layOut(points: SurveyInput['points']): Layout {
  const guess: number[] = [];
  const stations = new Map<string, Station>();
  const entries = Object.entries(points);
  for (const [name, { known, estimate: first, x = 0 }] of entries) {
    if (known !== undefined) {
      const [y, z] = known.map((constant): Form => ({ constant, terms: [] }));
      stations.set(name, { name, x, forms: [y, z], kind: 'known', axis: [] });
    } else if (first !== undefined) {
      const k = guess.push(...first) - 2;
      const [y, z] = [k, k + 1].map((unknown): Form => ({ constant: 0, terms: [[unknown, 1]] }));
      stations.set(name, { name, x, forms: [y, z], kind: 'sought', axis: [] });
    }
  }
  const onAxes = entries.flatMap(([name, { pivotAxis = [], x = 0 }]): Station[] => {
    const [a, b] = pivotAxis.map((end) => stations.get(end));
    if (a === undefined || b === undefined) return [];
    const share = (x - a.x) / (b.x - a.x);
    const forms = [0, 1].map((k) => mixed(a.forms[k], b.forms[k], share)) as [Form, Form];
    return [{ name, x, forms, kind: 'axis', axis: pivotAxis }];
  });
  const all = new Map([...stations, ...onAxes.map((station) => [station.name, station] as const)]);
  // In the order of the document.
  return { stations: new Map(entries.map(([name]) => [name, all.get(name) as Station])), guess };
}

function mixed(a: Form, b: Form, share: number): Form {
  const times = (form: Form, factor: number) =>
    form.terms.map(([unknown, value]) => [unknown, factor * value] as const);
  return {
    constant: (1 - share) * a.constant + share * b.constant,
    terms: [...times(a, 1 - share), ...times(b, share)],
  };
}

/** A coordinate for values of the unknowns, or what becomes of it along a direction of them (without the constant). */
export function coordinateOf(
  { constant, terms }: Form,
  unknowns: readonly number[],
  isDirection = false,
): number {
  return terms.reduce((sum, [k, times]) => sum + times * unknowns[k], isDirection ? 0 : constant);
}

/** Where a point is for values of the unknowns. */
export function placeOf({ forms: [y, z] }: Station, unknowns: readonly number[]): Point {
  return [coordinateOf(y, unknowns), coordinateOf(z, unknowns)];
}

// The columns of a sweep and the figures of a sizing in their types, read by the compiler alone, as contract.ts is.

import {
  type AxleSizing,
  type ColumnName,
  type ColumnOf,
  type Corner,
  type CustomCorner,
  type DoubleWishbone,
  drawCorner,
  drawSweep,
  type Figure,
  monteCarlo,
  type Pushrod,
  plotCurves,
  type Sizing,
  type Strut,
  type Sweep,
  type SweepOptions,
  sensitivities,
  show,
  sweep,
  sweepCsv,
  sweepTable,
  uncertaintyBands,
  vegaCurves,
} from 'jounce';

type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
function holds<_Statement extends true>(): void {}

export function asked(front: DoubleWishbone): void {
  const some = sweep(front, { bump: 60, columns: ['shockLength', 'installationRatio', 'instantCentreY'] });
  holds<Same<typeof some, Sweep<'shockLength' | 'installationRatio' | 'instantCentreY'>>>();
  holds<Same<typeof some.columns.travel, Float64Array>>();
  holds<Same<typeof some.columns.shockLength, Float64Array>>();
  holds<Same<typeof some.columns.instantCentreY, readonly (number | null)[]>>();
  for (const row of some.rows()) {
    holds<Same<keyof typeof row, 'travel' | 'shockLength' | 'installationRatio' | 'instantCentreY'>>();
    // Rows stand at no dead point.
    holds<Same<typeof row.installationRatio, number>>();
    holds<Same<typeof row.instantCentreY, number | null>>();
  }
  const pose = some.at(20);
  holds<Same<typeof pose.travel, number>>();
  holds<Same<typeof pose.shockLength, number>>();
  holds<Same<typeof pose.installationRatio, number | null>>();
  holds<Same<typeof pose.instantCentreY, number | null>>();
  // @ts-expect-error: at a dead point there is none
  pose.installationRatio.toFixed(3);
  // @ts-expect-error: not asked for
  some.columns.camber;
  // @ts-expect-error: not asked for
  pose.camber;
  // @ts-expect-error: misspelt
  sweep(front, { columns: ['chamber'] });
  // @ts-expect-error: a double wishbone has no rocker
  sweep(front, { columns: ['rockerAngle'] });
  // @ts-expect-error: there without being asked for
  sweep(front, { columns: ['travel'] });
  // @ts-expect-error: misspelt
  sensitivities(front, { columns: ['chamber'] });
  // @ts-expect-error: misspelt
  uncertaintyBands(front, 1, { columns: ['chamber'] });
  uncertaintyBands(front, 1, { columns: ['camber', 'shockMountZ'] });
  // @ts-expect-error: misspelt
  monteCarlo(front, 1, { sweep: { columns: ['chamber'] } });
  monteCarlo(front, 1, { sweep: { columns: ['camber', 'shockMountZ'] } });
}

export function kinds(front: DoubleWishbone, rear: Pushrod, other: Strut): void {
  const pose = sweep(front).at(0);
  const { camber, shockMountZ, upperArmAngle, rollCentreHeight } = pose;
  holds<Same<[typeof camber, typeof shockMountZ, typeof upperArmAngle], [number, number, number]>>();
  holds<Same<typeof rollCentreHeight, number | null>>();
  // @ts-expect-error: misspelt
  pose.chamber;
  // @ts-expect-error: a double wishbone has no rocker
  pose.rockerAngle;
  // @ts-expect-error: it moves on some corners alone, and is there when it is asked for
  pose.shockOtherMountY;
  sweep(front, { columns: ['shockOtherMountY'] })
    .at(0)
    .shockOtherMountY.toFixed(1);
  sweep(rear).at(0).rodRockerAngle.toFixed(1);
  // @ts-expect-error: a strut has no upper arm
  sweep(other).at(0).upperArmAngle;
  sweep(other, { columns: ['strutLowerY', 'shockMountY'] });
}

/** What a corner has whatever its kind; more when that is known. */
export function anyCorner(corner: Corner): void {
  const columns = sweep(corner).columns;
  holds<Same<typeof columns.shockLength, Float64Array>>();
  // @ts-expect-error: a corner of one's own may have none
  columns.kingpinInclination;
  // @ts-expect-error: a strut has none
  sweep(corner, { columns: ['upperArmAngle'] });
  if (corner.kind === 'pushrod') sweep(corner, { columns: ['rockerAngle'] }).columns.rockerAngle.at(0);
  if (corner.kind !== 'pushrod' && corner.kind !== 'strut') return;
  sweep(corner).at(0).kingpinInclination.toFixed(1);
  // @ts-expect-error: a strut has no upper arm
  sweep(corner).at(0).upperArmAngle;
  holds<Same<ColumnOf & 'kingpinInclination', never>>();
  holds<Same<ColumnName<'strut' | 'pushrod'> & 'upperArmAngle', never>>();
  holds<Same<ColumnName<'strut' | 'pushrod'> & 'shockOtherMountY', 'shockOtherMountY'>>();
}

/** Columns that are the drawing's own. */
export function ownCorner(corner: CustomCorner): void {
  const { columns, at } = sweep(corner);
  holds<Same<typeof columns.camber, Float64Array>>();
  columns.leverAngle?.at(0);
  at(0).leverAngle;
  const angle = sweep(corner, { columns: ['leverAngle'] }).columns.leverAngle;
  holds<Same<typeof angle, Float64Array>>();
}

/** Any sweep is taken where a sweep is, and one with more columns where one with fewer is. */
export function taken(front: DoubleWishbone, corner: Corner, own: CustomCorner): void {
  const sweeps: readonly Sweep[] = [
    sweep(front),
    sweep(corner),
    sweep(own),
    sweep(front, { columns: ['camber'] }),
    sweep(front, { columns: ['instantCentreY'] }),
    sweep(front, { columns: [] }),
  ];
  const camberOf = (curves: Sweep<'camber'>) => curves.at(0).camber.toFixed(2);
  camberOf(sweep(corner));
  camberOf(sweep(front, { columns: ['camber', 'shockLength'] }));
  // @ts-expect-error: no such column
  camberOf(sweep(front, { columns: ['shockLength'] }));
  for (const curves of [...sweeps, sweep(corner), sweep(front, { columns: ['camber'] })]) {
    sweepCsv(curves);
    sweepTable(curves);
    plotCurves(curves);
    vegaCurves(curves);
    drawCorner(corner, curves);
    drawSweep(corner, curves);
    show(curves);
  }
  const few = sweep(front, { columns: ['camber', 'shockLength'] });
  plotCurves(few, { panels: ['camber'] });
  // @ts-expect-error: not asked for
  plotCurves(few, { panels: ['installationRatio'] });
  // @ts-expect-error: not asked for
  vegaCurves(few, { panels: ['installationRatio'] });
  // @ts-expect-error: misspelt
  drawSweep(front, few, { panels: ['chamber'] });
  // @ts-expect-error: misspelt
  sweepTable(few, ['chamber']);
  sweepTable(few, ['travel', 'camber']);
}

/** Names that only the program's run knows. */
export function atRun(corner: Corner, names: string[], options: SweepOptions): void {
  const curves = sweep(corner, { columns: names });
  holds<Same<typeof curves, Sweep>>();
  holds<Same<typeof curves.columns.travel, Float64Array>>();
  const anything = curves.columns.anything ?? curves.columns.travel;
  holds<Same<typeof anything, Float64Array | readonly (number | null)[]>>();
  holds<Same<ReturnType<typeof sweep<Corner, string>>, Sweep>>();
  for (const { name } of sweep(corner, options).info) curves.columns[name]?.at(0);
  plotCurves(curves, { panels: names });
}

export function figures({ figure, figures }: AxleSizing, sizing: Sizing): void {
  const rate = figure('springRate');
  holds<Same<typeof rate, Figure<'springRate'>>>();
  holds<Same<typeof rate.name, 'springRate'>>();
  holds<Same<typeof rate.value, number | null>>();
  // @ts-expect-error: misspelt
  figure('springrate');
  // @ts-expect-error: a figure of the car
  figure('totalMass');
  // @ts-expect-error: no such figure
  figures.find(({ name }) => name === 'springrate');
  sizing.figures.find(({ name }) => name === 'totalMass');
  const all: readonly Figure[] = [...figures, ...sizing.figures];
  all.map(({ name }) => name);
}

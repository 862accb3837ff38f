import type { CarDocument, DocumentCorner } from '../../corner/read-corner.ts';
import type { OrderedFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';

/** Places of what was bought, and where the same part stands before it is bought; longer places first. */
const REPLACES: readonly (readonly [bought: string, before: string])[] = [
  ['bumpStop.table', 'sizing.bumpStopTable'],
  ['perch.setting', 'sizing.perch.setting'],
  ['perch.threadPitch', 'sizing.perch.threadPitch'],
  ['perch.min', 'sizing.perch.min'],
  ['perch.max', 'sizing.perch.max'],
  ['damper', 'limits.damper'],
  ['bumpStop', 'limits.bumpStop'],
  ['helper', 'sizing.helper'],
];

/**
 * A document in which what was bought stands in the place of what it replaces: damper and bump stop among the limits; stop forces,
 * helper and perch in the sizing. Numbers are taken over as they are. A document in which nothing was bought is returned itself.
 */
export function asBought(document: CarDocument): CarDocument {
  const { front, rear } = document.corners;
  if (front.ordered === undefined && rear?.ordered === undefined) return document;
  return {
    ...document,
    corners: { front: boughtCorner(front), ...(rear === undefined ? {} : { rear: boughtCorner(rear) }) },
  };
}

function boughtCorner(corner: DocumentCorner): DocumentCorner {
  const { ordered, limits, sizing } = corner;
  if (ordered === undefined) return corner;
  const { damper, bumpStop, helper } = ordered;
  return {
    ...corner,
    limits: {
      ...limits,
      ...(damper === undefined ? {} : { damper }),
      ...(bumpStop === undefined
        ? {}
        : { bumpStop: { height: bumpStop.height, solidHeight: bumpStop.solidHeight } }),
    },
    ...(sizing === undefined
      ? {}
      : {
          sizing: {
            ...sizing,
            ...(bumpStop?.table === undefined ? {} : { bumpStopTable: bumpStop.table }),
            ...(helper === undefined
              ? {}
              : {
                  helper,
                }),
            ...boughtPerch(corner),
          },
        }),
  };
}

/** Whether the perch was measured as it is set now: `ordered` says how things are, whatever came before. */
export function isPerchMeasured(ordered: Certain<OrderedFile> | OrderedFile | undefined): boolean {
  const { setting, seatDistances, left, right } = ordered?.perch ?? {};
  return [setting, seatDistances, left, right].some((given) => given !== undefined);
}

function boughtPerch({
  ordered,
  sizing,
}: DocumentCorner): Pick<NonNullable<DocumentCorner['sizing']>, 'perch'> {
  if (ordered?.perch === undefined) return {};
  const { seatDistances, left, right, min, max, threadPitch } = ordered.perch;
  const both = left === undefined || right === undefined ? (left ?? right) : (left + right) / 2;
  const seats = seatDistances === undefined ? undefined : seatDistances.mount + seatDistances.chassis;
  const setting = ordered.perch.setting ?? seats ?? both;
  return {
    perch: {
      ...sizing?.perch,
      ...(setting === undefined ? {} : { setting }),
      ...(min === undefined ? {} : { min }),
      ...(max === undefined ? {} : { max }),
      ...(threadPitch === undefined ? {} : { threadPitch }),
    },
  };
}

/** The place in the document of what is reported of a corner's limits or sizing: that of what was bought, where it was. */
export function boughtPath(path: string, { corners }: CarDocument): string {
  const [, axle, place] = /^corners\.(front|rear)\.(.*)$/s.exec(path) ?? [];
  const ordered = corners[axle as 'front' | 'rear']?.ordered;
  if (ordered === undefined || place === undefined) return path;
  for (const [bought, before] of REPLACES) {
    const rest = place.slice(before.length);
    if (!place.startsWith(before) || !/^($|[.[])/.test(rest)) continue;
    const there = bought
      .split('.')
      .reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], ordered);
    if (there !== undefined) return `corners.${axle}.ordered.${bought}${rest}`;
  }
  return path;
}

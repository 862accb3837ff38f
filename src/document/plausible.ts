// What a corner's numbers make one ask, though they may be right: names exchanged, another side, points below the ground.

import { DEGREES, fromMetric, type Units, unitName } from '../units.ts';
import type { Note } from './note.ts';
import { oddSizes } from './odd-sizes.ts';
import { archOf, type Point, pointsOf, short, type Written } from './written.ts';

/** What a tape can tell, mm. */
const TAPE = 0.5;

/** Notes to a corner as written; `under` is its path with a dot at the end, or nothing. */
export function cornerNotes(corner: Written, under: string, units: Units): Note[] {
  const unit = unitName('length', units);
  const turned = exchangedCoordinates(corner);
  return [
    ...otherSide(corner),
    ...belowGround(corner, unit),
    ...turned,
    ...oddSizes(corner, units),
    // With coordinates exchanged nothing lies where it should.
    ...(turned.length > 0 ? [] : [...exchanged(corner, unit), ...inboardWheel(corner, unit)]),
    ...standing(corner, units),
    ...together(corner),
    ...oddMass(corner.sprungMass, units),
  ].map(({ path, text }) => ({ path: path === 'units' ? path : `${under}${path}`, text }));
}

const AS_WRITTEN = 'It was read as written.';

function otherSide(corner: Written): Note[] {
  const right = corner.wheel.centre[0] < 0;
  const notes: Note[] = right
    ? [
        {
          path: 'wheel.centre',
          text: 'a right-hand corner (y is negative). It was mirrored, and is counted as a left-hand one: y outboard.',
        },
      ]
    : [];
  // A coilover on a rocker may well lie across the car.
  const across = corner.rocker === undefined ? '' : 'coilover.chassisMount';
  const points = [...pointsOf(corner), ...archOf(corner)];
  const others = points.filter(([path, [y]]) => y !== 0 && y < 0 !== right && path !== across);
  if (2 * others.length > points.length) {
    return [
      {
        path: 'wheel.centre',
        text: `${pointText(corner.wheel.centre)} lies on the other side of the car than most points: is its sign right? It was read as written, and the side with the wheel counts as the outer one.`,
      },
    ];
  }
  for (const [path, point] of others) {
    notes.push({
      path,
      text: `${pointText(point)} lies on the other side of the car than the wheel: is its sign right? ${AS_WRITTEN}`,
    });
  }
  return notes;
}

function belowGround(corner: Written, unit: string): Note[] {
  return [...pointsOf(corner), ...archOf(corner)]
    .filter(([, [, z]]) => z < 0)
    .map(([path, [, z]]) => ({
      path,
      text: `z is ${z} ${unit}, below the ground: is its sign right? ${AS_WRITTEN}`,
    }));
}

/** Points that would lie outboard of their neighbour if their coordinates were exchanged, and do not as they are. */
function exchangedCoordinates({ wheel, lowerArm, upperArm }: Written): Note[] {
  const outboard: [path: string, point: Point, of: Point][] = [
    ['wheel.centre', wheel.centre, lowerArm.outer],
    ['lowerArm.outer', lowerArm.outer, lowerArm.inner],
  ];
  if (upperArm !== undefined) outboard.push(['upperArm.outer', upperArm.outer, upperArm.inner]);
  return outboard
    .filter(([, [y, z], [inner]]) => Math.abs(y) < z && Math.abs(y) < Math.abs(inner) && z > Math.abs(inner))
    .map(([path, point]) => ({
      path,
      text: `${pointText(point)} is higher above the ground than far from the centreline: are y and z exchanged? ${AS_WRITTEN}`,
    }));
}

/** The wheel's centre lies outboard of the ball joints, as a rule. */
function inboardWheel({ wheel, lowerArm, upperArm }: Written, unit: string): Note[] {
  const joints = upperArm === undefined ? [lowerArm.outer] : [lowerArm.outer, upperArm.outer];
  const inboard = Math.min(...joints.map(([y]) => Math.abs(y))) - Math.abs(wheel.centre[0]);
  if (inboard <= 0) return [];
  const which = joints.length > 1 ? 'both ball joints' : 'the ball joint';
  return [
    {
      path: 'wheel.centre',
      text: `it lies ${short(inboard)} ${unit} inboard of ${which}: is it right? ${AS_WRITTEN}`,
    },
  ];
}

/** Camber that no wheel has, and a contact patch that contradicts it or the ground; degrees. */
const MOST_CAMBER = 8;
const CAMBER_TOLERANCE = 0.5;

function standing({ wheel }: Written, units: Units): Note[] {
  const { centre, camber, contactPatch } = wheel;
  const unit = unitName('length', units);
  const notes: Note[] = [];
  const side = centre[0] < 0 ? -1 : 1;
  const drawn =
    contactPatch === undefined
      ? undefined
      : Math.atan2(side * (centre[0] - contactPatch[0]), centre[1] - contactPatch[1]) * DEGREES;
  const odd = camber ?? drawn;
  if (odd !== undefined && Math.abs(odd) > MOST_CAMBER) {
    const path = camber === undefined ? 'contactPatch' : 'camber';
    notes.push({
      path: `wheel.${path}`,
      text: `a camber of ${short(odd)} degrees, where ${MOST_CAMBER} either way is much. Is it right? ${AS_WRITTEN}`,
    });
  }
  if (camber !== undefined && drawn !== undefined && Math.abs(camber - drawn) > CAMBER_TOLERANCE) {
    notes.push({
      path: 'wheel.contactPatch',
      text: `with it and the centre the wheel leans ${short(drawn)} degrees, and camber says ${short(camber)}. The contact patch counts for where the load acts, the camber for what is shown: measure again, or leave one out.`,
    });
  }
  if (contactPatch !== undefined && Math.abs(contactPatch[1]) > fromMetric(TAPE, 'length', units)) {
    notes.push({
      path: 'wheel.contactPatch',
      text: `z is ${contactPatch[1]} ${unit}, where the ground has 0: heights count from the ground. ${AS_WRITTEN}`,
    });
  }
  return notes;
}

/** Points that may lie together, but hardly do. */
function together({ lowerArm, upperArm, rod, rocker, coilover }: Written): Note[] {
  const same = (a: Point | undefined, b: Point | undefined) =>
    a !== undefined && b !== undefined && a[0] === b[0] && a[1] === b[1];
  const notes: Note[] = [];
  if (same(lowerArm.inner, upperArm?.inner)) {
    notes.push({
      path: 'upperArm.inner',
      text: `in the same place as lowerArm.inner: copied and not changed? ${AS_WRITTEN}`,
    });
  }
  const pivots = { lowerArm: lowerArm.inner, upperArm: upperArm?.inner, upright: undefined };
  const onPivot = (path: string, pivot: string, moved: string) =>
    notes.push({
      path,
      text: `it lies on the pivot of ${pivot}, on which it stands: the wheel moves without moving the ${moved}. ${AS_WRITTEN}`,
    });
  if (rod !== undefined && same(rod.mount, pivots[rod.on])) onPivot('rod.mount', rod.on, 'rod');
  if (coilover?.on !== undefined && same(coilover.mount, pivots[coilover.on]))
    onPivot('coilover.mount', coilover.on, 'coilover');
  if (same(coilover?.rockerMount, rocker?.pivot)) onPivot('coilover.rockerMount', 'the rocker', 'coilover');
  return notes;
}

function exchanged({ lowerArm, upperArm, strut, rod, coilover }: Written, unit: string): Note[] {
  const notes: Note[] = [];
  const below = upperArm === undefined ? 0 : lowerArm.outer[1] - upperArm.outer[1];
  if (upperArm !== undefined && below > 0) {
    const both = lowerArm.inner[1] > upperArm.inner[1];
    notes.push({
      path: 'upperArm',
      text: both
        ? `its ball joint lies ${short(below)} ${unit} below that of lowerArm, and its pivot lies lower too: upperArm and lowerArm seem to be exchanged. They were read as written.`
        : `its ball joint lies ${short(below)} ${unit} below that of lowerArm: are the two outer points exchanged, or the arms? They were read as written.`,
    });
  }
  for (const [name, arm] of Object.entries({ lowerArm, upperArm })) {
    if (arm === undefined || Math.abs(arm.outer[0]) >= Math.abs(arm.inner[0])) continue;
    notes.push({
      path: name,
      text: `its outer point is nearer to the centreline than its inner one: inner and outer seem to be exchanged. They were read as written.`,
    });
  }
  const other = (path: string, one: string, lies: string, another: string) =>
    notes.push({
      path,
      text: `its ${one} lies ${lies} its ${another}: are the two exchanged? They were read as written.`,
    });
  if (strut !== undefined && strut.top[1] < strut.lower[1]) other('strut', 'top', 'below', 'lower');
  if (rod !== undefined && Math.abs(rod.mount[0]) < Math.abs(rod.rockerMount[0]))
    other('rod', 'mount', 'nearer to the centreline than', 'rockerMount');
  const { mount, chassisMount } = coilover ?? {};
  if (mount !== undefined && chassisMount !== undefined && chassisMount[1] < mount[1])
    other('coilover', 'chassisMount', 'below', 'mount');
  return notes;
}

/** What one corner of a car may carry, kg. */
const MASS = { least: 30, most: 800 };

function oddMass(mass: number | undefined, units: Units): Note[] {
  if (mass === undefined) return [];
  const [least, most] = [MASS.least, MASS.most].map((kg) =>
    Number(fromMetric(kg, 'mass', units).toPrecision(2)),
  );
  if (mass >= least && mass <= most) return [];
  const unit = unitName('mass', units);
  return [
    {
      path: 'sprungMass',
      text: `${short(mass)} ${unit} on one corner, where ${short(least)} to ${short(most)} ${unit} is usual: is it that of one corner, in ${unit}? It was read as written.`,
    },
  ];
}

/** Notes to the tyre's overall radius against the drawn height of the wheel's centre, both in the file's unit. */
export function radiusNotes(overall: number, loaded: number, path: string, units: Units): Note[] {
  const unit = unitName('length', units);
  const tape = fromMetric(TAPE, 'length', units);
  if (overall > loaded + tape) return [];
  const how =
    overall < loaded - tape
      ? `less than the height of the wheel's centre, ${short(loaded)} ${unit}`
      : "equal to the height of the wheel's centre";
  return [
    {
      path,
      text: `${short(overall)} ${unit}, ${how}. The overall radius is that of the tyre with no load on it; the centre stands at the loaded radius, which is less. Was one of the two taken for the other?`,
    },
  ];
}

function pointText([y, z]: readonly [number, number]): string {
  return `[${y}, ${z}]`;
}

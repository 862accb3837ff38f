/** What holds of every kind of corner: descriptor, drawing, files, surveys and pictures know the same points. */
import { readFileSync } from 'node:fs';
import * as jounce from 'jounce';
import {
  type Corner,
  drawCorner,
  InputError,
  limits,
  readCar,
  readCorner,
  survey,
  surveyedCorner,
  sweep,
  writeSurveyedCorner,
} from 'jounce';
import { mobility } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { changedCorner } from '../../src/corner/changed-corner.ts';
import { modelOf, strutOf } from '../../src/corner/corner.ts';
import { cornerJsonSchema } from '../../src/corner/file-schemas.ts';
import { hardpointsOf, moveHardpoints } from '../../src/corner/hardpoint-coordinates.ts';
import { carrierOf, pivotOf } from '../../src/corner/model.ts';
import { isMovingEnd, isOtherEnd, UNNAMED_KIND } from '../../src/document/corner-kind.ts';
import { pathText, placeAt, valueAt } from '../../src/document/parse.ts';
import { pointName } from '../../src/report/names.ts';
import type { Json } from '../document/support.ts';
import { deepFreeze } from '../support/freeze.ts';
import { ALL_KINDS } from '../support/kinds.ts';
import { expectWithin } from '../support/tolerance.ts';

const copy = (value: unknown): Json => JSON.parse(JSON.stringify(value));
/** A copy with something else at a path. */
const withAt = (input: unknown, path: string, value: unknown): Json => {
  const changed = copy(input);
  const keys = placeAt(path);
  const holder = keys.slice(0, -1).reduce((at: Json, key) => at[key], changed);
  holder[keys[keys.length - 1]] = value;
  return deepFreeze(changed);
};
const issuesOf = (run: () => unknown) => {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error.issues.map(({ code, path }) => `${path} ${code}`);
    throw error;
  }
  return [];
};

describe.each(ALL_KINDS)('the kind $kind', ({ kind, input: descriptor, make, inputs }) => {
  const names: Readonly<Record<string, string>> = descriptor.points;
  const paths = Object.keys(names);
  const made = (input: unknown): Corner => make(input as never);
  const file = (input: unknown) => ({ kind, ...copy(input) });
  const given = (input: unknown) => paths.filter((path) => valueAt(input, placeAt(path)) !== undefined);
  /** Where the input says what a point is on. */
  const onOf = (input: unknown, path: string) => valueAt(input, [...placeAt(path).slice(0, -1), 'on']);

  it('has its function and its points', () => {
    expect((jounce as Json)[kind]).toBe(make);
    expect(descriptor.kind).toBe(kind);
    expect(new Set(inputs.flatMap(given))).toEqual(new Set(paths));
    expect(new Set(Object.values(names)).size).toBe(paths.length);
  });

  it('has each point in its place, in the corner and in the drawing, and mirrored', () => {
    for (const input of inputs) {
      const corner = made(input);
      const { points } = modelOf(corner).drawing;
      for (const path of given(input)) {
        expect([path, valueAt(corner, placeAt(path))]).toEqual([path, valueAt(input, placeAt(path))]);
        expect([names[path], points[names[path]]]).toEqual([names[path], valueAt(input, placeAt(path))]);
      }
      const drawn = [...given(input).map((path) => names[path]), 'contactPatch'];
      expect(new Set(Object.keys(points))).toEqual(new Set(drawn));
      const right = given(input).reduce((changed, path) => {
        const [y, z] = valueAt(input, placeAt(path)) as [number, number];
        return withAt(changed, path, [-y, z]);
      }, input as Json);
      const mirrored = made(right);
      for (const path of given(input)) {
        expect([path, valueAt(mirrored, placeAt(path))]).toEqual([path, valueAt(input, placeAt(path))]);
      }
      expect(mirrored).toEqual({ ...corner, mirrored: true });
    }
  });

  it('is what it was as a copy, and a copy without one of its parts is refused by the place of the part', () => {
    for (const input of inputs) {
      const corner = made(input);
      expect(sweep(copy(corner), { bump: 5, droop: 5 }).rows()).toEqual(
        sweep(corner, { bump: 5, droop: 5 }).rows(),
      );
      expect(modelOf(structuredClone(corner)).drawing).toEqual(modelOf(corner).drawing);
      for (const path of given(input)) {
        expect([path, issuesOf(() => sweep(copy(withAt(corner, path, null))))]).toEqual([
          path,
          expect.arrayContaining([`${path} wrongType`]),
        ]);
      }
      expect(issuesOf(() => sweep(copy({ ...(corner as object), wheel: 3 })))).toEqual(['wheel wrongType']);
      expect(issuesOf(() => sweep(copy({ kind })))).toContain('wheel missing');
    }
  });

  it('has each coordinate move the point of its name, and keeps how far it may be off', () => {
    for (const input of inputs) {
      const corner = made(input);
      const coordinates = given(input).flatMap((path) =>
        ['Y', 'Z'].map((axis, k) => ({ name: names[path] + axis, place: [...placeAt(path), k] })),
      );
      const known = hardpointsOf(modelOf(corner)).map(({ name }) => name);
      expect(new Set(known)).toEqual(new Set(coordinates.map(({ name }) => name)));
      for (const { name, place } of coordinates) {
        const before = valueAt(input, place) as number;
        const path = pathText(place);
        const wanted = made(withAt(input, path, before + 1));
        expect([name, changedCorner(corner, moveHardpoints(modelOf(corner), { [name]: 1 }))]).toEqual([
          name,
          wanted,
        ]);
        expect(made(withAt(input, path, { value: before, plusMinus: 2 }))).toEqual({
          ...corner,
          plusMinus: { [name]: 2 },
        });
      }
    }
  });

  it('is a linkage of one degree of freedom, of which all corners of the kind share what they can', () => {
    for (const input of inputs) {
      const corner = made(input);
      const model = modelOf(corner);
      expect(mobility(model.drawing).degreesOfFreedom).toBe(1);
      const { end, info } = sweep(corner, { bump: 20, droop: 20 });
      expect([end.bump.status, end.droop.status]).toEqual(['reached', 'reached']);
      const moving = Object.keys(model.drawing.points).filter((point) => carrierOf(model, point) !== null);
      const columns = info.map(({ name }) => name);
      expect(columns).toEqual(expect.arrayContaining(moving.flatMap((point) => [`${point}Y`, `${point}Z`])));
      expect(columns).toEqual(expect.arrayContaining(Object.keys(model.angles)));

      const other = modelOf(made(copy(input)));
      for (const part of ['ground', 'bodies', 'fixedAngles', 'sliders'] as const) {
        expect([part, other.drawing[part] === model.drawing[part]]).toEqual([part, true]);
      }
      for (const part of ['kingpin', 'rocker', 'angles'] as const) {
        expect([part, other[part] === model[part]]).toEqual([part, true]);
      }
      expect([model.drawing.ground, model.drawing.bodies].every(Object.isFrozen)).toBe(true);
    }
  });

  it('has a name of its own in words', () => {
    const others = ALL_KINDS.filter((one) => one.kind !== kind).map(({ input: { what } }) => what);
    for (const words of [descriptor.what, descriptor.about]) expect(words).toMatch(/^[a-z][a-z -]+$/);
    expect(others).not.toContain(descriptor.what);
  });

  it('has the ends of its coilover as the ends of its shock, the moving one outside', () => {
    for (const input of inputs) {
      const { shock } = modelOf(made(input));
      const ends = given(input).filter((path) => path.startsWith('coilover.'));
      const outer = ends.find(isMovingEnd);
      const inner = ends.find(isOtherEnd);
      expect(ends.length).toBe(outer === undefined ? 0 : 2);
      if (outer === undefined || inner === undefined) continue;
      expect([shock.outer, shock.inner]).toEqual([names[outer], names[inner]]);
    }
  });

  it('has its coilover along its strut where an input has none', () => {
    const { strut } = descriptor;
    for (const input of inputs) {
      const isApart = valueAt(input, ['coilover']) !== undefined;
      expect(strutOf(make(input as never))).toBe(isApart ? null : strut);
      if (isApart) continue;
      const { outer, inner } = modelOf(made(input)).shock;
      const ends = paths.filter((path) => path.startsWith(`${strut}.`)).map((path) => names[path]);
      expect(new Set(ends)).toEqual(new Set([outer, inner]));
    }
  });

  it('has its parts as it is drawn', () => {
    for (const input of inputs) {
      const { drawing, rocker } = modelOf(made(input));
      const { ground, bodies } = drawing;
      const pinned = Object.keys(bodies).filter((body) => pivotOf(bodies[body], ground) !== undefined);
      const parts = [...Object.keys(descriptor.arms), ...(rocker === null ? [] : [rocker.body])];
      expect(
        new Set(parts),
        'arms of the descriptor, and the rocker: all parts with a pivot on the chassis',
      ).toEqual(new Set(pinned));
      for (const [arm, [pivot, outer]] of Object.entries(descriptor.arms)) {
        expect([arm, ground.includes(names[pivot])]).toEqual([arm, true]);
        expect(bodies[arm]).toEqual(expect.arrayContaining([names[pivot], names[outer]]));
      }
      if (descriptor.upright !== null) {
        expect(bodies.upright).toEqual(expect.arrayContaining(descriptor.upright.map((path) => names[path])));
      }
      for (const path of given(input)) {
        const on = path.endsWith('.mount') ? onOf(input, path) : undefined;
        if (on !== undefined)
          expect([path, bodies[String(on)]]).toEqual([path, expect.arrayContaining([names[path]])]);
        if (path === 'coilover.chassisMount') expect(ground).toContain(names[path]);
      }
    }
  });

  it('has a column for the angle of each arm, outer end up positive', () => {
    for (const input of inputs) {
      const corner = made(input);
      const swept = sweep(corner, { bump: 20, droop: 20 });
      for (const [arm, [inner, outer]] of Object.entries(descriptor.arms)) {
        for (const row of swept.rows() as readonly Readonly<Record<string, number>>[]) {
          const [y, z] = modelOf(corner).drawing.points[names[inner]];
          const [toY, toZ] = ['Y', 'Z'].map((axis) => row[names[outer] + axis]);
          const drawn = (Math.atan2(toZ - z, toY - y) * 180) / Math.PI;
          expect(Object.keys(row), `angles of the drawing: one for ${arm}`).toContain(`${arm}Angle`);
          expectWithin(row[`${arm}Angle`], drawn, 1e-9);
        }
      }
    }
  });

  it('has its columns in docs/definitions.md', () => {
    const [, table] = readFileSync('docs/definitions.md', 'utf8').split('## Columns of a sweep');
    for (const input of inputs) {
      for (const { name } of sweep(made(input), { bump: 20, droop: 20 }).info) {
        const [, point = name] = /^(?!instantCentre)(.*)[YZ]$/.exec(name) ?? [];
        expect(table.split('\n## ')[0], 'docs/definitions.md, columns of a sweep').toContain(`\`${point}\``);
      }
    }
  });

  it('has the ball joints at which its parts meet, held by these', () => {
    const holders: Readonly<Record<string, readonly string[]>> = descriptor.ballJoints?.holders ?? {};
    for (const input of inputs) {
      const corner = made(input);
      const { drawing, upright } = modelOf(corner);
      const joints = Object.keys(drawing.points).flatMap((point) => {
        const parts = Object.keys(drawing.bodies).filter((body) => drawing.bodies[body].includes(point));
        return parts.length > 1 && !drawing.ground.includes(point) ? [{ point, parts }] : [];
      });
      expect(new Set(joints.map(({ point }) => point))).toEqual(new Set(Object.keys(holders)));
      for (const { point, parts } of joints) {
        const called = parts.map((part) => (part !== upright && parts.includes(upright) ? 'arm' : part));
        const inFile = holders[point].filter((holder) => [...parts, ...called].includes(holder));
        expect([point, inFile.length]).toEqual([point, 2]);
        for (const housing of inFile) {
          const ballJoints = { [point]: { maxArticulation: 60, housing } };
          expect(limits(corner, { ballJoints }).misfits).toEqual([]);
          expect(readCorner({ ...file(input), limits: { ballJoints } }).limits).toEqual({ ballJoints });
        }
        const other = holders[point].find((holder) => !inFile.includes(holder));
        const wrong = { [point]: { maxArticulation: 60, housing: other } };
        if (other !== undefined) {
          expect(issuesOf(() => readCorner({ ...file(input), limits: { ballJoints: wrong } }))).toEqual([
            `limits.ballJoints.${point}.housing holdsNotThisJoint`,
          ]);
        }
      }
    }
  });

  it('is read from files, and asked for where it is not named', () => {
    const schema = z.fromJSONSchema(cornerJsonSchema());
    inputs.forEach((input, k) => {
      const { corner, notes } = readCorner(JSON.stringify(file(input)));
      expect(corner).toEqual(made(input));
      if (k === 0) expect(notes).toEqual([]);
      expect(schema.safeParse(file(input)).success).toBe(true);
      expect(readCar({ corners: { front: file(input), rear: file(input) } }).corners.rear?.corner).toEqual(
        corner,
      );
      expect(issuesOf(() => readCar(file(input)))).toEqual([' cornerInPlaceOfCar']);
      expect(issuesOf(() => readCorner(copy(input)))).toEqual(kind === UNNAMED_KIND ? [] : ['kind missing']);
    });
  });

  it('is refused with two points in one place, and asked about where its parts lie or measure oddly', () => {
    for (const [first, second] of [...Object.values(descriptor.arms), ...descriptor.apart]) {
      const [input] = inputs;
      const together = withAt(input, first, valueAt(input, placeAt(second)));
      expect(issuesOf(() => made(together))).toContain(`${first} samePlace`);
    }
    const [input] = inputs;
    const asked = (changed: unknown) =>
      readCorner(file(changed)).notes.map(({ path, code }) => `${path} ${code}`);
    for (const [one, , other] of descriptor.ends) {
      const [a, b] = [one, other].map((path) => valueAt(input, placeAt(path)));
      const [part] = placeAt(one);
      expect(asked(withAt(withAt(input, one, b), other, a))).toContain(`${String(part)} endsExchanged`);
    }
    for (const { at, between, most } of descriptor.sizes) {
      const [y, z] = valueAt(input, placeAt(between[1])) as [number, number];
      expect(asked(withAt(input, between[0], [y + most + 1, z]))).toContain(`${at} sizeUnusual`);
    }
  });

  it('is refused for two points in one place that its linkage cannot have', () => {
    for (const input of inputs) {
      const paths = given(input);
      for (const [k, first] of paths.entries()) {
        for (const second of paths.slice(k + 1)) {
          const together = withAt(input, first, valueAt(input, placeAt(second)));
          if (issuesOf(() => made(together)).length > 0) continue;
          const left = issuesOf(() => mobility(modelOf(made(together)).drawing));
          expect(left, `${first} and ${second}: name them in \`apart\``).toEqual([]);
        }
      }
    }
  });

  it('is checked, or refused, where one of its points lies metres off', () => {
    for (const input of inputs) {
      for (const path of given(input)) {
        const [y, z] = valueAt(input, placeAt(path)) as [number, number];
        for (const far of [
          [y + 3000, z],
          [y, z + 3000],
        ]) {
          const off = withAt(input, path, far);
          const told = issuesOf(() => made(off)).length > 0 || readCorner(file(off)).notes.length > 0;
          expect(told, `${path} at [${far}]: name its part in \`sizes\``).toBe(true);
        }
      }
    }
  });

  it('is recovered from its survey, into a file as well', () => {
    for (const input of inputs) {
      const { points } = modelOf(made(input)).drawing;
      const offset = (valueAt(input, ['coilover', 'foreAftOffset']) as number | undefined) ?? 0;
      const moving = given(input).find(isMovingEnd);
      const entries = Object.entries(points);
      const found = survey({
        points: Object.fromEntries(
          entries.map(([name, [y, z]]) => [
            name,
            {
              estimate: [y + 2, z - 3],
              ...(moving !== undefined && name === names[moving] && { x: offset }),
            },
          ]),
        ),
        heights: entries.map(([of, [, value]]) => ({ of, value })),
        laterals: entries.map(([of, [value]]) => ({ of, value })),
      });
      const parts: Json = {
        kind,
        ...(moving !== undefined && { coilover: onOf(input, moving) }),
        otherEnd: valueAt(input, ['coilover', 'otherEnd', 'on']),
        rod: valueAt(input, ['rod', 'on']),
      };
      for (const name of Object.keys(parts)) if (parts[name] === undefined) delete parts[name];
      const surveyed = surveyedCorner(found, parts);
      const written: Json = writeSurveyedCorner({}, found, parts);
      for (const corner of [surveyed, readCorner(written).corner]) {
        expect(Object.keys(modelOf(corner).drawing.points)).toEqual(Object.keys(points));
        for (const [name, at] of Object.entries(modelOf(corner).drawing.points)) {
          at.forEach((value, axis) => expectWithin(value, points[name][axis], 1e-6));
        }
        expect(modelOf(corner).drawing.bodies).toBe(modelOf(made(input)).drawing.bodies);
        expect(modelOf(corner).shock.foreAftOffset).toBe(offset);
        const { coordinates } = corner.plusMinus as { coordinates: readonly string[] };
        expect(new Set(coordinates)).toEqual(new Set(hardpointsOf(modelOf(corner)).map(({ name }) => name)));
      }
    }
  });

  it('is drawn with a name of its own for each point', () => {
    for (const input of inputs) {
      const corner = made(input);
      const model = modelOf(corner);
      const called = Object.keys(model.drawing.points).map((point) => pointName(model, point));
      expect(new Set(called).size).toBe(called.length);
      const picture = drawCorner(corner, [-20, 0, 20]);
      for (const name of called) expect(picture).toContain(`>${name}<`);
      expect(called.join()).not.toMatch(/[a-z][A-Z]/);
    }
  });
});

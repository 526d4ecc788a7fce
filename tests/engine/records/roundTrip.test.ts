import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import type { BagResult } from '../../../shared-types/bag.ts';
import { z } from '../../../shared-types/schema.ts';
import { planSchema, type Plan } from '../../../shared-types/plan.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';
import { planFields } from '../../../renderer/engine/records/planFields.ts';
import { planOfTask } from '../../../renderer/engine/records/planOfTask.ts';
import { readableTask } from '../../../renderer/engine/records/readableTask.ts';
import { readPlanFile } from '../../../renderer/engine/records/readPlanFile.ts';
import { textOfPlan } from '../../../renderer/engine/records/textOfPlan.ts';
import { printed } from '../../electron/headless/inProcess.ts';
import { randomPlan } from '../../reference/randomPlan.ts';
import { fullPlan } from './fullPlan.ts';
import { disguised, keptTask, withoutTask } from './keptTask.ts';
import { shareOf } from '../../support/shareOf.ts';

const demoText = (name: string) => readFileSync(new URL(`../../../data/demo/${name}.json`, import.meta.url), 'utf8');
const demos = ['skua-rock-light', 'tarn-array'].map((name) => ({ name, text: demoText(name) }));

describe.each(demos)('the worked example $name', ({ name, text }) => {
  const plan = planSchema.parse(JSON.parse(text));
  const { records } = keptTask(plan);

  it('comes back from its records as the same plan, and as the same text whatever the keys', () => {
    expect(planOfTask(records).plan).toEqual(plan);
    expect(planOfTask(records).leftOut).toEqual([]);
    expect(textOfPlan(planOfTask(disguised(records)).plan)).toBe(textOfPlan(plan));
  });

  it('has no record that a form would refuse', () => {
    expect(records.items.flatMap((item) => faultsOf('items', item))).toEqual([]);
    expect(records.steps.flatMap((step) => faultsOf('steps', step))).toEqual([]);
    expect(records.outings.flatMap((outing) => faultsOf('outings', outing))).toEqual([]);
    expect(faultsOf('tasks', records.task)).toEqual([]);
    expect(readPlanFile(text, name)).toEqual({ plan, ignored: [], unfinished: [] });
  });

  it('is read whole from its records', () => {
    const read = readableTask(records);
    expect(read.complete).toBe(true);
    expect(read.missing).toEqual([]);
    expect(read.resolved).toEqual(readPlan(text));
  });

  it('is exported as a file from which the command line plans the same bag, byte for byte', async () => {
    const exported = textOfPlan(planOfTask(disguised(records)).plan, { forPeople: true });
    expect(JSON.parse(exported)).toEqual(JSON.parse(text));
    // One outing of each: to plan all of them says no more of the file, and takes most of the time.
    const one = lastOuting(plan);
    const own = await bagOf(`${name}-own.json`, JSON.stringify(one));
    expect(own.status).toBe('optimal');
    const oneExported = textOfPlan(planOfTask(disguised(keptTask(one).records)).plan, { forPeople: true });
    expect((await bagOf(`${name}.json`, oneExported)).bytes).toBe(own.bytes);
  });
});

const folder = mkdtempSync(join(tmpdir(), 'bagwright-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A plan with its last outing alone, and the steps of that. */
function lastOuting(plan: Plan): Plan {
  const outings = plan.outings.slice(-1);
  const steps = plan.steps
    .filter(({ outing }) => outings.some(({ id }) => id === outing))
    .map(({ after: _earlier, ...step }) => step);
  return { ...plan, outings, steps };
}

async function bagOf(name: string, text: string): Promise<{ bytes: string; status: string }> {
  const file = join(folder, name);
  writeFileSync(file, text);
  const { out } = await printed('bag', file);
  return { bytes: out, status: (JSON.parse(out) as BagResult).status };
}

describe('random plans, 500 in all', () => {
  it('come back from their records as the same plans', () => {
    for (let seed = 1; seed <= shareOf(500); seed += 1) {
      const plan = planSchema.parse(randomPlan(seed).plan);
      const { records } = keptTask(plan);
      const back = planOfTask(disguised(records)).plan;
      expect(withoutTask(back), `seed ${seed}`).toEqual(withoutEmptyPlaces(plan));
      expect(readableTask(records).complete, `seed ${seed}`).toBe(true);
    }
  });
});

/** A list of places that holds none is no list. */
function withoutEmptyPlaces(plan: Plan): Omit<Plan, 'task'> {
  const { places, ...others } = withoutTask(plan);
  return places === undefined || places.length === 0 ? others : { ...others, places };
}

describe('a plan that has every field', () => {
  const plan = fullPlan();

  it('really has every field of the schema', () => {
    const wanted = pathsOfSchema(planSchema);
    expect(wanted.length).toBeGreaterThan(100);
    const given = new Set(pathsOfValue(plan));
    expect(wanted.filter((path) => !given.has(path))).toEqual([]);
  });

  it('keeps each of them', () => {
    const { records, ignored } = keptTask(plan);
    expect(ignored).toEqual([]);
    expect(planOfTask(records).plan).toEqual(planSchema.parse(plan));
    expect(readableTask(records).missing).toEqual([]);
  });
});

describe('any part of a full plan', () => {
  it('comes back as it was taken out', () => {
    const full = planSchema.parse(fullPlan());
    const optional = pathsOfSchema(planSchema, true);
    fc.assert(
      fc.property(fc.subarray(optional), (dropped) => {
        const plan = planSchema.parse(without(full, new Set(dropped)));
        expect(withoutTask(planOfTask(disguised(keptTask(plan).records)).plan)).toEqual(withoutEmptyPlaces(plan));
      }),
      { numRuns: 300, seed: 5 },
    );
  });
});

describe('what a record cannot keep', () => {
  it('is told: unknown fields, and a strength that says nothing', () => {
    const plan = fullPlan();
    const odd = {
      ...plan,
      colour: 'x',
      catalog: { ...plan.catalog, fasteners: [{ ...plan.catalog.fasteners[0], strength: 7 }] },
    };
    const { ignored } = readPlanFile(JSON.stringify(odd), 'odd.json');
    expect(ignored).toEqual(['colour', 'catalog.fasteners[0].strength']);
  });

  it('names every field a plan has of an item, an outing and a step', () => {
    const lists = planSchema.shape.catalog.shape;
    const of = (list: keyof typeof lists) => Object.keys(lists[list].unwrap().element.shape);
    const fields = (own: readonly string[], also: string[]) => [...own, ...also].toSorted();
    expect(fields(planFields.fastener, ['id'])).toEqual(of('fasteners').toSorted());
    expect(fields(planFields.socket, ['id'])).toEqual(of('sockets').toSorted());
    expect(
      fields(planFields.extension, ['id'])
        .map((f) => (f === 'form' ? 'kind' : f))
        .toSorted(),
    ).toEqual(of('extensions').toSorted());
    expect(fields(planFields.driver, ['id'])).toEqual(of('drivers').toSorted());
    expect(fields(planFields['torque-tool'], ['id'])).toEqual(of('torqueTools').toSorted());
    expect(fields(planFields.gear, ['id'])).toEqual(of('carryGear').toSorted());
    expect(fields(planFields.bag, ['id'])).toEqual(of('bags').toSorted());
    expect(fields(planFields.step, ['id'])).toEqual(
      Object.keys(planSchema.shape.steps.unwrap().element.shape).toSorted(),
    );
    expect(fields(planFields.outing, ['id'])).toEqual(
      Object.keys(planSchema.shape.outings.unwrap().element.shape).toSorted(),
    );
  });
});

/** Every field of a schema by path, lists without their number; with `optionalOnly`, those that may be absent. */
function pathsOfSchema(schema: z.ZodType, optionalOnly = false, at = ''): string[] {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) {
    return pathsOfSchema(schema.unwrap() as z.ZodType, optionalOnly, at);
  }
  if (schema instanceof z.ZodArray) return pathsOfSchema(schema.element as z.ZodType, optionalOnly, at);
  if (!(schema instanceof z.ZodObject)) return [];
  return Object.entries(schema.shape as Record<string, z.ZodType>).flatMap(([field, inner]) => {
    const path = at === '' ? field : `${at}.${field}`;
    const own = optionalOnly && !(inner instanceof z.ZodOptional) ? [] : [path];
    return [...own, ...pathsOfSchema(inner, optionalOnly, path)];
  });
}

function pathsOfValue(value: unknown, at = ''): string[] {
  if (Array.isArray(value)) return value.flatMap((one) => pathsOfValue(one, at));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([field, inner]) => {
    const path = at === '' ? field : `${at}.${field}`;
    return [path, ...pathsOfValue(inner, path)];
  });
}

function without(value: unknown, dropped: ReadonlySet<string>, at = ''): unknown {
  if (Array.isArray(value)) return value.map((one) => without(one, dropped, at));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([field, inner]) => {
      const path = at === '' ? field : `${at}.${field}`;
      return dropped.has(path) ? [] : [[field, without(inner, dropped, path)]];
    }),
  );
}

import type { BagObjective, BagResult } from '../../../shared-types/bag.ts';
import type { FrozenLine, FrozenPlace, FrozenThing } from '../../../shared-types/records/revision.ts';
import type { StepFacts } from '../cards/index.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { byText } from '../records/inOrder.ts';
import { showNumber } from '../units/index.ts';
import { fieldChanges } from './fieldChanges.ts';
import type { FieldChange } from './fieldChanges.ts';
import { lineChanges } from './lineChanges.ts';
import type { LineChange } from './lineChanges.ts';
import { outOfOrder } from './outOfOrder.ts';

/** One of the two: a frozen manifest as it is read, or the task as it stands, which may have no bag. */
export interface Side {
  plan: ResolvedPlan;
  /** Null where the task has no bag of its present state. */
  result: BagResult | null;
  things: readonly FrozenThing[];
  lines: readonly FrozenLine[];
  /** Where a person laid pieces. */
  places?: readonly FrozenPlace[];
  facts: ReadonlyMap<string, StepFacts>;
}

/** A thing, step or outing that only one has, or that both have and say otherwise. */
export interface EntryChange {
  code: string;
  name: string;
  kind: 'added' | 'gone' | 'changed';
  /** Empty where only one has it. */
  fields: FieldChange[];
}

export interface Comparison {
  /** False where one of the two has no bag: of lines, things and stacks then nothing is said. */
  bags: boolean;
  lines: LineChange[];
  /** What is on either manifest. */
  things: EntryChange[];
  steps: EntryChange[];
  outings: EntryChange[];
  /** Of the catalog, what is on neither manifest. */
  stock: EntryChange[];
  /** The task itself, and what was asked of the bag. */
  whole: FieldChange[];
  same: { lines: number; things: number; steps: number };
}

/**
 * Two frozen manifests held against each other, or one against the task as it stands: whatever their hashes cover and is not the same is told.
 *
 * @param one - the earlier
 * @param other - the later
 * @returns every line, thing, step, outing and setting that is not the same in both
 */
export function compareRevisions(one: Side, other: Side): Comparison {
  const bags = one.result !== null && other.result !== null;
  const lines = bags ? lineChanges(one.lines, other.lines) : { changes: [], same: 0 };
  const [before, after] = [catalogOf(one.plan), catalogOf(other.plan)];
  const onManifest = new Set(bags ? [...one.things, ...other.things].map(({ id }) => id) : []);
  const things = entryChanges(
    thingEntries(bags ? one : null, before),
    thingEntries(bags ? other : null, after),
    byText,
  );
  const off = (entries: Entries): Entries => new Map([...entries].filter(([code]) => !onManifest.has(code)));
  const steps = entryChanges(stepEntries(one, other, bags), stepEntries(other, one, bags));
  return {
    bags,
    lines: lines.changes,
    things: things.changes,
    steps: steps.changes,
    outings: entryChanges(outingEntries(one, bags), outingEntries(other, bags)).changes,
    stock: entryChanges(off(before), off(after), byText).changes,
    whole: fieldChanges(wholeOf(one, bags), wholeOf(other, bags)),
    same: { lines: lines.same, things: things.same, steps: steps.same },
  };
}

/**
 * How many things a comparison tells.
 *
 * @param found - what `compareRevisions` gives
 * @returns the number of lines, things, steps, outings, entries of the stock and settings that are not the same; 0 for two of one content
 */
export function changeCount({ lines, things, steps, outings, stock, whole }: Comparison): number {
  return lines.length + things.length + steps.length + outings.length + stock.length + whole.length;
}

type Entries = ReadonlyMap<string, { name: string; says: object }>;

function entryChanges(
  one: Entries,
  other: Entries,
  order?: (a: string, b: string) => number,
): { changes: EntryChange[]; same: number } {
  const codes = [...new Set([...other.keys(), ...one.keys()])];
  if (order !== undefined) codes.sort(order);
  const changes: EntryChange[] = [];
  let same = 0;
  for (const code of codes) {
    const [was, is] = [one.get(code), other.get(code)];
    const name = is?.name ?? was?.name ?? code;
    if (was === undefined) changes.push({ code, name, kind: 'added', fields: [] });
    else if (is === undefined) changes.push({ code, name, kind: 'gone', fields: [] });
    else {
      const fields = fieldChanges(was.says, is.says);
      if (fields.length === 0) same += 1;
      else changes.push({ code, name, kind: 'changed', fields });
    }
  }
  return { changes, same };
}

/** Everything of a plan's catalog under its code. An extension's kind is its form: it is an extension already. */
function catalogOf({ source: { catalog } }: ResolvedPlan): Entries {
  const entries = new Map<string, { name: string; says: object }>();
  for (const [list, all] of Object.entries(catalog)) {
    for (const { id, ...says } of all) {
      const form = list === 'extensions' && 'kind' in says ? { ...says, kind: undefined, form: says.kind } : says;
      entries.set(id, { name: says.name ?? id, says: form });
    }
  }
  return entries;
}

function thingEntries(side: Side | null, catalog: Entries): Entries {
  if (side === null) return new Map();
  return new Map(
    side.things.map(({ id, ...thing }) => {
      const { record, ...said } = thing;
      const entry = { ...catalog.get(id)?.says, ...said };
      return [id, { name: thing.name, says: { ...entry, ...(record === undefined ? {} : { catalogEntry: record }) } }];
    }),
  );
}

function stepEntries(side: Side, against: Side, bags: boolean): Entries {
  const { plan, result, facts } = side;
  const planned = new Map(bags ? result?.outings.flatMap(({ steps }) => steps.map((step) => [step.id, step])) : []);
  const numbers = new Map(plan.steps.map(({ id }, index) => [id, index + 1]));
  const elsewhere = outOfOrder(
    plan.steps.map(({ id }) => id),
    against.plan.steps.map(({ id }) => id),
  );
  return new Map(
    plan.source.steps.map(({ id, ...says }) => {
      const { stack, hold, setting, turns, strokes } = planned.get(id) ?? {};
      const own = {
        ...says,
        ...facts.get(id),
        ...{ stack, heldBy: hold, turns, strokes },
        ...(setting == null ? {} : { setting: `${showNumber(setting.value, 6)} ${setting.unit}` }),
        ...(elsewhere.has(id) ? { number: numbers.get(id) } : {}),
      };
      return [id, { name: says.name ?? id, says: own }];
    }),
  );
}

function outingEntries({ plan, result, places = [] }: Side, bags: boolean): Entries {
  return new Map(
    plan.source.outings.map(({ id, ...says }) => {
      const massKg = bags ? result?.outings.find((outing) => outing.id === id)?.massKg : undefined;
      const mass = massKg === undefined ? {} : { mass: `${showNumber(massKg, 6)} kg` };
      const laid = bags ? places.filter(({ outing }) => outing === id).map(placeText) : [];
      const byHand = laid.length === 0 ? {} : { laidByHand: laid };
      return [id, { name: says.name ?? id, says: { ...says, ...mass, ...byHand } }];
    }),
  );
}

/** "2 of T-07 in bag L, lid, 10 mm from the left, 45 mm from the top, turned" */
function placeText({ bag, item, pieces, xMm, yMm, turned, pocket }: FrozenPlace): string {
  const where = pocket === undefined ? `bag ${bag}` : `bag ${bag}, ${pocket}`;
  const at = `${showNumber(xMm, 6)} mm from the left, ${showNumber(yMm, 6)} mm from the top`;
  return `${pieces} of ${item} in ${where}, ${at}${turned ? ', turned' : ''}`;
}

/** Each figure with its unit. */
function leastOf({ minimised, value, unit, bound, gap }: BagObjective): object {
  const amount = (figure: number): string => `${showNumber(figure, 6)} ${unit}`;
  return { minimised, value: amount(value), bound: amount(bound), gap: `${showNumber(gap * 100, 4)} %` };
}

function wholeOf({ plan, result }: Side, bags: boolean): object {
  const { task, places, rangeShareMin } = plan.source;
  const own = { task, places, rangeShareMin };
  if (!bags || result === null) return own;
  const { status, objective, singleLoss, tolerance, wishes, problems, unchecked, ignoredFields, infeasible } = result;
  return {
    ...own,
    bag: {
      status,
      least: objective === null ? null : leastOf(objective),
      singleLoss,
      tolerance,
      wishes,
      problems,
      unchecked,
      ignoredFields,
      infeasible,
    },
  };
}

import type { BagOuting, BagResult } from '../../../shared-types/bag.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { FrozenFacts, FrozenLine, FrozenThing, RevisionContent } from '../../../shared-types/records/revision.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import type { StepFacts } from '../cards/index.ts';
import { RefusedError } from '../errors.ts';
import { frozenLying, lyingNowhere } from './frozenPlaces.ts';
import type { FrozenLying } from './frozenPlaces.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { byText } from '../records/inOrder.ts';
import type { Missing } from '../records/readableTask.ts';

/** A task as it stands, with its planned bag. */
export interface ToFreeze {
  task: Pick<Task, 'shelves'>;
  /** The task as a plan file. */
  text: string;
  /** The same, read. */
  plan: ResolvedPlan;
  /** What of the task could not be read. */
  missing: readonly Missing[];
  /** The bag as it was planned and laid; null where there is none of this very state. */
  result: BagResult | null;
  /**
   * How its lines came to lie so: the answer as the planner gave it, and what a person laid of each outing. Absent: the bag is laid as it
   * was planned, nothing by hand.
   */
  laid?: { planned: BagResult; linesOf: (outing: string) => readonly LaidLine[] };
  /** Of what is packed already and keeps its pocket. */
  pocketOf?: (outing: string, bag: string, item: string) => string | undefined;
  /** The catalog, in any order; things of other shelves may be among them. */
  items: Iterable<Item>;
  /** What the cards say of each step beyond the plan, by its code. */
  facts: ReadonlyMap<string, StepFacts>;
}

/**
 * Why a task cannot be frozen as it stands.
 *
 * @returns the reason in words, or null where it can
 */
export function whyNotFrozen({ plan, missing, result }: Pick<ToFreeze, 'plan' | 'missing' | 'result'>): Refusal | null {
  const no = (message: string, more: Partial<Refusal> = {}): Refusal => ({ code: 'contradiction', message, ...more });
  const [first] = missing;
  if (first !== undefined) {
    const more = missing.length === 1 ? '' : `, and ${missing.length - 1} more`;
    return no(`The task is not complete: ${first.code}: ${first.reason}${more}`, {
      field: first.path,
      value: first.code,
    });
  }
  if (plan.outings.length === 0) return no('The task has no outing: nothing leaves', { field: 'outings' });
  if (result === null) return no('There is no bag of this state of the task: plan it first', { field: 'result' });
  if (result.status === 'infeasible')
    return no('No bag does every step of this task: nothing that cannot be done is frozen', { field: 'result.status' });
  const without = plan.outings.find(({ id }) => !result.outings.some((outing) => outing.id === id));
  if (without !== undefined)
    return no(`Planning was stopped before it found a bag for outing ${without.name}`, {
      field: 'result.outings',
      value: without.id,
    });
  return null;
}

/**
 * A task and its planned bag as they are frozen: the plan word for word, what lies in which bag, each thing of it as the catalog has it now,
 * and what the cards say. A matter of what people see and of the catalog's keys alone: in whatever order the records come, the
 * same state gives the same content, byte for byte.
 *
 * @param state - the task as it stands
 * @returns what is hashed and kept
 * @throws RefusedError where the task is not complete, has no bag of this very state, or the bag names what the catalog does not have
 */
export function freeze(state: ToFreeze): RevisionContent {
  const { text, plan, result } = state;
  const refusal = whyNotFrozen(state);
  if (refusal !== null || result === null)
    throw new RefusedError(refusal ?? { code: 'missing-field', message: 'There is no bag', field: 'result' });
  const lying = new Map(result.outings.map((outing) => [outing.id, lyingOf(state, result, outing)]));
  const lines = result.outings.flatMap((outing) => linesOf(plan, outing, lying.get(outing.id) ?? lyingNowhere));
  const places = [...lying.values()].flatMap((one) => one.places);
  const codes = new Set(lines.flatMap(({ bag, item }) => [bag, item]));
  const live = new Map(liveItems(state).map((item) => [item.code, item]));
  const things = [...codes].toSorted(byText).map((code) => {
    const item = live.get(code);
    if (item !== undefined) return thingOf(item);
    throw new RefusedError({
      code: 'unknown-id',
      message: `the bag has ${code}, which the task’s shelves do not have any more`,
      field: 'items.code',
      value: code,
    });
  });
  return {
    ...{ planText: text, result, things, lines },
    ...(places.length === 0 ? {} : { places }),
    facts: plan.steps.map(({ id }) => factsOf(id, state.facts)),
  };
}

function liveItems({ task, items }: ToFreeze): Item[] {
  return [...items].filter(({ shelf, retired }) => !retired && task.shelves.includes(shelf));
}

function lyingOf({ plan, laid, pocketOf }: ToFreeze, result: BagResult, outing: BagOuting): FrozenLying {
  const planned = laid?.planned.outings.find(({ id }) => id === outing.id) ?? outing;
  return frozenLying(plan, planned, laid?.linesOf(outing.id) ?? [], {
    result,
    ...(pocketOf === undefined ? {} : { pocketOf: (bag, item) => pocketOf(outing.id, bag, item) }),
  });
}

/** Outing by outing, bag by bag in the plan's order, pocket by pocket in the bag's, as the answer has them within. */
function linesOf(plan: ResolvedPlan, { id: outing, items }: BagOuting, { pocketsOf }: FrozenLying): FrozenLine[] {
  const known = [...plan.bags.keys()];
  const stray = items.find(({ bag }) => !plan.bags.has(bag));
  if (stray !== undefined)
    throw new RefusedError({
      code: 'unknown-id',
      message: `${stray.id} lies in ${stray.bag}, which is no bag of the task`,
      field: 'result.outings.items.bag',
      value: stray.bag,
    });
  return known.flatMap((bag) => {
    const lines = items
      .filter((item) => item.bag === bag)
      .map(({ id: item, quantity, because }): FrozenLine => {
        // A line is packed in the pocket that has most of it; what of it lies in others is said.
        const lies = pocketsOf(bag, item);
        const [most] = lies.toSorted((a, b) => b.pieces - a.pieces);
        const apart = lies.filter((one) => one !== most);
        return {
          ...{ outing, bag, item, quantity, because: [...because] },
          ...(most === undefined ? {} : { pocket: most.pocket }),
          ...(apart.length === 0 ? {} : { apart }),
        };
      });
    const pockets = plan.bags.get(bag)?.pockets ?? [];
    return lines.toSorted((a, b) => pockets.indexOf(a.pocket ?? '') - pockets.indexOf(b.pocket ?? ''));
  });
}

function thingOf(item: Item): FrozenThing {
  const { id: record, code, name, kind, parts, tag, keptAt } = item;
  const tool = item.kind === 'torque-tool' ? item : null;
  return {
    ...{ id: code, record, name: name ?? code, kind, parts },
    ...(tag === undefined ? {} : { tag }),
    ...(tool?.serial === undefined ? {} : { serial: tool.serial }),
    ...(tool?.calibrationDue === undefined ? {} : { calibrationDue: tool.calibrationDue }),
    ...(item.kind === 'gear' && item.consumed === true ? { consumed: true } : {}),
    ...(keptAt === undefined ? {} : { keptAt }),
  };
}

function factsOf(step: string, facts: ReadonlyMap<string, StepFacts>): FrozenFacts {
  const { where = null, positions = null, passes = [], ifFails, carried = [], at = null } = facts.get(step) ?? {};
  return {
    ...{ step, where, positions, passes: [...passes], carried: [...carried] },
    ...(ifFails === undefined ? {} : { ifFails: { ...ifFails } }),
    at: at === null ? null : { ...at, order: at.order === null ? null : [...at.order] },
  };
}

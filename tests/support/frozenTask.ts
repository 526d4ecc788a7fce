/** A task with its planned bag as it would be frozen, and the revision that comes of it. Everything invented. */
import type { Revision } from '../../shared-types/records/revision.ts';
import type { Item } from '../../shared-types/records/item.ts';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { stepFacts } from '../../renderer/engine/cards/index.ts';
import { freeze } from '../../renderer/engine/frozen/index.ts';
import type { ToFreeze } from '../../renderer/engine/frozen/index.ts';
import { contentHash } from '../../renderer/engine/record/chain.ts';
import { readableTask } from '../../renderer/engine/records/readableTask.ts';
import type { TaskRecords } from '../../renderer/engine/records/planOfTask.ts';
import { textOfPlan } from '../../renderer/engine/records/textOfPlan.ts';
import { keptTask } from '../engine/records/keptTask.ts';
import { mapResult, mapSource } from './bagMapPlan.ts';

/** SHA-256 as the page has it; Node has the same. */
export async function digest(text: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The state of a task from its records, with the bag given or planned. */
export async function stateOf(
  records: TaskRecords,
  { result, carried }: { result?: ToFreeze['result']; carried?: ReadonlyMap<string, readonly string[]> } = {},
): Promise<ToFreeze> {
  const { plan, resolved, missing } = readableTask(records);
  const interfaces = new Map(records.interfaces.map((one) => [one.id, one]));
  return {
    ...{ task: records.task, text: textOfPlan(plan), plan: resolved, missing, items: records.items },
    result: result === undefined ? await planBag(resolved, { minimise: 'mass' }) : result,
    facts: stepFacts(records.steps, interfaces, carried),
  };
}

/** As a plan's records make it; `change` is what the catalog says of its things beyond the plan. */
export async function stateOfPlan(
  plan: unknown,
  { change, ...more }: { change?: (item: Item) => Item } & NonNullable<Parameters<typeof stateOf>[1]> = {},
): Promise<ToFreeze> {
  const { records } = keptTask(plan);
  return stateOf({ ...records, items: records.items.map((item) => change?.(item) ?? item) }, more);
}

/** A revision of it. */
export async function revisionOf(state: ToFreeze, more: Partial<Revision> = {}): Promise<Revision> {
  const content = freeze(state);
  return {
    ...{ id: 'rev-1', rev: 0, task: 'job', number: 1, called: state.plan.source.task?.name ?? 'Task' },
    ...{ at: '2026-11-26T08:00:00+01:00', by: { name: 'P. Packer', role: 'packer' }, why: 'First issue' },
    ...{ content, hash: await contentHash(content, digest) },
    ...more,
  };
}

/** Three bags of two roles: a ratchet, a socket, three tethers of two parts each, two wipes that are used up. */
export async function mapRevision(more: Partial<Revision> = {}): Promise<Revision> {
  const state = await stateOfPlan(mapSource, { result: mapResult, change: ofParts });
  return revisionOf(state, more);
}

function ofParts(item: Item): Item {
  if (item.code === 'T-07') return { ...item, parts: 2, tag: 7 };
  return item.kind === 'gear' && item.code === 'W-10' ? { ...item, consumed: true } : item;
}

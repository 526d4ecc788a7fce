import type { Refusal } from '../../../shared-types/errors.ts';
import type { AnyRecord, RecordOf, TableName } from '../../../shared-types/records/index.ts';
import { itemReferrers } from './itemReferrers.ts';
import { refusalOf } from './lostReference.ts';
import type { Referrer } from './lostReference.ts';
import { keyFields } from '../../engine/records/keyFields.ts';
import { keysAt } from './parents.ts';
import { textAt } from './view.ts';
import type { View } from './view.ts';

/** Removals, and changes of a code, that would leave others pointing at nothing; each with who points there. */
export async function brokenReferences(view: View): Promise<Refusal[]> {
  const byKey = await removedByKey(view);
  const byItem = await itemReferrers(view);
  const within = await lostWithinTask(view);
  return [...byKey, ...byItem, ...within];
}

function removedFrom<T extends TableName>(view: View, table: T): RecordOf<T>[] {
  return view
    .changesIn(table)
    .flatMap(({ before, after }) => (after === null && before !== null ? [before as RecordOf<T>] : []));
}

async function removedByKey(view: View): Promise<Refusal[]> {
  const referrers = new Map<string, { table: TableName; lost: AnyRecord; by: Referrer[] }>();
  for (const { table, field, to } of keyFields) {
    // A planned bag goes with its task: see `followUps`.
    if (table === 'results') continue;
    const lost = new Map(removedFrom(view, to).map((record) => [record.id, record]));
    if (lost.size === 0) continue;
    // What goes or is changed with it is read from the change.
    const isChanged = (id: string): boolean => view.changeOf(table, id) !== undefined;
    const kept = await view.reads.where(table, field, [...lost.keys()], isChanged);
    for (const record of view.afterwards(table, kept)) {
      for (const key of keysAt(record, field)) {
        const gone = lost.get(key);
        if (gone === undefined) continue;
        const entry = referrers.get(key) ?? { table: to, lost: gone, by: [] };
        entry.by.push({ table, record });
        referrers.set(key, entry);
      }
    }
  }
  return [...referrers.values()].map(({ table, lost, by }) => refusalOf(table, lost, true, by));
}

/** Outings and steps are named by code within their task. */
async function lostWithinTask(view: View): Promise<Refusal[]> {
  const refusals: Refusal[] = [];
  for (const table of ['outings', 'steps'] as const) {
    for (const change of view.changesIn(table)) {
      if (change.before === null) continue;
      const lost = change.before as RecordOf<typeof table>;
      if (textAt(change.after, 'code') === lost.code && textAt(change.after, 'task') === lost.task) continue;
      const same = await view.reads.where(table, '[task+code]', [[lost.task, lost.code]]);
      const replaced = view.afterwards(table, same).some(({ task, code }) => task === lost.task && code === lost.code);
      if (replaced) continue;
      const steps = view.afterwards('steps', await view.reads.where('steps', 'task', [lost.task]));
      const by = steps.filter(
        (step) =>
          step.task === lost.task &&
          (table === 'outings' ? step.outing === lost.code : step.ifFails?.step === lost.code),
      );
      if (by.length === 0) continue;
      const referrers = by.map((record): Referrer => ({ table: 'steps', record }));
      refusals.push(refusalOf(table, lost, change.after === null, referrers));
    }
  }
  return refusals;
}

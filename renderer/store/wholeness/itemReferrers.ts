import type { Refusal } from '../../../shared-types/errors.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { RecordOf } from '../../../shared-types/records/index.ts';
import { refusalOf } from './lostReference.ts';
import type { Referrer } from './lostReference.ts';
import { textAt } from './view.ts';
import type { View } from './view.ts';

/**
 * Items are named by code: by the steps and outings of tasks that draw on their shelf, and by interfaces. A code that
 * another shelf of the task has as well is not lost to it.
 */
export async function itemReferrers(view: View): Promise<Refusal[]> {
  const lost = view.changesIn('items').flatMap((change) => {
    if (change.before === null) return [];
    const before = change.before as Item;
    const stays = textAt(change.after, 'code') === before.code && textAt(change.after, 'shelf') === before.shelf;
    return stays ? [] : [{ before, removed: change.after === null }];
  });
  if (lost.length === 0) return [];
  const codes = [...new Set(lost.map(({ before }) => before.code))];
  const holders = view.afterwards('items', await view.reads.where('items', 'code', codes));
  const shelvesWith = (code: string): Set<string> =>
    new Set(holders.flatMap((item) => (item.code === code ? [item.shelf] : [])));

  const shelves = [...new Set(lost.map(({ before }) => before.shelf))];
  const tasks = view.afterwards('tasks', await view.reads.where('tasks', 'shelves', shelves));
  const taskIds = tasks.map(({ id }) => id);
  const steps = view.afterwards('steps', await view.reads.where('steps', 'task', taskIds));
  const outings = view.afterwards('outings', await view.reads.where('outings', 'task', taskIds));
  const interfaces = view.afterwards('interfaces', await view.reads.where('interfaces', 'fastener', codes));

  return lost.flatMap(({ before, removed }) => {
    const { code, shelf } = before;
    const left = shelvesWith(code);
    const losing = new Set(
      tasks.flatMap((task) =>
        task.shelves.includes(shelf) && !task.shelves.some((one) => left.has(one)) ? [task.id] : [],
      ),
    );
    const referrers: Referrer[] = [
      ...steps.flatMap((record): Referrer[] =>
        losing.has(record.task) && itemCodesOf(record).has(code) ? [{ table: 'steps', record }] : [],
      ),
      ...outings.flatMap((record): Referrer[] =>
        losing.has(record.task) && record.bags.includes(code) ? [{ table: 'outings', record }] : [],
      ),
      ...interfaces.flatMap((record): Referrer[] =>
        left.size === 0 && record.fastener === code ? [{ table: 'interfaces', record }] : [],
      ),
    ];
    return referrers.length === 0 ? [] : [refusalOf('items', before, removed, referrers)];
  });
}

function itemCodesOf(step: RecordOf<'steps'>): Set<string> {
  const named = [
    step.fastener,
    step.hold?.fastener,
    ...(step.gear ?? []).map(({ id }) => id),
    ...(step.moves ?? []).map(({ id }) => id),
  ];
  return new Set(named.filter((code) => code !== undefined));
}

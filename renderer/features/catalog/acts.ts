import type { Item, LeftApart, Shelf } from '../../../shared-types/records/item.ts';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { stepRenamed, usageCount } from './usage.ts';
import type { Usage } from './usage.ts';
import { countOf, listed } from './words.ts';

const put = (item: Item): Proposal => ({ table: 'items', put: item });

export function addAct(item: Item): Act {
  return { action: 'add-item', title: `Add ${item.code}`, proposals: [put(item)] };
}

/** Keeps an item changed. Where its code changed, what names it by the old one follows in the same act, watch-outs tied to it too. */
export function editAct(before: Item, item: Item, usage: Usage, watchOuts: Iterable<WatchOut> = []): Act {
  const title = before.code === item.code ? `Edit ${item.code}` : `Rename ${before.code} to ${item.code}`;
  return {
    action: 'edit-item',
    title,
    proposals: [put(item), ...renames(before.code, item.code, usage), ...tiesMoved(before, item, watchOuts)],
  };
}

function renames(from: string, to: string, usage: Usage): Proposal[] {
  if (from === to) return [];
  return [
    ...usage.steps.flatMap(({ step }): Proposal[] => {
      const renamed = stepRenamed(step, from, to);
      return renamed === null ? [] : [{ table: 'steps', put: renamed }];
    }),
    ...usage.outings.map(({ outing }): Proposal => ({
      table: 'outings',
      put: { ...outing, bags: outing.bags.map((code) => (code === from ? to : code)) },
    })),
    ...usage.interfaces.map((at): Proposal => ({ table: 'interfaces', put: { ...at, fastener: to } })),
    ...usage.packs.flatMap((pack) =>
      pack.supplies === undefined ? [] : [put({ ...pack, supplies: { ...pack.supplies, fastener: to } })],
    ),
  ];
}

/**
 * Two entries for one thing made one: what names the other names this one from now on, its pieces are counted here, and
 * the other is retired.
 */
export function mergeAct(keep: Item, other: Item, usage: Usage): Act {
  const [here, there] = [onHandOf(keep), onHandOf(other)];
  const both = there === null || here === null ? keep : { ...keep, onHand: here + there };
  const gone = there === null || here === null ? { ...other, retired: true } : { ...other, retired: true, onHand: 0 };
  const named = renames(other.code, keep.code, usage);
  const own = named.some((one) => 'put' in one && one.put.id === keep.id);
  return {
    action: 'merge-items',
    title: `Merge ${other.code} into ${keep.code}`.slice(0, 200),
    proposals: [...(own ? [] : [put(both)]), put(gone), ...named],
  };
}

const onHandOf = (item: Item): number | null => ('onHand' in item ? (item.onHand ?? 0) : null);

function tiesMoved(from: Item, to: Item, watchOuts: Iterable<WatchOut>): Proposal[] {
  if (from.code === to.code && from.shelf === to.shelf) return [];
  const isTo = (tie: WatchOut['ties'][number]): boolean =>
    tie.to === 'item' && tie.shelf === from.shelf && tie.code === from.code;
  return [...watchOuts].flatMap((record): Proposal[] =>
    record.ties.some(isTo)
      ? [
          {
            table: 'watchOuts',
            put: {
              ...record,
              ties: record.ties.map((tie) => (isTo(tie) ? { ...tie, shelf: to.shelf, code: to.code } : tie)),
            },
          },
        ]
      : [],
  );
}

/** "5 steps, 1 outing and 2 interfaces name S-18D"; null where nothing does. */
export function namedText(code: string, usage: Usage): string | null {
  const { steps, outings, interfaces, packs } = usage;
  if (usageCount(usage) === 0) return null;
  const words = [
    ...(steps.length === 0 ? [] : [countOf(steps.length, 'step')]),
    ...(outings.length === 0 ? [] : [countOf(outings.length, 'outing')]),
    ...(interfaces.length === 0 ? [] : [countOf(interfaces.length, 'interface')]),
    ...(packs.length === 0 ? [] : [countOf(packs.length, 'pack')]),
  ];
  return `${listed(words)} ${usageCount(usage) === 1 ? 'names' : 'name'} ${code}`;
}

export function removeAct({ id, rev, code }: Item): Act {
  return { action: 'remove-item', title: `Remove ${code}`, proposals: [{ table: 'items', remove: { id, rev } }] };
}

/** What is changed in several items at once. */
export type BulkChange =
  | { field: 'retired'; to: boolean }
  | { field: 'kit'; to: Item['kit'] }
  | { field: 'keptAt'; to: string };

function changed(item: Item, change: BulkChange): Item {
  if (change.field === 'retired') return { ...item, retired: change.to };
  if (change.field === 'kit') return { ...item, kit: change.to };
  if (change.to !== '') return { ...item, keptAt: change.to };
  const { keptAt: _gone, ...rest } = item;
  return rest as Item;
}

/** The items that a change would change at all. */
export function affected(items: readonly Item[], change: BulkChange): Item[] {
  return items.filter((item) => (item[change.field] ?? '') !== change.to);
}

const verbs = {
  retired: (to: boolean) => (to ? 'Retire' : 'Bring back'),
  kit: () => 'Set the kit of',
  keptAt: () => 'Set the place of',
};

export function bulkTitle(items: readonly Item[], change: BulkChange): string {
  const verb = change.field === 'retired' ? verbs.retired(change.to) : verbs[change.field]();
  return `${verb} ${items.length === 1 ? (items[0]?.code ?? '') : countOf(items.length, 'item')}`;
}

/** One act for all of them. */
export function bulkAct(items: readonly Item[], change: BulkChange): Act {
  const concerned = affected(items, change);
  const action = change.field === 'retired' ? (change.to ? 'retire' : 'bring-back') : 'edit-items';
  return {
    action,
    title: bulkTitle(concerned, change),
    proposals: concerned.map((item) => put(changed(item, change))),
  };
}

export function shelfAct(shelf: Shelf, before: Shelf | null): Act {
  const title = before === null ? `Add shelf “${shelf.name}”` : `Edit shelf “${shelf.name}”`;
  return {
    action: before === null ? 'add-shelf' : 'edit-shelf',
    title: title.slice(0, 200),
    proposals: [{ table: 'shelves', put: shelf }],
  };
}

/** A group of doubles left as it is, with the reason; groups of the shelf that changed since they were left are forgotten with it. */
export function leaveApartAct(shelf: Shelf, still: readonly LeftApart[], left: LeftApart, codes: string): Act {
  return {
    action: 'edit-shelf',
    title: `Leave ${codes} apart`.slice(0, 200),
    proposals: [{ table: 'shelves', put: { ...shelf, leftApart: [...still, left] } }],
  };
}

/** A group that was left, listed again. */
export function compareAgainAct(shelf: Shelf, still: readonly LeftApart[], again: LeftApart, codes: string): Act {
  const { leftApart: _before, ...rest } = shelf;
  const kept = still.filter((one) => one !== again);
  return {
    action: 'edit-shelf',
    title: `Compare ${codes} again`.slice(0, 200),
    proposals: [{ table: 'shelves', put: kept.length === 0 ? rest : { ...rest, leftApart: kept } }],
  };
}

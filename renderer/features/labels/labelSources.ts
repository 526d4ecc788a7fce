import type { BagResult } from '../../../shared-types/bag.ts';
import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { inOrder } from '../../engine/records/inOrder.ts';
import type { LabelThing } from './labels.ts';

/** What labels can be made for, by its words in an address. */
export interface LabelSource {
  from: 'chosen' | 'shelf' | 'shelves' | 'bag' | 'revision';
  of?: string;
  /** As it is chosen: "Shelf Crew", "Planned bag of outing 1". */
  label: string;
  group: string;
  /** Of the paper: "Revision 3", "not frozen", a dash where the catalog alone is asked. */
  revision: string;
  things: () => ThingsFound;
}

export interface ThingsFound {
  things: LabelThing[];
  /** Codes that the catalog has no more, or has on no shelf of the task. */
  gone: string[];
}

export interface LabelRecords {
  shelves: ReadonlyMap<string, Shelf>;
  items: ReadonlyMap<string, Item>;
  /** Chosen in the catalog for labels. */
  chosen: readonly string[];
  atHand: TaskAtHand | null;
  /** The planned bag of the task as it stands. */
  result: BagResult | null;
  revisions: readonly Revision[];
}

export const sourceKey = ({ from, of }: { from?: string | undefined; of?: string | undefined }): string =>
  JSON.stringify([from ?? '', of ?? '']);

/** Everything labels can be made for, what is nearest to the hand first. */
export function labelSources(records: LabelRecords): LabelSource[] {
  const { shelves, items, chosen } = records;
  const live = (some: readonly Item[]): LabelThing[] =>
    some.filter(({ retired }) => !retired).map((item) => ({ item }));
  const catalog = { group: 'Catalog', revision: '—' };
  const byName = [...shelves.values()].toSorted((a, b) => a.name.localeCompare(b.name));
  const onShelf = (id: string): Item[] => inOrder([...items.values()].filter(({ shelf }) => shelf === id));
  return [
    ...(chosen.length === 0
      ? []
      : [
          {
            ...({ from: 'chosen', label: 'Chosen in the catalog', ...catalog } as const),
            things: () => ({ things: live(chosen.flatMap((id) => items.get(id) ?? [])), gone: [] }),
          },
        ]),
    ...ofTask(records),
    ...byName.map(({ id, name }): LabelSource => ({
      ...{ from: 'shelf', of: id, label: `Shelf ${name}`, ...catalog },
      things: () => ({ things: live(onShelf(id)), gone: [] }),
    })),
    ...(byName.length < 2
      ? []
      : [
          {
            ...({ from: 'shelves', label: `All ${byName.length} shelves`, ...catalog } as const),
            things: () => ({ things: live(byName.flatMap(({ id }) => onShelf(id))), gone: [] }),
          },
        ]),
  ];
}

function ofTask({ atHand, result, revisions, items }: LabelRecords): LabelSource[] {
  if (atHand === null) return [];
  const group = `Task ${atHand.task.code}`;
  const byCode = new Map<string, Item>();
  for (const shelf of atHand.task.shelves.toReversed())
    for (const item of items.values()) if (item.shelf === shelf && !item.retired) byCode.set(item.code, item);
  const nameOf = (outing: string): string => atHand.plan.outings.find(({ id }) => id === outing)?.name ?? outing;
  const bags = (result?.outings ?? []).map(({ id, items: lines }): LabelSource => ({
    ...{ from: 'bag', of: id, label: `Planned bag of ${nameOf(id)}`, group, revision: 'not frozen' },
    things: () => foundOf(lines, nameOf(id), (code) => byCode.get(code)),
  }));
  const frozen = revisions.toReversed().map(({ number, content }): LabelSource => {
    const records = new Map(content.things.map(({ id, record }) => [id, record]));
    const lines = content.lines.map(({ item, bag }) => ({ id: item, bag }));
    return {
      ...{ from: 'revision', of: String(number), label: `Frozen manifest, revision ${number}`, group },
      revision: `Revision ${number}`,
      // The thing that was frozen, by its key; what is called so now is another where that one is gone.
      things: () => foundOf(lines, null, (code) => items.get(records.get(code) ?? '')),
    };
  });
  return [...bags, ...frozen];
}

/** Bags first, then what lies in them, each once. */
function foundOf(
  lines: readonly { id: string; bag: string }[],
  outing: string | null,
  itemOf: (code: string) => Item | undefined,
): ThingsFound {
  const codes = [...new Set([...lines.map(({ bag }) => bag), ...lines.map(({ id }) => id)])];
  const found: ThingsFound = { things: [], gone: [] };
  for (const code of codes) {
    const item = itemOf(code);
    if (item === undefined) found.gone.push(code);
    else found.things.push({ item, ...(outing !== null && item.kind === 'bag' ? { outing } : {}) });
  }
  return found;
}

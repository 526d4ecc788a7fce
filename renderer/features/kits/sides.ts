import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import type { RecordOf } from '../../../shared-types/records/index.ts';
import { kitOfAnswer } from '../../engine/kits/index.ts';
import { dayAndClockText } from '../../store/clock.ts';

/** What may be held against something else as a kit. */
export interface Side {
  /** As an address has it. */
  key: string;
  label: string;
  group: string;
  /** The task that it is of. */
  task: string | null;
}

export interface Known {
  shelves: ReadonlyMap<string, Shelf>;
  items: ReadonlyMap<string, Item>;
  tasks: ReadonlyMap<string, Task>;
  results: ReadonlyMap<string, RecordOf<'results'>>;
}

const groups = { whole: 'Shelves', field: 'Field kits', training: 'Training kits', stock: 'Stock of a task' };

const byLabel = (a: Side, b: Side): number => a.label.localeCompare(b.label, 'en', { numeric: true });

/** Every kit there is: shelves, their field and training kits, the stock of each task, and its planned bags. */
export function sidesOf({ shelves, tasks, results }: Known): Side[] {
  const ofShelves = (kind: 'whole' | 'field' | 'training', label: (name: string) => string): Side[] =>
    [...shelves.values()]
      .map(({ id, name }) => ({ key: `${kind}:${id}`, label: label(name), group: groups[kind], task: null }))
      .toSorted(byLabel);
  return [
    ...ofShelves('field', (name) => `Field kit of ${name}`),
    ...ofShelves('training', (name) => `Training kit of ${name}`),
    ...ofShelves('whole', (name) => `All of ${name}`),
    ...[...tasks.values()]
      .map(({ id, code, name }) => ({
        ...{ key: `stock:${id}`, label: `Stock of ${code}, ${name}`, group: groups.stock, task: id },
      }))
      .toSorted(byLabel),
    ...[...tasks.values()].flatMap(({ id, code }) =>
      (results.get(id)?.past ?? []).map(({ plannedAt }) => ({
        key: `bag:${id}:${plannedAt}`,
        label: `Planned bag of ${code}, ${dayAndClockText(new Date(plannedAt))}`,
        group: 'Planned bags',
        task: id,
      })),
    ),
  ];
}

export interface KitItems {
  items: Item[];
  /** Codes of a planned bag that no shelf of its task has any more. */
  gone: string[];
}

/** What a kit holds. */
export function itemsOfSide(side: Side, known: Known): KitItems {
  const [kind = '', of = ''] = side.key.split(':');
  const live = [...known.items.values()].filter(({ retired }) => !retired);
  if (kind === 'stock' || kind === 'bag') {
    const shelves = known.tasks.get(of)?.shelves ?? [];
    const stock = live.filter(({ shelf }) => shelves.includes(shelf));
    if (kind === 'stock') return { items: stock, gone: [] };
    const at = side.key.slice(`bag:${of}:`.length);
    const answer = known.results.get(of)?.past?.find(({ plannedAt }) => plannedAt === at);
    const { kit, gone } = kitOfAnswer(stock, answer?.outings ?? []);
    return { items: kit, gone };
  }
  const onShelf = live.filter(({ shelf }) => shelf === of);
  return { items: kind === 'whole' ? onShelf : onShelf.filter(({ kit }) => kit === kind || kit === 'both'), gone: [] };
}

/** What is held against each other where nobody said: a shelf's field and training kit, else the first two. */
export function firstSides(sides: readonly Side[], items: ReadonlyMap<string, Item>): [Side | null, Side | null] {
  const training = [...items.values()].find(({ kit, retired }) => kit !== 'field' && !retired)?.shelf;
  const at = (key: string): Side | undefined => sides.find((side) => side.key === key);
  const [mine, theirs] = [at(`field:${training}`), at(`training:${training}`)];
  if (mine !== undefined && theirs !== undefined) return [mine, theirs];
  return [sides[0] ?? null, sides[1] ?? null];
}

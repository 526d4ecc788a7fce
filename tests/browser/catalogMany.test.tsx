import { describe, expect, it } from 'vitest';
import { cdp, page } from 'vitest/browser';
import type { Item } from '../../shared-types/records/item.ts';
import type { RecordOf, TableName } from '../../shared-types/records/index.ts';
import type { Store, TableState } from '../../renderer/store/store.ts';
import { createTopic } from '../../renderer/store/topic.ts';
import { openCatalog, socket, torqueTool } from './support/openCatalog.tsx';
import { fastener } from './support/keptStore.ts';

const count = 50_000;

/** Sizes, names and places as varied as a depot's. */
function manyItems(): Item[] {
  return Array.from({ length: count }, (_, index) => {
    const id = `I-${index}`;
    const name = `Item ${index} of row ${index % 97}, bay ${index % 31}`;
    const more = { name, keptAt: `tray ${index % 400}`, notes: `Invented entry ${index}.` };
    if (index % 3 === 0) return { ...fastener(id, 'crew'), thread: `M${4 + (index % 20)}`, ...more } as Item;
    if (index % 3 === 1) return socket(id, { ...more, length: `${20 + (index % 180)} mm` });
    return torqueTool(id, { ...more, max: `${50 + (index % 300)} N·m` });
  });
}

/** A store that holds so many items and keeps nothing: what is measured is the screen. */
function storeOf(items: readonly Item[]) {
  const topics = new Map<TableName, ReturnType<typeof createTopic<TableState<RecordOf<TableName>>>>>();
  const topicOf = (name: TableName) => {
    const known = topics.get(name);
    if (known !== undefined) return known;
    const rows = new Map<string, RecordOf<TableName>>();
    if (name === 'items') for (const item of items) rows.set(item.id, { ...item, rev: 1 });
    if (name === 'shelves') rows.set('crew', { id: 'crew', rev: 1, name: 'Crew case' });
    const topic = createTopic<TableState<RecordOf<TableName>>>({ ready: true, rows, fault: null });
    topics.set(name, topic);
    return topic;
  };
  const steady = <T,>(state: T) => ({ state: () => state, subscribe: () => () => undefined });
  const history = steady({ undo: null, redo: null, recent: [] });
  const opening = steady({ kind: 'ready', notice: null });
  const store = {
    table: (name: TableName) => {
      const topic = topicOf(name);
      return { state: topic.get, subscribe: topic.subscribe, whileRead: () => () => undefined };
    },
    history: history.state,
    subscribeHistory: history.subscribe,
    opening: opening.state,
    subscribeOpening: opening.subscribe,
    newId: () => 'new',
  } as unknown as Store;
  const change = (id: string, more: object): void => {
    const topic = topicOf('items');
    const before = topic.get();
    const rows = new Map(before.rows);
    rows.set(id, { ...rows.get(id), ...more } as RecordOf<TableName>);
    topic.set({ ...before, rows });
  };
  return { store, change };
}

const painted = (): Promise<unknown> =>
  new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));

interface Devtools {
  send(method: string, params?: object): Promise<{ metrics: { name: string; value: number }[] }>;
}

/** What the page's own thread has worked so far [ms], by the processor's clock: waiting for a turn is not counted. */
async function workedMs(): Promise<number> {
  const { metrics } = await (cdp() as unknown as Devtools).send('Performance.getMetrics');
  return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? NaN);
}

/** The work that a deed costs until it is painted [ms]. */
async function costMs(deed: () => void): Promise<number> {
  await painted();
  const before = await workedMs();
  deed();
  await painted();
  return (await workedMs()) - before;
}

/** The measure of this machine in this moment: every text of every item read letter by letter once, and nothing drawn. */
function readPlainly(items: readonly Item[]): number {
  let sum = 0;
  for (const item of items)
    for (const text of Object.values(item))
      if (typeof text === 'string')
        for (let at = 0; at < text.length; at += 1) sum = (sum * 31 + text.charCodeAt(at)) | 0;
  return sum;
}

const typed = (text: string): Promise<number> =>
  costMs(() => {
    const input = document.querySelector<HTMLInputElement>('input[type=search]');
    if (input === null) throw new Error('no search box');
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(input, text);
    input.dispatchEvent(new Event('input', { bubbles: true }));
  });

const rank = (times: readonly number[], share: number): number =>
  times.toSorted((a, b) => a - b)[Math.ceil(times.length * share) - 1] ?? NaN;

/**
 * Guards that a key searches prepared texts, draws the rows in sight alone, and that one change does not prepare or sort
 * the whole again. Judged by what is drawn, and by work as a multiple of a plain reading of the same items measured
 * between the keys: a processor shared with others slows both alike.
 */
describe('fifty thousand items', () => {
  it('stay usable: few rows drawn, keys painted in time, one change taken in at once', async () => {
    const items = manyItems();
    const { store, change } = storeOf(items);
    await (cdp() as unknown as Devtools).send('Performance.enable', { timeDomain: 'threadTicks' });
    await openCatalog({ store });
    await expect.element(page.getByText(`${count} of ${count}`, { exact: true })).toBeInTheDocument();
    const grid = document.querySelector('[role=grid]');
    expect(grid?.getAttribute('aria-rowcount')).toBe(String(count + 1));
    expect(document.querySelectorAll('[role=row]').length).toBeLessThanOrEqual(60);

    await typed('t');
    await expect.element(page.getByText(`${count} of ${count}`, { exact: true })).toBeInTheDocument();
    const keysMs: number[] = [];
    const plainMs: number[] = [];
    let sum = 0;
    for (const word of ['tray 12', 'm10', '120 mm', 'bay 7 row 3', 'nowhere', 'item 49999'])
      for (let length = 1; length <= word.length; length += 1) {
        keysMs.push(await typed(word.slice(0, length)));
        plainMs.push(await costMs(() => (sum += readPlainly(items))));
      }
    expect(sum).not.toBe(0);
    await expect.element(page.getByText(`1 of ${count}`, { exact: true })).toBeInTheDocument();
    await typed('');
    const changesMs: number[] = [];
    for (let turn = 0; turn < 5; turn += 1)
      changesMs.push(await costMs(() => change(`I-4000${turn}`, { name: `Changed in place ${turn}` })));
    await typed('place3');
    await expect.element(page.getByText(`1 of ${count}`, { exact: true })).toBeInTheDocument();
    grid?.scrollTo(0, 700_000);
    await painted();
    expect(document.querySelectorAll('[role=row]').length).toBeLessThanOrEqual(60);

    const plain = rank(plainMs, 0.5);
    const times = { key: rank(keysMs, 0.5), slowKey: rank(keysMs, 0.95), change: rank(changesMs, 0.5) };
    const said = Object.entries({ plain, ...times }).map(([name, ms]) => `${name} ${Math.round(ms)} ms`);
    // Drawn by React's development build here, which costs several times the program's own.
    expect(times.key / plain, said.join(', ')).toBeLessThanOrEqual(4);
    expect(times.slowKey / plain, said.join(', ')).toBeLessThanOrEqual(12);
    expect(times.change / plain, said.join(', ')).toBeLessThanOrEqual(20);
  }, 240_000);
});

import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { RefusedError } from '../../engine/errors.ts';
import { chained } from '../../engine/record/chain.ts';
import type { EventDraft } from '../../engine/record/chain.ts';
import { sha256 } from '../../store/sha256.ts';
import { NotSavedError } from '../../store/store.ts';
import type { LiveTable, Proposal, Store } from '../../store/store.ts';

/** What was done, before it has its key and its place in the chain. */
export type Done = Omit<EventDraft, 'id'>;

export interface ToAppend {
  title: string;
  done: readonly Done[];
  /** What is kept with them in the same act, as the discrepancies of a return; asked anew where they are chained anew. */
  beside?: (events: readonly OutingEvent[]) => readonly Proposal[];
}

/** Another window may have written an event meanwhile: it is chained to that one then. */
const triesMost = 5;

/** One after another for each store: each is chained to the one before. */
const turns = new WeakMap<Store, Promise<unknown>>();

/**
 * Chains what was done to the last event of its revision and keeps it, all or nothing. It cannot be undone: what was wrong is taken back by a
 * further event.
 *
 * @param title - as the history shows it
 * @returns the events as they are kept
 * @throws NotSavedError, RefusedError: nothing was written
 */
export function appendEvents(
  store: Store,
  revision: Pick<Revision, 'id' | 'hash'>,
  { title, done, beside }: ToAppend,
): Promise<OutingEvent[]> {
  const drafts = done.map((one): EventDraft => ({ ...one, id: store.newId() }));
  const before = turns.get(store) ?? Promise.resolve();
  const mine = before.then(() => append(store, revision, title, drafts, beside));
  turns.set(
    store,
    mine.catch(() => undefined),
  );
  return mine;
}

async function append(
  store: Store,
  revision: Pick<Revision, 'id' | 'hash'>,
  title: string,
  drafts: readonly EventDraft[],
  beside: ToAppend['beside'] = () => [],
): Promise<OutingEvent[]> {
  if (drafts.length === 0) return [];
  const table = store.table('events');
  for (let left = triesMost; ; left -= 1) {
    await readyOf(table);
    const events = await chained(revision, lastOf(table, revision.id), drafts, sha256);
    try {
      await store.commit({
        action: 'add-events',
        title,
        undoable: false,
        proposals: [...events.map((event): Proposal => ({ table: 'events', put: event })), ...beside(events)],
      });
      return events;
    } catch (error) {
      const isBehind = error instanceof RefusedError && error.refusal.field === 'events.no';
      if (!isBehind || left <= 1) throw error;
    }
  }
}

function lastOf(table: LiveTable<OutingEvent>, revision: string): OutingEvent | null {
  let last: OutingEvent | null = null;
  for (const event of table.state().rows.values())
    if (event.revision === revision && event.no > (last?.no ?? 0)) last = event;
  return last;
}

/** Once the table has been read; on the first question it is read for this. */
function readyOf(table: LiveTable<OutingEvent>): Promise<void> {
  return new Promise((resolve, reject) => {
    let leave: (() => void) | null = null;
    const look = (): void => {
      const { ready, fault } = table.state();
      if (fault === null && !ready) return;
      leave?.();
      leave = null;
      if (fault === null) resolve();
      else reject(new NotSavedError(`what was done before could not be read: ${fault}`));
    };
    leave = table.subscribe(look);
    look();
  });
}

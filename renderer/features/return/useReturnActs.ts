import { useCallback, useState } from 'react';
import type { Deed, Discrepancy, Doer, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { discrepanciesOf, returnState } from '../../engine/return/index.ts';
import type { DiscrepancyDraft, ReturnState } from '../../engine/return/index.ts';
import { reasonOf } from '../../components/RecordForm/refusedSave.ts';
import type { Proposal, Store } from '../../store/store.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { appendEvents } from '../revisions/appendEvents.ts';
import { useStore } from '../session/useStore.ts';

/** What is to be said of a return. */
export interface ReturnAct {
  revision: Revision;
  outing: string;
  by: Doer;
  title: string;
  /** Worked out from the return as it then stands: what was pressed twice is asked twice. */
  deeds: (state: ReturnState, events: readonly OutingEvent[]) => readonly Deed[] | string;
  /** Discrepancies to be opened in the same act. */
  opens?: (state: ReturnState) => readonly DiscrepancyDraft[];
  words?: string;
}

const eventsOf = (store: Store, revision: string): OutingEvent[] =>
  [...store.table('events').state().rows.values()]
    .filter((event) => event.revision === revision)
    .toSorted((one, other) => one.no - other.no);

/** Discrepancies as records of the task, numbered on. */
function opened(
  store: Store,
  act: ReturnAct,
  drafts: readonly DiscrepancyDraft[],
  x: { at: string; event: number | null },
): Proposal[] {
  const { revision, outing, by, words } = act;
  const kept = [...store.table('discrepancies').state().rows.values()].filter(({ task }) => task === revision.task);
  const last = Math.max(0, ...kept.map(({ number }) => number));
  return drafts.map(({ seenBy: _seenBy, ...draft }, index): Proposal => {
    const put: Discrepancy = {
      ...{ id: store.newId(), rev: 0, task: revision.task, number: last + index + 1, revision: revision.id, outing },
      ...draft,
      opened: { at: x.at, by, ...(x.event === null ? {} : { event: x.event }) },
      ...(words === undefined ? {} : { words }),
    };
    return { table: 'discrepancies', put };
  });
}

/** One after another: each is held against what the one before it left. */
async function perform(store: Store, act: ReturnAct, at: string): Promise<string | null> {
  const { revision, outing, by, title } = act;
  const events = eventsOf(store, revision.id);
  const state = returnState(revision, events, outing);
  const deeds = act.deeds(state, events);
  if (typeof deeds === 'string') return deeds;
  const fault = faultOf(revision, events, { at, by, outing, deeds });
  if (fault !== null) return `${fault.replace(/^./, (letter) => letter.toUpperCase())}.`;
  try {
    await appendEvents(store, revision, {
      title,
      done: deeds.map((deed) => ({ at, by, outing, deed })),
      beside: (kept) => opened(store, act, act.opens?.(state) ?? [], { at, event: kept.at(-1)?.no ?? null }),
    });
    return null;
  } catch (error) {
    return `NOT SAVED: ${reasonOf(error)}`;
  }
}

/** Why the deeds cannot hold together as the return stands: as the fold will say of them once they are kept. */
function faultOf(
  revision: Revision,
  events: readonly OutingEvent[],
  x: { at: string; by: Doer; outing: string; deeds: readonly Deed[] },
): string | null {
  const { at, by, outing, deeds } = x;
  const last = events.at(-1)?.no ?? 0;
  const ahead = deeds.map((deed, index): OutingEvent => ({
    ...{ id: '', rev: 0, revision: revision.id, no: last + index + 1, at, by, outing, deed, prev: '', hash: '' },
  }));
  const state = returnState(revision, [...events, ...ahead], outing);
  if (state.issued === null) return 'nothing has gone out yet';
  return state.faults.find(({ no }) => no > last)?.reason ?? null;
}

const turns = new WeakMap<Store, Promise<unknown>>();

/** Says something of a return; `said` is why the last of it was not done. */
export function useReturnActs(now: () => Date): {
  act: (act: ReturnAct) => Promise<boolean>;
  refused: string | null;
  dismiss: () => void;
} {
  const store = useStore();
  const [refused, setRefused] = useState<string | null>(null);
  const act = useCallback(
    async (wish: ReturnAct): Promise<boolean> => {
      const at = isoWithOffset(now());
      const mine = (turns.get(store) ?? Promise.resolve()).then(() => perform(store, wish, at));
      turns.set(store, mine);
      const reason = await mine;
      setRefused(reason);
      return reason === null;
    },
    [store, now],
  );
  return { act, refused, dismiss: useCallback(() => setRefused(null), []) };
}

/** What closing a return would open, given what is open already. */
export function toOpen(
  state: ReturnState,
  existing: readonly Discrepancy[],
  revision: string,
  outing: string,
): DiscrepancyDraft[] {
  return discrepanciesOf(
    state,
    existing.filter((one) => one.revision === revision && one.outing === outing),
  );
}

import type { Item } from '../../../../shared-types/records/item.ts';
import type { Doer, Revision } from '../../../../shared-types/records/revision.ts';
import { laidOfPlaces } from '../../../engine/frozen/index.ts';
import type { Frozen } from '../../../engine/frozen/index.ts';
import { carryOver } from '../../../engine/packing/index.ts';
import type { PackState, Without } from '../../../engine/packing/index.ts';
import { chained } from '../../../engine/record/chain.ts';
import { sha256 } from '../../../store/sha256.ts';
import type { TaskAtHand } from '../../../store/session.ts';
import type { Store } from '../../../store/store.ts';
import { isoWithOffset } from '../../manifest/isoWithOffset.ts';
import { freezeAct, revisionOf } from '../../revisions/freezeAct.ts';

export interface ToTake {
  /** The one that was packed so far. */
  revision: Revision;
  number: number;
  next: Without;
  frozen: Pick<Frozen, 'facts' | 'lines' | 'places'>;
  atHand: Pick<TaskAtHand, 'id' | 'task'>;
  packing: PackState;
  items: readonly Item[];
  doer: Doer;
  why: string;
  now: () => Date;
}

/** Freezes the outing planned without what is missing, and carries over what is counted: one act, all of it or nothing. */
export async function takeWithout(store: Store, x: ToTake): Promise<void> {
  const { revision, number, next, frozen, atHand, packing, items, doer, why, now } = x;
  const at = isoWithOffset(now());
  const state = {
    task: atHand.task,
    text: next.text,
    plan: next.plan,
    missing: [],
    result: next.result,
    items,
    facts: frozen.facts,
    // What is laid out and packed stays in its pocket and in its place, where it is the same.
    laid: {
      planned: next.result,
      linesOf: (outing: string) => {
        const answer = next.result.outings.find(({ id }) => id === outing);
        return answer === undefined ? [] : laidOfPlaces(answer, frozen.places);
      },
    },
    pocketOf: (outing: string, bag: string, item: string) =>
      frozen.lines.find((line) => line.outing === outing && line.bag === bag && line.item === item)?.pocket,
  };
  const task = { id: atHand.id, name: revision.called };
  const made = await revisionOf({ state, task, id: store.newId(), number, by: doer, why, at });
  const { deed } = carryOver(packing, revision.id, made);
  const drafts = deed.counts.length === 0 ? [] : [{ id: store.newId(), at, by: doer, outing: packing.outing, deed }];
  const events = await chained(made, null, drafts, sha256);
  const act = freezeAct(made);
  await store.commit({
    ...act,
    proposals: [...act.proposals, ...events.map((put) => ({ table: 'events' as const, put }))],
  });
}

import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import type { Doer, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { packersBefore } from '../../engine/packing/index.ts';
import { labelledThings } from '../../engine/record/tagClashes.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useAppendEvents } from '../revisions/useRevisions.ts';
import { useTable } from '../session/useStore.ts';
import { createDesk } from './packingDesk.ts';
import type { Desk, DeskState, Elsewhere } from './packingDesk.ts';
import { tagsKnown } from './tagsKnown.ts';

export interface AtDesk {
  desk: Desk;
  state: DeskState;
}

export interface DeskAt {
  revision: Revision;
  revisions: readonly Revision[];
  /** Of all revisions of the task. */
  events: readonly OutingEvent[];
  outing: string;
  doer: Doer;
  elsewhere: Elsewhere;
  now: () => Date;
}

/** The desk of an outing under a revision, fed with what is kept. Both stay what they are as long as it is used: another outing has another desk. */
export function usePackingDesk({ revision, revisions, events, outing, doer, elsewhere, now }: DeskAt): AtDesk {
  const append = useAppendEvents();
  const items = useTable('items');
  const own = useMemo(
    () => events.filter((event) => event.revision === revision.id).toSorted((a, b) => a.no - b.no),
    [events, revision.id],
  );
  const [desk] = useState(() =>
    createDesk({
      ...{ revision, outing, kept: own },
      append: (done) => append(revision, { title: `Pack outing ${outing}`, done }),
      at: () => isoWithOffset(now()),
    }),
  );
  useEffect(() => desk.tell(own), [desk, own]);
  const before = useMemo(
    () => packersBefore(revisions, events, { revision: revision.id, outing }),
    [revisions, events, revision.id, outing],
  );
  const tags = useMemo(() => tagsKnown(labelledThings(revision), items.rows.values()), [revision, items.rows]);
  useEffect(() => desk.know({ doer, tags, before, elsewhere }), [desk, doer, tags, before, elsewhere]);
  const state = useSyncExternalStore(desk.subscribe, desk.state);
  return { desk, state };
}

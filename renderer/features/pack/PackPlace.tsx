import { useMemo } from 'react';
import { Button } from '@mantine/core';
import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { readFrozen } from '../../engine/frozen/index.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { revisionInWork } from '../../engine/packing/index.ts';
import { placeAddress } from '../../store/place.ts';
import { useIsWhole } from '../revisions/RevisionFacts.tsx';
import { useRevisions } from '../revisions/useRevisions.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { Unread } from '../task/SheetState.tsx';
import { PackDesk } from './PackDesk.tsx';
import type { OfRevisionProps, PackPlaceProps } from './packScreen.ts';
import './pack.css';

/** Packing of an outing by its frozen manifest; or why there is none yet. */
export function PackPlace({ place, atHand, now }: PackPlaceProps) {
  const { ready, fault, rows: revisions } = useRevisions(atHand.id);
  const table = useTable('events');
  const broken = fault ?? table.fault;
  const events = useMemo(() => {
    const own = new Set(revisions.map(({ id }) => id));
    return [...table.rows.values()].filter(({ revision }) => own.has(revision));
  }, [revisions, table.rows]);
  if (broken !== null) return <Unread what="frozen manifests" reason={broken} />;
  if (!ready || !table.ready)
    return (
      <p className="bw-task-open" role="status">
        Reading what is packed…
      </p>
    );
  const newest = revisions.at(-1);
  if (newest === undefined)
    return (
      <Nothing heading="Nothing is frozen yet">
        Bags are packed by a frozen manifest: a numbered copy of plan and bag that later edits do not touch.{' '}
        <a href={placeAddress({ at: 'revisions' })}>Freeze one first</a>.
      </Nothing>
    );
  const outings = newest.content.result.outings.map(({ id }) => id);
  const outing = place.outing ?? outings.find((id) => isOpen(revisions, events, id)) ?? outings[0];
  const revision = outing === undefined ? null : revisionInWork(revisions, events, outing);
  if (outing === undefined || revision === null)
    return (
      <Nothing heading={outing === undefined ? 'No outing' : `No frozen manifest has outing ${outing}`}>
        {outings.map((id) => (
          <a key={id} className="bw-pack-elsewhere" href={placeAddress({ at: 'pack', outing: id })}>
            Pack outing {id}
          </a>
        ))}
      </Nothing>
    );
  return (
    <OfRevision key={`${revision.id} ${outing}`} {...{ place, atHand, now, revision, revisions, events, outing }} />
  );
}

function OfRevision(props: OfRevisionProps) {
  const { revision } = props;
  const whole = useIsWhole(revision);
  const read = useMemo((): { frozen: Frozen } | { reason: string } => {
    try {
      return { frozen: readFrozen(revision) };
    } catch (error) {
      return { reason: error instanceof Error ? error.message : String(error) };
    }
  }, [revision]);
  if (whole === null)
    return (
      <p className="bw-task-open" role="status">
        Reading what is packed…
      </p>
    );
  if (!whole)
    return (
      <Unread
        what={`lines of revision ${revision.number}`}
        reason="Its content is not what its hash says: it was changed after it was frozen. Nothing is packed by it."
      />
    );
  if ('reason' in read) return <Unread what={`lines of revision ${revision.number}`} reason={read.reason} />;
  return <PackDesk {...props} frozen={read.frozen} />;
}

function Nothing({ heading, children }: { heading: string; children: React.ReactNode }) {
  return (
    <div className="bw-pack">
      <header className="bw-pack-head">
        <Button className="bw-pack-big" onClick={() => goTo({ at: 'manifest' })}>
          Leave
        </Button>
        <h1>{heading}</h1>
      </header>
      <div className="bw-pack-nothing">{children}</div>
    </div>
  );
}

function isOpen(revisions: readonly Revision[], events: readonly OutingEvent[], outing: string): boolean {
  const revision = revisionInWork(revisions, events, outing);
  return !events.some(
    (event) => event.revision === revision?.id && event.outing === outing && event.deed.kind === 'issued',
  );
}

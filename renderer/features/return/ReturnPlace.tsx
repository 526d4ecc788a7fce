import { Suspense, lazy } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { OutingThatLeft } from '../../engine/return/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { useFrozenRead } from '../record/useFrozenRead.ts';
import { useTaskRecord } from '../record/useTaskRecord.ts';
import type { TaskRecord } from '../record/useTaskRecord.ts';
import { ReturnSheet } from './ReturnSheet.tsx';
import './return.css';

const ReturnList = lazy(async () => ({ default: (await import('./ReturnList.tsx')).ReturnList }));

export interface ReturnPlaceProps {
  place: Extract<Place, { at: 'return' }>;
  atHand: TaskAtHand;
  host: Host;
  now: () => Date;
}

/** What comes back of an outing: of the one named, else of the last that left and is not closed. */
export function ReturnPlace({ place, atHand, host, now }: ReturnPlaceProps) {
  const record = useTaskRecord(atHand.id);
  if (record.fault !== null) return <p className="bw-pane-detail">The record could not be read: {record.fault}</p>;
  if (!record.ready)
    return (
      <p className="bw-pane-detail" role="status">
        Reading the record…
      </p>
    );
  // One that left twice is counted in under the later revision.
  const named = record.left.findLast(({ outing }) => outing === place.outing);
  const went = named ?? record.left.findLast(({ state }) => state.closed === null) ?? record.left.at(-1);
  if (went === undefined || (place.outing !== undefined && named === undefined))
    return <NothingOut place={place} record={record} atHand={atHand} />;
  return <ReadReturn went={went} {...{ place, record, atHand, host, now }} />;
}

function ReadReturn(props: ReturnPlaceProps & { went: OutingThatLeft; record: TaskRecord }) {
  const { went, place, record, atHand, host, now } = props;
  const read = useFrozenRead(went.revision);
  if (read === null) return null;
  if (read.kind === 'refused')
    return (
      <p className="bw-pane-detail" role="alert">
        <b>Revision {went.revision.number} cannot be read.</b> {read.reason}
      </p>
    );
  const given = { went, frozen: read.frozen, record, atHand, now };
  if (place.sheet !== 'list') return <ReturnSheet key={`${went.revision.id} ${went.outing}`} {...given} />;
  return (
    <Suspense fallback={<p className="bw-pane-detail">Opening the return list…</p>}>
      <ReturnList {...given} host={host} />
    </Suspense>
  );
}

function NothingOut({
  place,
  record,
  atHand,
}: {
  place: ReturnPlaceProps['place'];
  record: TaskRecord;
  atHand: TaskAtHand;
}) {
  const name = atHand.plan.outings.find(({ id }) => id === place.outing)?.name ?? place.outing;
  return (
    <div className="bw-pane-detail">
      <p>
        <a className="bw-return-leave" href={placeAddress({ at: 'front' })}>
          Leave
        </a>
      </p>
      <h1>Nothing to count in</h1>
      <p>
        {name === undefined ? 'No outing of this task has left.' : `${name} has not left.`} What comes back is counted
        against what was packed and left by a frozen manifest.
      </p>
      <p>
        {record.left.map(({ outing, revision }, index) => (
          <span key={`${revision.id} ${outing}`}>
            {index === 0 ? '' : ' · '}
            <a href={placeAddress({ at: 'return', outing })}>
              Return of {atHand.plan.outings.find(({ id }) => id === outing)?.name ?? outing}
            </a>
          </span>
        ))}
      </p>
    </div>
  );
}

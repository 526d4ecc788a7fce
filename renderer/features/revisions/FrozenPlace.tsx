import { Suspense, lazy, useMemo } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { mapOfFrozen, readFrozen } from '../../engine/frozen/index.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { useKnownWords } from '../record/useKnownWords.ts';
import { OutingChooser } from '../session/OutingChooser.tsx';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { Unread } from '../task/SheetState.tsx';
import { ComparedSheet } from './ComparedSheet.tsx';
import { useIsWhole } from './RevisionFacts.tsx';
import { openNumber } from './revisionWords.ts';
import { useRevisions } from './useRevisions.ts';
import { useToFreeze } from './useToFreeze.ts';
import './revisions.css';

// They bring a reader of PDFs with them, which nothing else needs.
const ManifestSheet = lazy(async () => ({ default: (await import('../manifest/ManifestSheet.tsx')).ManifestSheet }));
const CardsSheet = lazy(async () => ({ default: (await import('../cards/CardsSheet.tsx')).CardsSheet }));

type FrozenAt = Extract<Place, { at: 'frozen' }>;

export interface FrozenPlaceProps {
  place: FrozenAt;
  atHand: TaskAtHand;
  host: Host;
  now: () => Date;
}

/** What is printed of a frozen manifest, from what was frozen and nothing else. */
export function FrozenPlace({ place, atHand, host, now }: FrozenPlaceProps) {
  const { ready, fault, rows: revisions } = useRevisions(atHand.id);
  const open = useToFreeze(atHand);
  if (fault !== null) return <Unread what="frozen manifests" reason={fault} />;
  if (!ready) return <Opening />;
  const revision = revisions.find(({ number }) => String(number) === place.number);
  if (revision === undefined)
    return (
      <div className="bw-pane-detail">
        <h1>There is no revision {place.number} of this task</h1>
        <p>
          <a href={placeAddress({ at: 'revisions' })}>See its frozen manifests</a>
        </p>
      </div>
    );
  if (place.sheet !== 'compared') return <OfRevision key={revision.id} {...{ place, revision, host, now }} />;
  const other = revisions.find(({ number }) => String(number) === place.of) ?? null;
  if (other === null && place.of !== openNumber) return <Opening />;
  if (other === null && open === null) return <Opening />;
  return <ComparedSheet one={revision} other={other} open={open} task={atHand} host={host} now={now} />;
}

function Opening() {
  return (
    <p className="bw-pane-detail" role="status">
      Opening the frozen manifest…
    </p>
  );
}

type Read = { frozen: Frozen } | { reason: string };

function OfRevision({ place, revision, host, now }: Omit<FrozenPlaceProps, 'atHand'> & { revision: Revision }) {
  const session = useSession();
  const { preferences } = useSessionState();
  const whole = useIsWhole(revision);
  const read = useMemo((): Read => {
    try {
      return { frozen: readFrozen(revision) };
    } catch (error) {
      return { reason: error instanceof Error ? error.message : String(error) };
    }
  }, [revision]);
  const carried = useMemo(
    () => new Map('reason' in read ? [] : [...read.frozen.facts].map(([step, facts]) => [step, facts.carried])),
    [read],
  );
  const readPlan = 'reason' in read ? null : read.frozen.plan;
  const outing = readPlan?.outings.find(({ id }) => id === place.of) ?? readPlan?.outings[0];
  const map = useMemo(
    () => ('reason' in read || outing === undefined ? null : mapOfFrozen(read.frozen, outing.id)),
    [read, outing],
  );
  const known = useKnownWords({ task: revision.task, plan: readPlan, outing: outing?.id, revision: revision.id });
  if (whole === null) return <Opening />;
  const reason = !whole
    ? 'Its content is not what its hash says: it was changed after it was frozen.'
    : 'reason' in read
      ? read.reason
      : null;
  if (reason !== null || 'reason' in read)
    return (
      <div className="bw-pane-detail" role="alert">
        <h1>Revision {revision.number} is not shown or printed</h1>
        <p>{reason}</p>
      </div>
    );
  const { plan, result, facts } = read.frozen;
  if (outing === undefined) return null;
  if (known === null) return <Opening />;
  const isCards = place.sheet === 'cards';
  const number = String(revision.number);
  const go = (change: Partial<FrozenAt>): void =>
    goTo({ at: 'frozen', number, sheet: isCards ? 'cards' : 'manifest', of: outing.id, ...change }, 'replace');
  const role = place.role !== undefined && outing.roles.includes(place.role) ? place.role : null;
  const shared = {
    ...{
      plan,
      result,
      host,
      known,
      frozen: revision,
      outing: outing.id,
      units: preferences.units,
      paper: preferences.paper,
    },
    fileName: `${plan.source.task?.id ?? 'task'}.json`,
    person: revision.by.name,
    onPaper: (paper: typeof preferences.paper) => session.prefer({ paper }),
  };
  return (
    <Suspense fallback={<Opening />}>
      <div className="bw-pane-bar">
        <a href={placeAddress({ at: 'revisions', number })}>Revision {number}</a>
        <OutingChooser plan={plan} outing={outing.id} onOuting={(of) => go({ of })} />
        <a
          href={placeAddress({ at: 'frozen', number, sheet: isCards ? 'manifest' : 'cards', of: outing.id })}
        >{`${isCards ? 'Manifest' : 'Cards'} of revision ${number}`}</a>
      </div>
      {isCards ? (
        <CardsSheet
          {...shared}
          facts={facts}
          role={role}
          onRole={(next) => go(next === null ? {} : { role: next })}
          now={now}
        />
      ) : (
        <ManifestSheet {...shared} dataTime={revision.at} carried={carried} map={map ?? undefined} />
      )}
    </Suspense>
  );
}

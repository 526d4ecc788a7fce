import { useState } from 'react';
import { Button } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { changeCount, whyNotFrozen } from '../../engine/frozen/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { countOf } from '../steps/words.ts';
import { Unread } from '../task/SheetState.tsx';
import { TwoPanes } from '../task/TwoPanes.tsx';
import { useAsked } from '../task/useAsked.ts';
import { ComparedSection } from './ComparedSection.tsx';
import { FreezeDialog } from './FreezeDialog.tsx';
import { nextNumber } from './freezeAct.ts';
import { freezeAsking } from './revisionAsking.ts';
import { RevisionFacts } from './RevisionFacts.tsx';
import { heldAgainst, openNumber, whenText } from './revisionWords.ts';
import { useManifestLabel } from './useManifestLabel.ts';
import { useCompared } from './useCompared.ts';
import type { Compared } from './useCompared.ts';
import { useRevisions } from './useRevisions.ts';
import { useToFreeze } from './useToFreeze.ts';
import '../judged/judged.css';
import './revisions.css';

export interface RevisionsPlaceProps {
  place: Extract<Place, { at: 'revisions' }>;
  atHand: TaskAtHand;
  host: Host;
  now: () => Date;
}

/** The frozen manifests of the task at hand, the newest first, and the task as it stands above them; one in hand beside. */
export function RevisionsPlace({ place, atHand, host, now }: RevisionsPlaceProps) {
  const { ready, fault, rows: revisions } = useRevisions(atHand.id);
  const open = useToFreeze(atHand);
  const [freezing, setFreezing] = useState(false);
  useAsked(freezeAsking, () => setFreezing(true));
  const scannedWords = useManifestLabel(revisions, !freezing);
  const newest = revisions.at(-1) ?? null;
  const since = useCompared(newest, open);
  if (fault !== null) return <Unread what="frozen manifests" reason={fault} />;
  if (!ready || open === null)
    return (
      <p className="bw-task-open" role="status">
        Reading the frozen manifests…
      </p>
    );
  const number = nextNumber(revisions);
  const inHand = revisions.find((one) => String(one.number) === place.number) ?? null;
  const same = newest !== null && since?.kind === 'compared' && changeCount(since.found) === 0 ? newest : null;
  const other = heldAgainst(revisions, inHand, place.other);
  const task = { id: atHand.id, name: atHand.task.name };
  const freeze = (
    <Button size="xs" variant="filled" onClick={() => setFreezing(true)}>
      Freeze as revision {number}…
    </Button>
  );
  return (
    <>
      <TwoPanes
        heading="Frozen manifests"
        region="Frozen manifest"
        said={countOf(revisions.length, 'revision')}
        buttons={freeze}
        inHand={place.number ?? openNumber}
        table={
          <ul className="bw-rev-list">
            <li>
              <a
                href={placeAddress({ at: 'revisions', number: openNumber })}
                aria-current={inHand === null || undefined}
              >
                <b>The task as it stands</b>
                <span className="bw-second">{openText(open, newest, since)}</span>
              </a>
            </li>
            {revisions.toReversed().map((one) => (
              <li key={one.id}>
                <a
                  href={placeAddress({ at: 'revisions', number: String(one.number) })}
                  aria-current={one === inHand || undefined}
                >
                  <b>Revision {one.number}</b>
                  <span className="bw-second">
                    {whenText(one.at)}, <bdi>{one.by.name}</bdi>, <bdi>{one.by.role}</bdi>
                  </span>
                  <span dir="auto">{one.why}</span>
                </a>
              </li>
            ))}
          </ul>
        }
      >
        <article className="bw-task-sheet" aria-labelledby="revision-heading">
          <div className="bw-task-head">
            <h2 id="revision-heading">{inHand === null ? 'The task as it stands' : `Revision ${inHand.number}`}</h2>
          </div>
          <p role="status">{scannedWords}</p>
          {inHand !== null ? (
            <RevisionFacts revision={inHand} />
          ) : revisions.length === 0 ? (
            <NoneYet hindered={whyNotFrozen(open)?.message ?? null} />
          ) : (
            <p>{openText(open, newest, since)}.</p>
          )}
          {revisions.length === 0 ? null : (
            <ComparedSection
              revisions={revisions}
              open={open}
              inHand={inHand}
              other={other}
              task={atHand.task}
              host={host}
            />
          )}
        </article>
      </TwoPanes>
      {freezing ? (
        <FreezeDialog
          task={task}
          state={open}
          number={number}
          same={same}
          now={now}
          onClose={() => setFreezing(false)}
        />
      ) : null}
    </>
  );
}

function NoneYet({ hindered }: { hindered: string | null }) {
  return (
    <>
      <p>
        Nothing is frozen yet. Bags are packed and counted back from a frozen manifest: a numbered copy of plan and bag
        that later edits do not touch. Each edit after it makes the next one, and any two can be held against each other
        here.
      </p>
      {hindered === null ? null : (
        <p>
          <b>It cannot be frozen yet.</b> {hindered}. <a href={placeAddress({ at: 'bag' })}>Go to the bag</a>
        </p>
      )}
    </>
  );
}

/** "differs from revision 2 in 4 points", "as revision 2", with what keeps it from being frozen. */
function openText(open: Parameters<typeof whyNotFrozen>[0], newest: Revision | null, since: Compared | null): string {
  const hindered = whyNotFrozen(open)?.message ?? null;
  if (newest === null || since === null) return hindered === null ? 'Not frozen yet' : 'Not ready to be frozen';
  if (since.kind === 'refused') return `It cannot be held against revision ${newest.number}: ${since.reason}`;
  const count = changeCount(since.found);
  const bag = hindered === null ? '' : '; it cannot be frozen yet';
  return count === 0 && hindered === null
    ? `As revision ${newest.number}: nothing differs`
    : `Differs from revision ${newest.number} in ${countOf(count, 'point')}${bag}`;
}

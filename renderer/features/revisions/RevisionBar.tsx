import { Button } from '@mantine/core';
import { changeCount } from '../../engine/frozen/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { countOf } from '../steps/words.ts';
import { summaryText } from './comparisonRows.ts';
import { nextNumber } from './freezeAct.ts';
import { askToFreeze } from './revisionAsking.ts';
import { openNumber, whenText } from './revisionWords.ts';
import { useCompared } from './useCompared.ts';
import { useRevisions } from './useRevisions.ts';
import { useToFreeze } from './useToFreeze.ts';
import './revisions.css';

export interface RevisionBarProps {
  atHand: TaskAtHand;
  /** What it stands above. */
  sheet?: 'manifest' | 'cards';
}

/** Above an open manifest or open cards: which frozen one is the newest, and whether the task still says the same. */
export function RevisionBar({ atHand, sheet = 'manifest' }: RevisionBarProps) {
  const { ready, rows: revisions } = useRevisions(atHand.id);
  const open = useToFreeze(atHand);
  const newest = revisions.at(-1) ?? null;
  const since = useCompared(newest, open);
  if (!ready || open === null) return null;
  const freeze = (
    <Button size="xs" onClick={askToFreeze}>
      Freeze as revision {nextNumber(revisions)}…
    </Button>
  );
  if (newest === null)
    return (
      <div className="bw-rev-bar">
        <p>
          <b>Not frozen.</b> This is the plan as it stands; bags are packed from a frozen manifest.
        </p>
        {freeze}
      </div>
    );
  const number = String(newest.number);
  const changes = since?.kind === 'compared' ? changeCount(since.found) : null;
  return (
    <div className="bw-rev-bar">
      <p>
        <b>Revision {number}</b> is the newest, frozen {whenText(newest.at)}.{' '}
        {since?.kind === 'refused'
          ? `It cannot be held against the task as it stands: ${since.reason}`
          : changes === 0
            ? 'The task as it stands says the same.'
            : since === null || changes === null
              ? null
              : `The task as it stands differs from it in ${countOf(changes, 'point')}: ${summaryText(since.found)}`}
      </p>
      {changes === null || changes === 0 ? null : (
        <a href={placeAddress({ at: 'revisions', number: openNumber, other: number })}>See what differs</a>
      )}
      <a href={placeAddress({ at: 'frozen', number, sheet })}>
        {sheet === 'cards' ? 'Cards' : 'Manifest'} of revision {number}
      </a>
      {freeze}
    </div>
  );
}

import { useMemo } from 'react';
import type { JobPlace } from '../../components/JobLine/JobLine.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { revisionInWork } from '../../engine/packing/index.ts';
import { placeAddress } from '../../store/place.ts';
import { packStateKept } from '../record/keptFolds.ts';
import { useRevisions } from '../revisions/useRevisions.ts';
import { useTable } from '../session/useStore.ts';

/** The place of packing in the job line: how much of the outing at hand, or of the first that is not out, is packed. */
export function usePackPlace(task: string | null, asked: string | undefined): JobPlace {
  const { rows: revisions } = useRevisions(task ?? '');
  const { rows } = useTable('events');
  const at = useMemo(() => {
    const newest = revisions.at(-1);
    if (newest === undefined) return null;
    const own = new Set(revisions.map(({ id }) => id));
    const events = [...rows.values()].filter(({ revision }) => own.has(revision)).toSorted((a, b) => a.no - b.no);
    const outings = newest.content.result.outings.map(({ id }) => id);
    const states = (asked !== undefined && outings.includes(asked) ? [asked] : outings).flatMap((outing) => {
      const revision = revisionInWork(revisions, events, outing, packStateKept);
      if (revision === null) return [];
      const of = events.filter((event) => event.revision === revision.id);
      return [packStateKept(revision, of, outing)];
    });
    return states.find(({ issued }) => issued === null) ?? states[0] ?? null;
  }, [revisions, rows, asked]);
  const place = {
    name: 'Pack',
    address: placeAddress({ at: 'pack', ...(asked === undefined ? {} : { outing: asked }) }),
    current: false,
  };
  if (at === null) return { ...place, done: 0, word: 'nothing frozen' };
  const { packed, pieces, missing } = at.totals;
  const done = pieces === 0 ? 0 : packed / pieces;
  if (at.issued !== null) return { ...place, done: 1, word: <StateMark state="out" /> };
  const word = `${packed} of ${pieces}`;
  return {
    ...place,
    done,
    word: missing === 0 ? word : <StateMark state="missing" text={`${word}, ${missing} missing`} />,
  };
}

import { useSyncExternalStore } from 'react';
import type { JobPlace } from '../../components/JobLine/JobLine.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { placeAddress } from '../../store/place.ts';
import type { PlaceName } from '../../store/place.ts';
import { keptDesk } from '../callouts/desks.ts';
import { tallyText, tallyWord } from '../judged/tally.tsx';
import type { Tally } from '../judged/tally.tsx';
import { useTable } from '../session/useStore.ts';
import { keptRecordDesk } from './recordDesks.ts';

/** The places of the records and of the findings in the job line. */
export function useRecordPlaces(task: string | null, at: PlaceName): JobPlace[] {
  const calloutLists = useTable('calloutLists');
  const recordLists = useTable('asRunLists');
  const idsOf = (rows: ReadonlyMap<string, { id: string; task: string }>): string[] =>
    [...rows.values()].flatMap((list) => (list.task === task ? [list.id] : []));
  const [callouts, records] = [idsOf(calloutLists.rows), idsOf(recordLists.rows)];
  const ofCallouts = JSON.parse(
    useSyncExternalStore(keptDesk().subscribe, () => tallyText(keptDesk(), callouts)),
  ) as Tally;
  const ofRecords = JSON.parse(
    useSyncExternalStore(keptRecordDesk().subscribe, () => tallyText(keptRecordDesk(), records)),
  ) as Tally;
  const held = ofCallouts.held + ofRecords.held;
  const open = ofCallouts.open + ofRecords.open;
  const unreadable = ofCallouts.unreadable + ofRecords.unreadable;
  return [
    {
      name: 'As-run',
      address: placeAddress({ at: 'asrun' }),
      current: at === 'asrun',
      done: ofRecords.held === 0 ? 0 : ofRecords.done / ofRecords.held,
      word: tallyWord(ofRecords, records.length > 0),
    },
    {
      name: 'Findings',
      address: placeAddress({ at: 'findings' }),
      current: at === 'findings',
      done: held === 0 ? 0 : (ofCallouts.done + ofRecords.done) / held,
      word:
        held === 0 ? (
          'of steps alone'
        ) : open + unreadable === 0 ? (
          'none open'
        ) : (
          <StateMark
            state={
              ofCallouts.nonconforming + ofRecords.nonconforming > 0
                ? 'nonconforming'
                : unreadable > 0
                  ? 'unreadable'
                  : 'indeterminate'
            }
            text={`${open + unreadable} open`}
          />
        ),
    },
  ];
}

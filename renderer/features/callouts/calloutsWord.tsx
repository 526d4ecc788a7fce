import { useSyncExternalStore } from 'react';
import type { JobPlace } from '../../components/JobLine/JobLine.tsx';
import { placeAddress } from '../../store/place.ts';
import { tallyText, tallyWord } from '../judged/tally.tsx';
import type { Tally } from '../judged/tally.tsx';
import { useTable } from '../session/useStore.ts';
import { keptDesk } from './desks.ts';

/** The place of the callouts in the job line: how many are conforming or decided by a person, and what is still open. */
export function useCalloutsPlace(task: string | null, current: boolean): JobPlace {
  const { rows } = useTable('calloutLists');
  const lists = [...rows.values()].flatMap((list) => (list.task === task ? [list.id] : []));
  const desk = keptDesk();
  const tally = JSON.parse(useSyncExternalStore(desk.subscribe, () => tallyText(desk, lists))) as Tally;
  return {
    name: 'Callouts',
    address: placeAddress({ at: 'callouts' }),
    current,
    done: tally.held === 0 ? 0 : tally.done / tally.held,
    word: tallyWord(tally, lists.length > 0),
  };
}

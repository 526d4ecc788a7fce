import type { JobPlace } from '../../components/JobLine/JobLine.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { openLines } from '../../engine/return/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { PlaceName } from '../../store/place.ts';
import { countOf } from '../steps/words.ts';
import { useTaskRecord } from './useTaskRecord.ts';
import type { TaskRecord } from './useTaskRecord.ts';

function returnWord({ left }: TaskRecord): JobPlace['word'] {
  if (left.length === 0) return 'nothing out';
  const open = left.filter(({ state }) => state.closed === null);
  if (open.length === 0) return 'closed';
  const lines = open.reduce((sum, { state }) => sum + openLines(state).length, 0);
  return (
    <StateMark state={lines === 0 ? 'back' : 'out'} text={lines === 0 ? 'all back' : `${countOf(lines, 'line')} out`} />
  );
}

function recordWord({ revisions, events, discrepancies }: TaskRecord): JobPlace['word'] {
  const open = discrepancies.filter(({ closed }) => closed === undefined).length;
  if (open > 0) return <StateMark state="missing" text={`${open} open`} />;
  if (revisions.length === 0) return 'nothing frozen';
  return countOf(events.length, 'event');
}

/** The last places of the job line: what comes back, and what was done. */
export function useReturnPlaces(task: string | null, at: PlaceName): JobPlace[] {
  const record = useTaskRecord(task);
  const { left } = record;
  const lines = left.flatMap(({ state }) => state.lines);
  const open = left.reduce((sum, { state }) => sum + openLines(state).length, 0);
  return [
    {
      name: 'Return',
      address: placeAddress({ at: 'return' }),
      current: at === 'return',
      done: lines.length === 0 ? 0 : 1 - open / lines.length,
      word: returnWord(record),
    },
    {
      name: 'Record',
      address: placeAddress({ at: 'record' }),
      current: at === 'record' || at === 'discrepancies',
      done: 0,
      word: recordWord(record),
    },
  ];
}

import { cellNamed } from '../../engine/inspection/index.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { recordTitle } from '../asrun/recordActs.ts';
import { useTable } from '../session/useStore.ts';
import { useTouchable } from './useTouchable.ts';
import { writeWatchOut } from './watchOutAsking.ts';
import { begunFrom } from './writeFrom.ts';
import type { LearnedFrom } from './writeFrom.ts';

/** Writes a watch-out from a record or a finding of a task, tied to what that was made at. */
export function useLearning(task: Task): (from: Omit<LearnedFrom, 'task' | 'called'>) => void {
  const { known } = useTouchable();
  const callouts = useTable('callouts').rows;
  const lists = useTable('calloutLists').rows;
  return (from) => {
    const named = cellNamed(from.cells, 'callout');
    const callout =
      from.kind === 'as-run' && named !== ''
        ? [...callouts.values()].find(
            ({ list, cells }) => lists.get(list)?.task === task.id && cellNamed(cells, 'id') === named,
          )?.cells
        : undefined;
    const called =
      from.kind === 'as-run'
        ? `record ${recordTitle(from.cells)}`
        : `${from.kind === 'steps' ? 'step' : 'callout'} ${cellNamed(from.cells, 'id')}`;
    writeWatchOut(begunFrom({ ...from, task, callout, called }, known));
  };
}

import type { RecordOf, TableName } from '../../../shared-types/records/index.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import type { Act, Proposal, TableState } from '../../store/store.ts';
import { useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { RemoveQuestion, RemoveRefused } from '../task/RemoveQuestion.tsx';

export interface RemoveTaskProps {
  task: Task;
  /** "Crew case", what it draws on and leaves behind. */
  shelves: string;
  onRemove: (act: Act) => void;
  onStay: () => void;
}

/** Asked before a task goes. What is of it alone goes with it in the same act; only here all of that is read. */
export function RemoveTask({ task, shelves, onRemove, onStay }: RemoveTaskProps) {
  const outings = useTable('outings');
  const steps = useTable('steps');
  const notes = useTable('notes');
  const calloutLists = useTable('calloutLists');
  const callouts = useTable('callouts');
  const asRunLists = useTable('asRunLists');
  const asRuns = useTable('asRuns');
  const results = useTable('results');
  const revisions = useTable('revisions');
  const tables = [outings, steps, notes, calloutLists, callouts, asRunLists, asRuns, results, revisions];
  const fault = tables.find((table) => table.fault !== null)?.fault ?? null;
  if (fault !== null || !tables.every(({ ready }) => ready))
    return (
      <RemoveQuestion what={`task ${task.code}`} onStay={onStay}>
        <p role="status">
          {fault === null ? 'Reading what goes with it…' : `What goes with it cannot be read: ${fault}`}
        </p>
      </RemoveQuestion>
    );
  const ofTask = <R extends { task: string }>({ rows }: TableState<R>): R[] =>
    [...rows.values()].filter((row) => row.task === task.id);
  const ofLists = <R extends { list: string }>({ rows }: TableState<R>, lists: readonly { id: string }[]): R[] => {
    const wanted = new Set(lists.map(({ id }) => id));
    return wanted.size === 0 ? [] : [...rows.values()].filter(({ list }) => wanted.has(list));
  };
  const frozen = ofTask(revisions).length;
  if (frozen > 0)
    return (
      <RemoveRefused what={`Task ${task.code}`} forGood onStay={onStay}>
        <p>
          {countOf(frozen, 'frozen manifest')} of {task.name} {frozen === 1 ? 'is' : 'are'} kept with what was done with{' '}
          {frozen === 1 ? 'it' : 'them'}. A frozen manifest is never removed, and so the task stays with it.
        </p>
      </RemoveRefused>
    );
  const [ownCallouts, ownAsRuns] = [ofTask(calloutLists), ofTask(asRunLists)];
  const result = results.rows.get(task.id);
  const going = {
    steps: ofTask(steps),
    outings: ofTask(outings),
    notes: ofTask(notes),
    asRuns: ofLists(asRuns, ownAsRuns),
    asRunLists: ownAsRuns,
    callouts: ofLists(callouts, ownCallouts),
    calloutLists: ownCallouts,
    results: result === undefined ? [] : [result],
  } satisfies { [T in TableName]?: RecordOf<T>[] };
  const act = (): Act => ({
    action: 'remove-task',
    title: `Remove task ${task.code}`,
    proposals: [
      ...Object.entries(going).flatMap(([table, records]) =>
        records.map(({ id, rev }): Proposal => ({ table: table as TableName, remove: { id, rev } })),
      ),
      { table: 'tasks', remove: { id: task.id, rev: task.rev } },
    ],
  });
  return (
    <RemoveQuestion what={`task ${task.code}`} onRemove={() => onRemove(act())} onStay={onStay}>
      <p>
        {task.name} goes, with {goesWith(going)}. What it draws on stays: {shelves}.
      </p>
    </RemoveQuestion>
  );
}

type Going = Record<'outings' | 'steps' | 'notes' | 'callouts' | 'asRuns' | 'results', readonly unknown[]>;

/** "its 1 outing and 24 steps", "its 1 outing, 24 steps and its planned bag". */
function goesWith({ outings, steps, notes, callouts, asRuns, results }: Going): string {
  const parts = [
    `its ${countOf(outings.length, 'outing')}`,
    countOf(steps.length, 'step'),
    ...(callouts.length === 0 ? [] : [countOf(callouts.length, 'callout')]),
    ...(asRuns.length === 0 ? [] : [countOf(asRuns.length, 'as-run record')]),
    ...(notes.length === 0 ? [] : [countOf(notes.length, 'result of the bench', 'results of the bench')]),
    ...(results.length === 0 ? [] : ['its planned bag']),
  ];
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}

import { useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { EntryHead } from '../../../shared-types/journal.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { byText } from '../../engine/records/inOrder.ts';
import { dayAndClockText } from '../../store/clock.ts';
import type { TableState } from '../../store/store.ts';
import { deedText } from '../session/deedText.ts';
import { useHistoryState, useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { useAct } from '../task/useAct.tsx';
import { RemoveTask } from './RemoveTask.tsx';

export interface KeptTasksProps {
  /** Key of the task at hand. */
  atHand: string | null;
  onOpenTask: (id: string) => void;
}

/** The tasks that are kept, to open or to remove. Nothing at all where there is none: the doors are for that. */
export function KeptTasks({ atHand, onOpenTask }: KeptTasksProps) {
  const tasks = useTable('tasks');
  const steps = useTable('steps');
  const outings = useTable('outings');
  const shelves = useTable('shelves');
  const results = useTable('results');
  const { recent } = useHistoryState();
  const { run, notice } = useAct();
  const [asked, setAsked] = useState<Task | null>(null);
  const ofSteps = useMemo(() => countsOf(steps), [steps]);
  const ofOutings = useMemo(() => countsOf(outings), [outings]);

  if (tasks.fault !== null)
    return (
      <p className="bw-first-tasks" role="alert">
        The kept tasks cannot be read: {tasks.fault}
      </p>
    );
  if (!tasks.ready)
    return (
      <p className="bw-first-tasks" role="status">
        Reading the kept tasks…
      </p>
    );
  if (tasks.rows.size === 0) return notice === null ? null : <div className="bw-first-tasks">{notice}</div>;

  const shelfNames = (task: Task): string =>
    task.shelves.map((key) => shelves.rows.get(key)?.name ?? 'a shelf that is not kept').join(', ') || 'no shelf';
  return (
    <section className="bw-first-tasks" aria-labelledby="kept-tasks">
      <h2 id="kept-tasks">{countOf(tasks.rows.size, 'kept task')}</h2>
      <LastChange recent={recent} />
      {notice}
      <div className="bw-first-scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">Task</th>
              <th scope="col">Code</th>
              <th scope="col">Draws on</th>
              <th scope="col">Outings</th>
              <th scope="col">Steps</th>
              <th scope="col">Bag planned</th>
              <th scope="col">Remove</th>
            </tr>
          </thead>
          <tbody>
            {[...tasks.rows.values()]
              .toSorted((a, b) => byText(a.name, b.name) || byText(a.code, b.code))
              .map((task) => (
                <tr key={task.id} data-current={task.id === atHand || undefined}>
                  <td>
                    <button type="button" className="bw-link" onClick={() => onOpenTask(task.id)}>
                      {task.name}
                    </button>
                    {task.id === atHand ? <span className="bw-second"> at hand</span> : null}
                  </td>
                  <td className="bw-code">{task.code}</td>
                  <td>{shelves.fault === null ? shelfNames(task) : 'cannot be read'}</td>
                  <td>{counted(outings, ofOutings.get(task.id))}</td>
                  <td>{counted(steps, ofSteps.get(task.id))}</td>
                  <td>{plannedText(results.rows.get(task.id)?.plannedAt)}</td>
                  <td>
                    <Button size="compact-sm" aria-label={`Remove task ${task.code}…`} onClick={() => setAsked(task)}>
                      Remove…
                    </Button>
                  </td>
                </tr>
              ))}
          </tbody>
        </table>
      </div>
      {asked === null ? null : (
        <RemoveTask
          task={asked}
          shelves={shelfNames(asked)}
          onRemove={(act) => {
            setAsked(null);
            void run(act);
          }}
          onStay={() => setAsked(null)}
        />
      )}
    </section>
  );
}

function countsOf(table: TableState<{ task: string }>): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { task } of table.rows.values()) counts.set(task, (counts.get(task) ?? 0) + 1);
  return counts;
}

function counted({ ready, fault }: { ready: boolean; fault: string | null }, count = 0): string {
  if (fault !== null) return 'cannot be read';
  return ready ? String(count) : 'being read';
}

function plannedText(at: string | undefined): string {
  return at === undefined ? 'not yet' : dayAndClockText(new Date(at));
}

/** Settings and planned bags stand in the history too, and are no work of a person's. */
const noWork: ReadonlySet<string> = new Set(['prefer', 'keep-result']);

function LastChange({ recent }: { recent: readonly EntryHead[] }) {
  const last = recent.find(({ action }) => !noWork.has(action));
  if (last === undefined) return null;
  return (
    <p className="bw-second">
      Last change: {deedText(last)}, {dayAndClockText(new Date(last.utc))}
      {last.user === '' ? '' : `, ${last.user}`}
    </p>
  );
}

import { useEffect, useRef, useState } from 'react';
import { Button } from '@mantine/core';
import { showNumber } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import { useTable } from '../session/useStore.ts';
import { Facts } from './Facts.tsx';
import { SheetState } from './SheetState.tsx';
import { taskAsking } from './taskAsking.ts';
import { TaskForm } from './TaskForm.tsx';
import { useAsked } from './useAsked.ts';
import { useTaskRows } from './useTaskRows.ts';
import './task.css';

/** The task's own facts, to look at and to edit in place. */
export function TaskFacts({ taskId }: { taskId: string }) {
  const rows = useTaskRows(taskId);
  const sites = useTable('sites').rows;
  const shelves = useTable('shelves').rows;
  const [editing, setEditing] = useState(false);
  const [said, setSaid] = useState('');
  const button = useRef<HTMLButtonElement>(null);
  const back = useRef(false);
  useAsked(taskAsking, () => setEditing(true), rows.kind === 'ready');
  useEffect(() => {
    if (editing || !back.current) return;
    back.current = false;
    button.current?.focus();
  }, [editing]);
  if (rows.kind !== 'ready') return <SheetState state={rows} what="task" />;
  const { task, steps } = rows;
  const close = (): void => {
    back.current = true;
    setEditing(false);
  };
  const status = (
    <span role="status" className="bw-hidden">
      {said}
    </span>
  );
  if (editing)
    return (
      <>
        <TaskForm
          before={task}
          steps={steps}
          onSaved={() => {
            setSaid(`Task ${task.code} is saved.`);
            close();
          }}
          onLeave={close}
        />
        {status}
      </>
    );
  const site = task.site === undefined ? undefined : sites.get(task.site);
  const siteSaid =
    task.site === undefined ? (
      task.siteText
    ) : site === undefined ? (
      'a site that is not kept any more'
    ) : (
      <a href={placeAddress({ at: 'sites', site: site.id })}>{site.name ?? site.code}</a>
    );
  const shelfNames = task.shelves.map((key) => shelves.get(key)?.name ?? 'a shelf that is not kept any more');
  const share = task.rangeShareMin;
  return (
    <section className="bw-task-sheet" aria-labelledby="facts-heading">
      <div className="bw-task-head">
        <h2 id="facts-heading">The task’s own facts</h2>
        <Button ref={button} size="xs" onClick={() => setEditing(true)}>
          Edit facts
        </Button>
      </div>
      <Facts
        facts={[
          [
            'Code',
            <span key="code" className="bw-code">
              {task.code}
            </span>,
          ],
          ['Name', task.name],
          ['Site', siteSaid],
          ['About', task.about],
          ['Crew', task.crew],
          ['Shelves', shelfNames.length === 0 ? 'none yet: stacks need the items of one' : shelfNames.join(', ')],
          [
            'Places',
            task.places.length === 0
              ? undefined
              : task.places.map(({ id, name, final }) => `${name ?? id}${final === true ? ' (final)' : ''}`).join(', '),
          ],
          [
            'Torque tools',
            share === undefined
              ? 'may be set anywhere in their range'
              : `are set at ${showNumber(Math.round(share * 1e10) / 1e8)} % of their range or more (common practice, no source)`,
          ],
        ]}
      />
      {status}
    </section>
  );
}

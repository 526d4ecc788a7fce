import { useMemo, useState } from 'react';
import type { Host } from '../../../../shared-types/host.ts';
import type { Task } from '../../../../shared-types/records/task.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import type { TableOrigin } from '../../../workers/tableImport.ts';
import { useStore } from '../../session/useStore.ts';
import { TableImport } from '../../tableImport/TableImport.tsx';
import type { SiteRows } from '../../task/useTaskRows.ts';
import type { TaskRows } from '../stepActs.ts';
import { bringStepsAct, keptSteps, namesOf } from './stepRows.ts';

export interface BringStepsInProps {
  task: Task;
  rows: TaskRows;
  sites: SiteRows;
  host: Host;
  /** Rows that were pasted into the list. */
  pasted?: string | undefined;
  onClose: () => void;
}

/** A spreadsheet's table on its way into a task: mapped, tried out whole, then kept in one act. */
export function BringStepsIn({ task, rows, sites, host, pasted, onClose }: BringStepsInProps) {
  const store = useStore();
  // What was there when the page was opened: what the rows do is told against it, and the act says if it changed meanwhile.
  const [found] = useState(() => {
    const names = namesOf(task, rows, sites);
    return { rows, names, kept: keptSteps(rows.steps, names), context: { callouts: [], steps: names } };
  });
  const first = useMemo(
    (): TableOrigin | undefined => (pasted === undefined ? undefined : { kind: 'paste', text: pasted }),
    [pasted],
  );
  return (
    <Dialog title="Bring steps in" onClose={onClose} className="bw-import">
      {rows.outings.length > 0 ? null : (
        <p role="alert">This task has no outing yet, and every step goes out on one: add the outings first.</p>
      )}
      <TableImport
        target="steps"
        context={found.context}
        kept={found.kept}
        host={host}
        first={first}
        onWrite={async ({ rows: ready, from }, watched) => {
          const act = await bringStepsAct({ ...found, ready, task: task.id, from: from.file, newId: store.newId });
          await store.commit(act, watched);
        }}
        onClose={onClose}
      />
    </Dialog>
  );
}

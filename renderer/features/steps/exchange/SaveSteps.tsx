import { Button } from '@mantine/core';
import type { Host } from '../../../../shared-types/host.ts';
import type { Task } from '../../../../shared-types/records/task.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { Switch } from '../../../components/Switch/Switch.tsx';
import { tableForms } from '../../report/tableFile.ts';
import { useSaveTable } from '../../report/useSaveTable.ts';
import type { SiteRows } from '../../task/useTaskRows.ts';
import type { TaskRows } from '../stepActs.ts';
import { countOf } from '../words.ts';
import { namesOf, tableOfSteps } from './stepRows.ts';

export interface SaveStepsProps {
  task: Task;
  rows: TaskRows;
  sites: SiteRows;
  host: Host;
  onClose: () => void;
}

/** A task's steps as a file that a spreadsheet opens and that comes back in unchanged. */
export function SaveSteps({ task, rows, sites, host, onClose }: SaveStepsProps) {
  const { form, setForm, said, save } = useSaveTable({
    host,
    name: `steps ${task.code}`,
    counted: (count) => countOf(count, 'step'),
    table: () => tableOfSteps(rows, namesOf(task, rows, sites)),
  });
  return (
    <Dialog title="Save steps as a file" onClose={onClose}>
      <div className="bw-deed">
        <Switch label="As" value={form} choices={tableForms} onChange={setForm} />
        <p className="bw-second">
          All {countOf(rows.steps.length, 'step')} in their order, every field that any of them has, quantities as
          typed. From which callout or row of the handbook a torque was taken stays with the task.
        </p>
        <div className="bw-form-foot">
          <Button variant="filled" onClick={() => void save()}>
            Save the file…
          </Button>
          <Button onClick={onClose}>Leave</Button>
          <span role="status">{said}</span>
        </div>
      </div>
    </Dialog>
  );
}

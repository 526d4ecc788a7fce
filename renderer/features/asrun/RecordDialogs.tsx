import type { Finding } from '../../../shared-types/judged.ts';
import type { AsRunList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Act } from '../../store/store.ts';
import { AcceptDialog } from '../judged/AcceptDialog.tsx';
import { AcceptRows } from '../judged/AcceptRows.tsx';
import { NameDialog } from '../judged/NameDialog.tsx';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { countOf } from '../steps/words.ts';
import { RemoveQuestion } from '../task/RemoveQuestion.tsx';
import { acceptFinding, recordName, removeList, removeRecords, renameList } from './recordActs.ts';
import { keptRecordDesk } from './recordDesks.ts';

export type RecordQuestion = 'remove' | 'remove-list' | 'rename' | 'import' | 'accept';

export interface AcceptingRecord {
  finding: Finding;
  of: KeptAsRun;
}

export interface RecordDialogsProps {
  asked: RecordQuestion | null;
  accepting: AcceptingRecord | null;
  list: AsRunList | null;
  rows: readonly KeptAsRun[];
  toRemove: readonly KeptAsRun[];
  person: string;
  units: UnitsShown;
  run: (act: Act) => Promise<boolean>;
  onRemoved: () => void;
  onClose: () => void;
}

/** What the place of the records asks before it does something to a list or to a record of it. */
export function RecordDialogs(props: RecordDialogsProps) {
  const { asked, accepting, list, rows, toRemove, person, units, run, onRemoved, onClose } = props;
  const does = (act: Act): Promise<boolean> => {
    onClose();
    return run(act);
  };
  if (accepting !== null) {
    const { finding, of } = accepting;
    const { rule, message } = finding;
    return (
      <AcceptDialog
        finding={finding}
        of={`record ${recordName(of.cells)}`}
        person={person}
        units={units}
        onAccept={(given) => void does(acceptFinding(of, { rule, message, ...given, at: isoWithOffset(new Date()) }))}
        onClose={onClose}
      />
    );
  }
  const [first] = toRemove;
  if (asked === 'remove' && first !== undefined)
    return (
      <RemoveQuestion
        what={toRemove.length > 1 ? countOf(toRemove.length, 'record') : `record ${recordName(first.cells)}`}
        onRemove={() => void does(removeRecords(toRemove)).then(onRemoved)}
        onStay={onClose}
      />
    );
  if (list === null) return null;
  if (asked === 'accept')
    return (
      <AcceptRows
        table="asRuns"
        rows={toRemove}
        count={rows.length}
        judgedRows={(from, count) => keptRecordDesk().judgedRows(list.id, from, count)}
        person={person}
        onAccept={(act) => void does(act).then((done) => (done ? onRemoved() : undefined))}
        onClose={onClose}
      />
    );
  if (asked === 'remove-list')
    return (
      <RemoveQuestion what={`list “${list.name}”`} onRemove={() => void does(removeList(list, rows))} onStay={onClose}>
        <p>
          {countOf(rows.length, 'record')}, what was accepted of them and what was found out of their tools go with it.
        </p>
      </RemoveQuestion>
    );
  if (asked === 'rename')
    return (
      <NameDialog
        title={`Rename list “${list.name}”`}
        name={list.name}
        onName={(name) => void does(renameList(list, name))}
        onClose={onClose}
      />
    );
  return null;
}

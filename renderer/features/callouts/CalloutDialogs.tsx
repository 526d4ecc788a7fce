import type { Finding } from '../../../shared-types/judged.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Act } from '../../store/store.ts';
import { AcceptDialog } from '../judged/AcceptDialog.tsx';
import { AcceptRows } from '../judged/AcceptRows.tsx';
import { NameDialog } from '../judged/NameDialog.tsx';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { countOf } from '../steps/words.ts';
import { RemoveQuestion } from '../task/RemoveQuestion.tsx';
import { RemoveCalloutList } from './RemoveCalloutList.tsx';
import { keptDesk } from './desks.ts';
import { SendToSteps } from './SendToSteps.tsx';
import { acceptFinding, removeCallouts, removeList, renameList } from './calloutActs.ts';

export type CalloutQuestion = 'remove' | 'remove-list' | 'rename' | 'import' | 'import-new' | 'send' | 'accept';
export interface Accepting {
  finding: Finding;
  of: KeptCallout;
}

export interface CalloutDialogsProps {
  asked: CalloutQuestion | null;
  accepting: Accepting | null;
  list: CalloutList;
  rows: readonly KeptCallout[];
  toRemove: readonly KeptCallout[];
  inHand: KeptCallout | undefined;
  person: string;
  units: UnitsShown;
  run: (act: Act) => Promise<boolean>;
  onRemoved: () => void;
  onSent: (said: string) => void;
  onClose: () => void;
}

/** What is asked before a callout or a list goes, is renamed, or a finding is accepted. */
export function CalloutDialogs(props: CalloutDialogsProps) {
  const { asked, accepting, list, rows, toRemove, inHand, person, units, run, onRemoved, onSent, onClose } = props;
  const [only] = toRemove;
  if (asked === 'remove' && only !== undefined)
    return (
      <RemoveQuestion
        what={toRemove.length > 1 ? countOf(toRemove.length, 'callout') : `callout ${cellNamed(only.cells, 'id')}`}
        onRemove={() => {
          onClose();
          void run(removeCallouts(toRemove)).then((done) => (done ? onRemoved() : undefined));
        }}
        onStay={onClose}
      />
    );
  if (asked === 'accept')
    return (
      <AcceptRows
        table="callouts"
        rows={toRemove}
        count={rows.length}
        judgedRows={(from, count) => keptDesk().judgedRows(list.id, from, count)}
        person={person}
        onAccept={(act) => {
          onClose();
          void run(act).then((done) => (done ? onRemoved() : undefined));
        }}
        onClose={onClose}
      />
    );
  if (asked === 'remove-list')
    return (
      <RemoveCalloutList
        list={list}
        count={rows.length}
        onRemove={() => {
          onClose();
          void run(removeList(list, rows));
        }}
        onStay={onClose}
      />
    );
  if (asked === 'rename')
    return (
      <NameDialog
        title={`Rename list “${list.name}”`}
        name={list.name}
        onName={(name) => {
          onClose();
          void run(renameList(list, name));
        }}
        onClose={onClose}
      />
    );
  if (asked === 'send' && inHand !== undefined)
    return (
      <SendToSteps
        taskId={list.task}
        callout={inHand}
        list={list.name}
        units={units}
        run={run}
        onSent={(said) => {
          onClose();
          onSent(said);
        }}
        onClose={onClose}
      />
    );
  if (accepting === null) return null;
  const { finding, of } = accepting;
  return (
    <AcceptDialog
      finding={finding}
      of={`callout ${cellNamed(of.cells, 'id')}`}
      person={person}
      units={units}
      onAccept={(given) => {
        onClose();
        const { rule, message } = finding;
        void run(acceptFinding(of, { rule, message, ...given, at: isoWithOffset(new Date()) }));
      }}
      onClose={onClose}
    />
  );
}

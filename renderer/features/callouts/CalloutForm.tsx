import { useDeferredValue, useMemo } from 'react';
import { calloutColumns } from '../../../shared-types/callout.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import type { Draft } from '../../components/RecordForm/draft.ts';
import type { Fault } from '../../components/RecordForm/faultFields.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { cellNamed, JudgedTable, tableRefusal } from '../../engine/inspection/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { addCallout, editCallout } from './calloutActs.ts';
import type { Cells } from './calloutActs.ts';
import { calloutGroups, otherColumns } from './calloutFields.ts';
import type { CalloutField, CalloutFieldGroup } from './calloutFields.ts';
import { JudgedAlready } from './JudgedAlready.tsx';

export interface CalloutFormProps {
  list: CalloutList;
  /** The list begins with this callout. */
  isNewList?: boolean;
  /** The kept one; null for a new one. */
  before: KeptCallout | null;
  /** What the form begins with. */
  initial: KeptCallout;
  heading: string;
  units: UnitsShown;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (id: string) => void;
  onLeave: () => void;
}

type Others = ReturnType<typeof otherColumns>;

function draftOf({ cells }: Pick<KeptCallout, 'cells'>, others: Others): Draft {
  const known = calloutColumns.map((name) => [name, cellNamed(cells, name)] as const);
  const rest = others.map(({ path, column }) => [path, cells[column] ?? ''] as const);
  return Object.fromEntries([...known, ...rest].filter(([, typed]) => typed !== ''));
}

function cellsOf(draft: Draft, others: Others): Cells {
  const names = [...calloutColumns.map((name) => ({ path: name as string, column: name as string })), ...others];
  return Object.fromEntries(
    names.flatMap(({ path, column }): [string, string][] => {
      const typed = draft[path];
      return typeof typed === 'string' && typed.trim() !== '' ? [[column, typed]] : [];
    }),
  );
}

/** Read as the rules will read it. A table without a column for a band refuses itself as a whole: the columns are there, empty. */
function judgedAlone(cells: Cells): JudgedTable {
  const columns = [...new Set(['id', 'thread', 'torqueMin', 'torqueMax', ...Object.keys(cells)])];
  const table = new JudgedTable({ columns, rows: [{ key: 'typed', cells }] });
  table.next(1);
  return table;
}

function faultsOf(draft: Draft, others: Others): Fault[] {
  try {
    const refusals = judgedAlone(cellsOf(draft, others)).look('typed')?.refusals ?? [];
    return refusals.map(({ field = 'id', message }) => ({ path: field, message: message.replace(`${field}: `, '') }));
  } catch (error) {
    return [{ path: 'id', message: tableRefusal(error).message }];
  }
}

/** A callout as it is written; what is typed stays as typed, and what it would be judged is said beside. */
export function CalloutForm(props: CalloutFormProps) {
  const { list, isNewList = false, before, initial, heading, units, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const others = useMemo(() => otherColumns(list.columns), [list.columns]);
  const form = useRecordForm({
    initial: useMemo(() => draftOf(initial, others), [initial, others]),
    keepAs: before !== null ? `callout ${before.id}` : `new callout in ${isNewList ? list.task : list.id}`,
    faultsOf: (draft) => faultsOf(draft, others),
  });
  const settled = useDeferredValue(form.draft);
  const look = useMemo(() => {
    if (faultsOf(settled, others).length > 0) return null;
    return judgedAlone(cellsOf(settled, others)).look('typed');
  }, [settled, others]);
  const save = (over: Parameters<typeof overKept>[1]): Promise<unknown> => {
    const cells = cellsOf(form.draft, others);
    const act = before === null ? addCallout(list, { ...initial, cells }, isNewList) : editCallout(list, before, cells);
    return store.commit(overKept(act, over));
  };
  return (
    <RecordForm
      form={form}
      heading={heading}
      saveLabel={before === null ? 'Add callout' : `Save ${cellNamed(before.cells, 'id')}`}
      leaveAsked={leaveAsked}
      onStay={onStay}
      save={save}
      onSaved={() => onSaved(initial.id)}
      onLeave={onLeave}
    >
      <p className="bw-second">Quantities are typed with their unit and stay as typed.</p>
      {look?.row == null ? null : <JudgedAlready row={look.row} units={units} />}
      {calloutGroups.map((group) => (
        <Group key={group.title} form={form} group={group} />
      ))}
      {others.length === 0 ? null : (
        <Group
          form={form}
          group={{
            title: 'Columns that no rule reads',
            fields: others.map(({ path, column }) => ({ path, label: column, is: 'text', optional: true })),
          }}
        />
      )}
    </RecordForm>
  );
}

function Group({ form, group }: { form: RecordFormState; group: CalloutFieldGroup }) {
  const { title, fields, folded = false } = group;
  const holds = fields.some(({ path, label }) => form.text(path, label).value !== undefined);
  const refused = fields.some(({ path, label }) => form.text(path, label).error !== undefined);
  const grid = (
    <div className="bw-form-grid">
      {fields.map((field) => (
        <Field key={field.path} form={form} field={field} />
      ))}
    </div>
  );
  if (!folded)
    return (
      <fieldset className="bw-form-group">
        <legend>{title}</legend>
        {grid}
      </fieldset>
    );
  return (
    <details className="bw-form-group" open={holds || refused || undefined}>
      <summary>{title}</summary>
      {grid}
    </details>
  );
}

function Field({ form, field }: { form: RecordFormState; field: CalloutField }) {
  const { path, label, is, of, choices = [], optional = false, hint } = field;
  const more = { optional, ...(hint === undefined ? {} : { description: hint }) };
  if (is === 'quantity' && of !== undefined) return <QuantityField {...form.text(path, label)} {...more} kind={of} />;
  if (is === 'choice') return <ChoiceField {...form.choice<string>(path, label)} {...more} choices={choices} />;
  return <TextField {...form.text(path, label)} {...more} />;
}

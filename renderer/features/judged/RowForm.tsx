import { useDeferredValue, useMemo } from 'react';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { JudgedRow } from '../../../shared-types/judged.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import type { Draft } from '../../components/RecordForm/draft.ts';
import type { Fault } from '../../components/RecordForm/faultFields.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RefusedError } from '../../engine/errors.ts';
import { cellNamed, tableRefusal } from '../../engine/inspection/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { overKept } from '../../store/overKept.ts';
import type { Act } from '../../store/store.ts';
import { useStore } from '../session/useStore.ts';
import { JudgedAlready } from './JudgedAlready.tsx';
import type { Cells } from './listActs.ts';
import { otherColumns } from './rowFields.ts';
import type { RowField, RowFieldGroup } from './rowFields.ts';

export interface RowFormProps {
  list: Pick<CalloutList, 'id' | 'task' | 'columns'>;
  /** The list begins with this row. */
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

export interface RowFormKind {
  /** "callout" */
  one: string;
  /** "Add callout", "Save B" */
  saveLabel: string;
  groups: readonly RowFieldGroup[];
  /** Columns that a rule reads. */
  columns: readonly string[];
  /** The column that is told what no other is. */
  firstColumn: string;
  /** Read and judged as the rules will do it; refuses where the table as a whole is none. */
  judge: (cells: Cells) => { row: Pick<JudgedRow<unknown>, 'decision' | 'findings'> | null; refusals: Refusal[] };
  act: (cells: Cells) => Act;
}

type Others = ReturnType<typeof otherColumns>;

function draftOf({ cells }: Pick<KeptCallout, 'cells'>, columns: readonly string[], others: Others): Draft {
  const known = columns.map((name) => [name, cellNamed(cells, name)] as const);
  const rest = others.map(({ path, column }) => [path, cells[column] ?? ''] as const);
  return Object.fromEntries([...known, ...rest].filter(([, typed]) => typed !== ''));
}

function cellsOf(draft: Draft, columns: readonly string[], others: Others): Cells {
  const names = [...columns.map((name) => ({ path: name, column: name })), ...others];
  return Object.fromEntries(
    names.flatMap(({ path, column }): [string, string][] => {
      const typed = draft[path];
      return typeof typed === 'string' && typed.trim() !== '' ? [[column, typed]] : [];
    }),
  );
}

/** A row as it is written; what is typed stays as typed, and what it would be judged is said beside. */
export function RowForm(props: RowFormProps & { kind: RowFormKind }) {
  const { kind, list, isNewList = false, before, initial, heading, units, leaveAsked } = props;
  const { onStay, onSaved, onLeave } = props;
  const { one, saveLabel, groups, columns, firstColumn, judge, act } = kind;
  const store = useStore();
  const others = useMemo(() => otherColumns(list.columns, columns), [list.columns, columns]);
  const faultsOf = (draft: Draft): Fault[] => {
    try {
      return judge(cellsOf(draft, columns, others)).refusals.map(({ field = firstColumn, message }) => ({
        path: field,
        message: message.replace(`${field}: `, ''),
      }));
    } catch (error) {
      return [{ path: firstColumn, message: tableRefusal(error).message }];
    }
  };
  const form = useRecordForm({
    initial: useMemo(() => draftOf(initial, columns, others), [initial, columns, others]),
    keepAs: before !== null ? `${one} ${before.id}` : `new ${one} in ${isNewList ? list.task : list.id}`,
    faultsOf,
  });
  const settled = useDeferredValue(form.draft);
  const row = useMemo(() => {
    try {
      const judged = judge(cellsOf(settled, columns, others));
      return judged.refusals.length > 0 ? null : judged.row;
    } catch (error) {
      // What the table as a whole is refused for is told at its field.
      if (error instanceof RefusedError) return null;
      throw error;
    }
  }, [settled, judge, columns, others]);
  const save = (over: Parameters<typeof overKept>[1]): Promise<unknown> =>
    store.commit(overKept(act(cellsOf(form.draft, columns, others)), over));
  return (
    <RecordForm
      form={form}
      heading={heading}
      saveLabel={saveLabel}
      leaveAsked={leaveAsked}
      onStay={onStay}
      save={save}
      onSaved={() => onSaved(initial.id)}
      onLeave={onLeave}
    >
      <p className="bw-second">Quantities are typed with their unit and stay as typed.</p>
      {row === null ? null : <JudgedAlready row={row} units={units} />}
      {groups.map((group) => (
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

function Group({ form, group }: { form: RecordFormState; group: RowFieldGroup }) {
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

function Field({ form, field }: { form: RecordFormState; field: RowField }) {
  const { path, label, is, of, choices = [], optional = false, hint } = field;
  const more = { optional, ...(hint === undefined ? {} : { description: hint }) };
  if (is === 'quantity' && of !== undefined) return <QuantityField {...form.text(path, label)} {...more} kind={of} />;
  if (is === 'choice') return <ChoiceField {...form.choice<string>(path, label)} {...more} choices={choices} />;
  return <TextField {...form.text(path, label)} {...more} />;
}

import { useMemo, useState } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { ChoiceField } from '../../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../../components/Fields/TextField.tsx';
import { RowGrid } from '../../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../../components/RowGrid/RowGrid.tsx';
import { overKept } from '../../../store/overKept.ts';
import { useStore } from '../../session/useStore.ts';
import { DeedDialog } from '../DeedDialog.tsx';
import { countOf } from '../words.ts';
import { fieldAct, fieldChanges, fieldsForAll, fieldTitle } from './fieldChanges.ts';
import type { BulkField as Field, FieldRow } from './fieldChanges.ts';

export interface BulkFieldProps {
  items: readonly Item[];
  onDone: () => void;
  onClose: () => void;
}

const heads: GridColumn[] = [
  { key: 'item', label: 'Item', width: 'minmax(80px, 0.6fr)' },
  { key: 'before', label: 'Before', width: 'minmax(96px, 1fr)' },
  { key: 'after', label: 'After', width: 'minmax(96px, 1fr)' },
  { key: 'why', label: 'Why it is not taken', width: 'minmax(120px, 1.6fr)' },
];

const empty = <span className="bw-second">empty</span>;

function lineOf({ item, before, after, why }: FieldRow): GridRow {
  return {
    kind: 'row',
    id: item.id,
    cells: () => ({
      item: <span className="bw-item-code">{item.code}</span>,
      before: before === '' ? empty : before,
      after: after === '' ? empty : after,
      why: why ?? '',
    }),
  };
}

/** One field of all items in hand: chosen, typed once, every row before and after, the bad ones first and named; one act. */
export function BulkField({ items, onDone, onClose }: BulkFieldProps) {
  const store = useStore();
  const fields = useMemo(() => fieldsForAll(items), [items]);
  const [name, setName] = useState<string | undefined>();
  const [text, setText] = useState<string | null>(null);
  const [leaveOut, setLeaveOut] = useState(false);
  const [selected, setSelected] = useState<string | null>(null);
  const field = fields.find(({ column }) => column.name === name);
  const changes = useMemo(
    () => (field === undefined || text === null ? null : fieldChanges(items, field, text)),
    [items, field, text],
  );
  const bad = changes?.rows.filter(({ why }) => why !== null).length ?? 0;
  const good = changes?.changed.length ?? 0;
  const lines = useMemo(
    () => (changes?.rows ?? []).toSorted((a, b) => Number(a.why === null) - Number(b.why === null)).map(lineOf),
    [changes],
  );
  return (
    <DeedDialog
      title={`Set a field of ${countOf(items.length, 'item')}`}
      deed={
        field === undefined || changes === null || good === 0 || (bad > 0 && !leaveOut)
          ? null
          : fieldTitle(field, changes.changed)
      }
      run={(over) =>
        field === undefined || changes === null
          ? Promise.resolve()
          : store.commit(overKept(fieldAct(field, changes), over))
      }
      onDone={onDone}
      onClose={onClose}
    >
      <ChoiceField
        id="bulk-field"
        label="Field"
        description="Those that every item chosen has"
        choices={fields.map(({ column, label }) => ({ value: column.name, label }))}
        value={name}
        onChange={(next) => {
          setName(next);
          setText(null);
          setLeaveOut(false);
        }}
      />
      {field === undefined ? null : <ValueField field={field} text={text} onText={setText} />}
      <p role="status">{saidOf(changes, { good, bad, of: items.length })}</p>
      {lines.length === 0 ? null : (
        <div className="bw-catalog-pasted">
          <RowGrid
            label="Items before and after"
            columns={heads}
            rows={lines}
            selected={selected}
            onSelect={setSelected}
            empty={null}
          />
        </div>
      )}
      {bad === 0 || good === 0 ? null : (
        <label className="bw-catalog-check">
          <input
            type="checkbox"
            checked={leaveOut}
            onChange={({ currentTarget }) => setLeaveOut(currentTarget.checked)}
          />
          Leave out the {countOf(bad, 'item')} that cannot be changed so
        </label>
      )}
    </DeedDialog>
  );
}

function saidOf(
  changes: { same: number } | null,
  { good, bad, of }: { good: number; bad: number; of: number },
): string {
  if (changes === null) return 'Choose the field, and type what it shall be in all of them. Nothing is written yet.';
  const same = changes.same === 0 ? '' : `, ${changes.same} say so already`;
  const refused = bad === 0 ? '' : `, ${bad} cannot be changed so`;
  return `${good} of ${countOf(of, 'item')} will change${same}${refused}. Nothing is written yet.`;
}

interface ValueFieldProps {
  field: Field;
  text: string | null;
  onText: (text: string) => void;
}

/** What is typed for all: one of a few where the field is that, else as in the table of the catalog. */
function ValueField({ field: { column, type }, text, onText }: ValueFieldProps) {
  const choices =
    type.is === 'choice'
      ? type.choices
      : type.is === 'yes-no'
        ? ['yes', 'no'].map((value) => ({ value, label: value }))
        : null;
  const common = { id: 'bulk-value', label: 'New value' };
  if (choices !== null)
    return (
      <ChoiceField
        {...common}
        choices={[...choices, { value: emptied, label: 'take it away' }]}
        value={text === null ? undefined : text === '' ? emptied : text}
        onChange={(next) => onText(next === emptied || next === undefined ? '' : next)}
      />
    );
  return (
    <TextField
      {...common}
      description={`${column.meaning}; empty takes it away`}
      long={type.is === 'long'}
      value={text ?? ''}
      onChange={onText}
    />
  );
}

const emptied = 'take it away';

import { useMemo } from 'react';
import { recordSchemas } from '../../../shared-types/records/index.ts';
import { itemKinds } from '../../../shared-types/records/item.ts';
import type { Item, ItemKind } from '../../../shared-types/records/item.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { readEntry } from '../../components/QuantityField/readEntry.ts';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { valueAt, withValue } from '../../components/RecordForm/draft.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';
import type { Fault } from '../../components/RecordForm/faultFields.ts';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import { newItem } from '../../engine/records/newItem.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { addAct, editAct, namedText } from './acts.ts';
import { conflictWords } from './conflictWords.ts';
import { FieldGroup } from './FieldGroup.tsx';
import { fieldsOf, itemGroups } from './itemFields.ts';
import { usageOf } from './usage.ts';
import type { CodeHolders, Usage } from './usage.ts';
import { itemName, kindWords } from './words.ts';

export interface ItemFormProps {
  /** The kept item; null for a new one. */
  before: Item | null;
  /** What the form begins with. */
  initial: Item;
  /** Of a copy: what it was copied from. */
  copyOf?: string;
  shelfName: string;
  holders: CodeHolders;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (id: string) => void;
  onLeave: () => void;
}

const nothingNamed: Usage = { steps: [], outings: [], interfaces: [], packs: [] };

const isKind = (value: unknown): value is ItemKind => itemKinds.some((kind) => kind === value);

/** What both kinds have keeps its entry. */
function asKind(draft: Draft, kind: ItemKind): Draft {
  const empty: Draft = newItem(kind, { id: String(draft['id']), shelf: String(draft['shelf']) });
  return fieldsOf(kind).reduce((next, { path, type }) => {
    const value = valueAt(draft, path);
    const fits = type.is !== 'choice' || type.choices.some((choice) => choice.value === value);
    return value === undefined || value === '' || !fits ? next : withValue(next, path, value);
  }, empty);
}

/** A record without its shape is not read any further: what a field refuses by itself is said beside it all the same. */
function entryFaults(draft: Draft): Fault[] {
  if (!isKind(draft['kind'])) return [];
  return fieldsOf(draft['kind']).flatMap(({ path, type }): Fault[] => {
    const text = valueAt(draft, path);
    if (type.is !== 'quantity' || typeof text !== 'string') return [];
    const reading = readEntry(type.of, text);
    return reading.kind === 'refused' ? [{ path, message: reading.why }] : [];
  });
}

function codeFault(draft: Draft, items: Iterable<Item>): Fault[] {
  for (const item of items) {
    if (item.shelf !== draft['shelf'] || item.id === draft['id'] || item.code !== draft['code']) continue;
    const retired = item.retired ? ', which is retired' : '';
    return [
      { path: 'code', message: `"${item.code}" is already the code of ${itemName(item)}${retired} on this shelf.` },
    ];
  }
  return [];
}

/** An item as it is written: every field of its kind, and what else changes where its code does. */
export function ItemForm(props: ItemFormProps) {
  const { before, initial, copyOf, shelfName, holders, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const form = useRecordForm({
    initial,
    keepAs:
      before !== null ? `item ${before.id}` : copyOf !== undefined ? `copy of ${copyOf}` : `new on ${initial.shelf}`,
    isKept: (draft) => before === null && holders.items.has(String(draft['id'])),
    faultsOf: (draft) => [
      ...faultsOf('items', draft),
      ...entryFaults(draft),
      ...codeFault(draft, holders.items.values()),
    ],
  });
  const kind = isKind(form.draft['kind']) ? form.draft['kind'] : initial.kind;
  const watchOuts = useTable('watchOuts').rows;
  const usage = useMemo(() => (before === null ? nothingNamed : usageOf(before, holders)), [before, holders]);
  const code = String(form.draft['code'] ?? '').trim();
  const named = before === null || code === '' || code === before.code ? null : namedText(before.code, usage);
  const save = (over: Parameters<typeof overKept>[1]): Promise<unknown> => {
    const item = recordSchemas.items.parse(form.draft);
    return store.commit(
      overKept(before === null ? addAct(item) : editAct(before, item, usage, watchOuts.values()), over),
    );
  };
  const heading = before !== null ? `Edit ${before.code}` : copyOf !== undefined ? 'Add a copy' : 'Add item';
  return (
    <RecordForm
      form={form}
      heading={heading}
      saveLabel={before === null ? 'Add item' : `Save ${before.code}`}
      {...(named === null
        ? {}
        : { beforeSaving: `${named}. Saving lets ${code} stand there in its place, as part of the same act.` })}
      words={conflictWords}
      leaveAsked={leaveAsked}
      onStay={onStay}
      save={save}
      onSaved={() => onSaved(String(form.draft['id']))}
      onLeave={onLeave}
    >
      <p className="bw-second">
        {before === null ? `Goes on the shelf ${shelfName}.` : `${kindWords[kind]} on the shelf ${shelfName}.`}{' '}
        Quantities are typed with their unit and stay as typed.
      </p>
      {before !== null || copyOf !== undefined ? null : (
        <div className="bw-form-grid">
          <ChoiceField
            id="item-kind"
            label="Kind"
            choices={itemKinds.map((value) => ({ value, label: kindWords[value] }))}
            value={kind}
            onChange={(next) => {
              if (next !== undefined) form.replace(asKind(form.draft, next));
            }}
          />
        </div>
      )}
      {itemGroups[kind].map((group) => (
        <FieldGroup key={`${kind} ${group.title}`} form={form} group={group} />
      ))}
    </RecordForm>
  );
}

import { useState } from 'react';
import { Button } from '@mantine/core';
import type { Item } from '../../../shared-types/records/item.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { overKept } from '../../store/overKept.ts';
import { askForLabels } from '../labels/labelAsking.ts';
import { useStore } from '../session/useStore.ts';
import { BulkField } from './bulk/BulkField.tsx';
import { affected, bulkAct, bulkTitle } from './acts.ts';
import type { BulkChange } from './acts.ts';
import { DeedDialog } from './DeedDialog.tsx';
import { countOf, kitWords } from './words.ts';

type Asked = { field: 'retired'; to: boolean } | { field: 'kit' } | { field: 'keptAt' };

const kits = [
  { value: 'field', label: kitWords.field },
  { value: 'training', label: kitWords.training },
  { value: 'both', label: kitWords.both },
] as const;

const headings = { retired: 'State', kit: 'Kit', keptAt: 'Kept at' } as const;

/** How many rows have which value now. */
function beforeOf(items: readonly Item[], field: BulkChange['field']): [string, number][] {
  const counts = new Map<string, number>();
  for (const item of items) {
    const text = valueText(field, item[field]);
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return [...counts].toSorted(([, a], [, b]) => b - a);
}

function valueText(field: BulkChange['field'], value: unknown): string {
  if (field === 'retired') return value === true ? 'retired' : 'in use';
  if (field === 'kit') return kits.find((kit) => kit.value === value)?.label ?? '';
  return typeof value === 'string' && value !== '' ? value : 'no place';
}

const listedMost = 8;

/** Several rows in hand: what is changed in all of them, as one act, shown before it is done. */
export function BulkPanel({
  items,
  onDone,
  onLeave,
}: {
  items: readonly Item[];
  onDone: () => void;
  onLeave: () => void;
}) {
  const store = useStore();
  const [asked, setAsked] = useState<Asked | null>(null);
  const [kit, setKit] = useState<Item['kit'] | undefined>();
  const [keptAt, setKeptAt] = useState('');
  const [field, setField] = useState(false);
  const change: BulkChange | null =
    asked === null
      ? null
      : asked.field === 'retired'
        ? asked
        : asked.field === 'kit'
          ? kit === undefined
            ? null
            : { field: 'kit', to: kit }
          : { field: 'keptAt', to: keptAt.trim() };
  const concerned = change === null ? [] : affected(items, change);
  const before = asked === null ? [] : beforeOf(change === null ? items : concerned, asked.field);
  const retired = items.filter((item) => item.retired).length;
  return (
    <section className="bw-item" aria-labelledby="bulk-heading">
      <h1 id="bulk-heading">{countOf(items.length, 'item')} chosen</h1>
      <p className="bw-second">
        {items
          .slice(0, 24)
          .map(({ code }) => code)
          .join(', ')}
        {items.length > 24 ? ` and ${items.length - 24} more` : ''}
      </p>
      <div className="bw-form-foot">
        {retired === items.length ? null : (
          <Button onClick={() => setAsked({ field: 'retired', to: true })}>Retire…</Button>
        )}
        {retired === 0 ? null : <Button onClick={() => setAsked({ field: 'retired', to: false })}>Bring back…</Button>}
        <Button onClick={() => setAsked({ field: 'kit' })}>Set the kit…</Button>
        <Button onClick={() => setAsked({ field: 'keptAt' })}>Set the place…</Button>
        <Button onClick={() => setField(true)}>Set another field…</Button>
        <Button onClick={() => askForLabels(items.map(({ id }) => id))}>Labels of these…</Button>
        <Button onClick={onLeave}>Choose none</Button>
      </div>
      {field ? (
        <BulkField
          items={items}
          onDone={() => {
            setField(false);
            onDone();
          }}
          onClose={() => setField(false)}
        />
      ) : null}
      {asked === null ? null : (
        <DeedDialog
          title={`Change ${countOf(items.length, 'item')}`}
          deed={change === null || concerned.length === 0 ? null : bulkTitle(concerned, change)}
          run={(over) => (change === null ? Promise.resolve() : store.commit(overKept(bulkAct(items, change), over)))}
          onDone={() => {
            setAsked(null);
            onDone();
          }}
          onClose={() => setAsked(null)}
        >
          {asked.field === 'kit' ? (
            <ChoiceField id="bulk-kit" label="Kit" choices={kits} value={kit} onChange={setKit} />
          ) : null}
          {asked.field === 'keptAt' ? (
            <TextField
              id="bulk-place"
              label="Kept at"
              description="Empty: no place"
              value={keptAt}
              error={keptAt.length > 2000 ? 'Kept at is longer than 2000 characters.' : undefined}
              onChange={setKeptAt}
            />
          ) : null}
          <p>
            <b>
              {countOf(concerned.length, 'row')} of {items.length}
            </b>
            {change === null
              ? ': nothing is chosen yet.'
              : concerned.length === 0
                ? ': all of them have it already.'
                : ' will change:'}
          </p>
          {change === null || concerned.length === 0 ? null : (
            <table className="bw-conflict-table">
              <thead>
                <tr>
                  <th scope="col">{headings[change.field]} before</th>
                  <th scope="col">After</th>
                  <th scope="col">Rows</th>
                </tr>
              </thead>
              <tbody>
                {before.slice(0, listedMost).map(([text, count]) => (
                  <tr key={text}>
                    <td>{text}</td>
                    <td>{valueText(change.field, change.to)}</td>
                    <td>{count}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          {before.length > listedMost ? (
            <p className="bw-second">and {before.length - listedMost} more values</p>
          ) : null}
        </DeedDialog>
      )}
    </section>
  );
}

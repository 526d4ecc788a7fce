import { useState } from 'react';
import { Button } from '@mantine/core';
import type { Host } from '../../../../shared-types/host.ts';
import type { Item, Shelf } from '../../../../shared-types/records/item.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { tableForms } from '../../report/tableFile.ts';
import { useSaveTable } from '../../report/useSaveTable.ts';
import { countOf } from '../words.ts';
import { tableOfItems } from './itemRows.ts';

export interface SaveItemsProps {
  /** Rows as they are shown, in their order. */
  shown: readonly Item[];
  all: readonly Item[];
  shelves: ReadonlyMap<string, Shelf>;
  /** Of the shelf, for the file's name. */
  name: string;
  host: Host;
  onClose: () => void;
}

/** The catalog as a file that a spreadsheet opens and that comes back in unchanged. */
export function SaveItems({ shown, all, shelves, name, host, onClose }: SaveItemsProps) {
  const [which, setWhich] = useState<'shown' | 'all'>('shown');
  const { form, setForm, said, save } = useSaveTable({
    host,
    name: `items ${name}`,
    counted: (rows) => countOf(rows, 'item'),
    table: () => tableOfItems(which === 'shown' ? shown : all, shelves),
  });
  return (
    <Dialog title="Save items as a file" onClose={onClose}>
      <div className="bw-deed">
        <fieldset className="bw-catalog-choices">
          <legend>Which</legend>
          <Choice
            name="which"
            label={`The ${countOf(shown.length, 'row')} shown, in their order`}
            checked={which === 'shown'}
            onChoose={() => setWhich('shown')}
          />
          <Choice
            name="which"
            label={`All ${countOf(all.length, 'item')}, retired ones too`}
            checked={which === 'all'}
            onChoose={() => setWhich('all')}
          />
        </fieldset>
        <fieldset className="bw-catalog-choices">
          <legend>As</legend>
          {tableForms.map(({ value, label }) => (
            <Choice key={value} name="form" label={label} checked={form === value} onChoose={() => setForm(value)} />
          ))}
        </fieldset>
        <p className="bw-second">
          Every field of every kind, quantities as typed. Sizes stay texts in the workbook, so that 3/8 in is no day.
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

function Choice(x: { name: string; label: string; checked: boolean; onChoose: () => void }) {
  return (
    <label className="bw-catalog-check">
      <input type="radio" name={x.name} checked={x.checked} onChange={x.onChoose} />
      {x.label}
    </label>
  );
}

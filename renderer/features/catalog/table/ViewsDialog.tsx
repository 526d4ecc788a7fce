import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { viewsMost } from '../../../../shared-types/records/window.ts';
import type { CatalogViewRecord } from '../../../../shared-types/records/window.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { reasonOf } from '../../../components/RecordForm/refusedSave.ts';
import { useStore } from '../../session/useStore.ts';
import type { CatalogView } from '../view.ts';
import { keepViews, viewRecord } from './savedViews.ts';

export interface ViewsDialogProps {
  views: readonly CatalogViewRecord[];
  view: CatalogView;
  onTake: (view: CatalogViewRecord) => void;
  onClose: () => void;
}

/** Ways of looking that have names: the one at hand is kept under one, kept ones are taken again or let go. */
export function ViewsDialog({ views, view, onTake, onClose }: ViewsDialogProps) {
  const store = useStore();
  const [name, setName] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const keep = async (change: (views: CatalogViewRecord[]) => CatalogViewRecord[]): Promise<void> => {
    try {
      await keepViews(store, change);
      setName('');
      setFault(null);
    } catch (error) {
      setFault(`NOT SAVED: ${reasonOf(error)}`);
    }
  };
  const wanted = name.trim();
  const isKnown = views.some((one) => one.name === wanted);
  return (
    <Dialog title="Views" onClose={onClose}>
      <div className="bw-deed">
        <p className="bw-second">
          A view is what is searched, the kind, the filters, the columns, the order and the height of rows.
        </p>
        <form
          noValidate
          className="bw-deed"
          onSubmit={(event) => {
            event.preventDefault();
            if (wanted === '') setFault('The name of the view is missing.');
            else if (!isKnown && views.length >= viewsMost)
              setFault(`At most ${viewsMost} views are kept: let one go first.`);
            else void keep((before) => [...before.filter((one) => one.name !== wanted), viewRecord(wanted, view)]);
          }}
        >
          <TextInput
            label="Keep this view as"
            autoComplete="off"
            maxLength={200}
            value={name}
            error={fault}
            onChange={({ currentTarget }) => setName(currentTarget.value)}
          />
          <div className="bw-form-foot">
            <Button type="submit" variant="filled">
              {isKnown ? `Keep “${wanted}” anew` : 'Keep this view'}
            </Button>
          </div>
        </form>
        {views.length === 0 ? (
          <p>No view is kept yet.</p>
        ) : (
          <ul className="bw-catalog-views">
            {views.map((one) => (
              <li key={one.name}>
                <bdi>{one.name}</bdi>
                <Button size="compact-sm" aria-label={`Take the view ${one.name}`} onClick={() => onTake(one)}>
                  Take it
                </Button>
                <Button
                  size="compact-sm"
                  aria-label={`Let the view ${one.name} go`}
                  onClick={() => void keep((before) => before.filter(({ name: other }) => other !== one.name))}
                >
                  Let it go
                </Button>
              </li>
            ))}
          </ul>
        )}
      </div>
    </Dialog>
  );
}

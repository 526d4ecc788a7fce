import type { Ref } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Shelf } from '../../../shared-types/records/item.ts';
import type { EntryHead } from '../../../shared-types/journal.ts';
import { Switch } from '../../components/Switch/Switch.tsx';
import type { CatalogView } from './view.ts';
import { segments } from './words.ts';

export interface CatalogBarProps {
  view: CatalogView;
  onLook: (change: Partial<CatalogView>) => void;
  searchRef: Ref<HTMLInputElement>;
  /** "18 of 214". */
  count: string;
  shelves: readonly Shelf[];
  /** Key of the shelf shown; null for all of them. */
  shelf: string | null;
  onShelf: (id: string | null) => void;
  onAddShelf: () => void;
  onEditShelf: () => void;
  onAdd: () => void;
  undo: EntryHead | null;
  redo: EntryHead | null;
  onUndo: () => void;
  onRedo: () => void;
  /** Down from the search: into the rows. */
  onDown: () => void;
}

/** What is shown of the catalog, and what can be done to all of it. */
export function CatalogBar(props: CatalogBarProps) {
  const { view, onLook, searchRef, count, shelves, shelf, onShelf, onAddShelf, onEditShelf, onAdd, onDown } = props;
  const { undo, redo, onUndo, onRedo } = props;
  return (
    <div className="bw-catalog-bar">
      <div className="bw-catalog-line">
        <div className="bw-catalog-search">
          <input
            ref={searchRef}
            type="search"
            aria-label="Find an item: number, name, size, place or notes"
            placeholder="Number, name or size"
            autoComplete="off"
            spellCheck={false}
            value={view.search}
            onChange={({ currentTarget }) => onLook({ search: currentTarget.value })}
            onKeyDown={(event) => {
              if (event.key === 'ArrowDown' || event.key === 'Enter') {
                event.preventDefault();
                onDown();
              } else if (event.key === 'Escape' && view.search !== '') {
                event.preventDefault();
                onLook({ search: '' });
              }
            }}
          />
          <span role="status" className="bw-second bw-small bw-nowrap">
            {count}
          </span>
        </div>
        {shelves.length === 0 ? null : (
          <NativeSelect
            aria-label="Shelf"
            className="bw-catalog-shelf"
            data={[
              ...(shelves.length > 1 ? [{ value: '', label: `All ${shelves.length} shelves` }] : []),
              ...shelves.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            value={shelf ?? ''}
            onChange={({ currentTarget }) => onShelf(currentTarget.value === '' ? null : currentTarget.value)}
          />
        )}
        {shelf === null ? null : <Button onClick={onEditShelf}>Rename shelf</Button>}
        <Button onClick={onAddShelf}>Add shelf</Button>
        <span className="bw-catalog-end">
          {undo === null ? null : (
            <Button onClick={onUndo} title={`Undo: ${undo.title}`} className="bw-catalog-deed">
              Undo: {undo.title}
            </Button>
          )}
          {redo === null ? null : (
            <Button onClick={onRedo} title={`Redo: ${redo.title}`} className="bw-catalog-deed">
              Redo: {redo.title}
            </Button>
          )}
          {shelves.length === 0 ? null : (
            <Button variant="filled" onClick={onAdd}>
              Add item
            </Button>
          )}
        </span>
      </div>
      <div className="bw-catalog-line">
        <div className="bw-catalog-segments">
          <Switch
            label="Kind"
            value={view.segment}
            choices={segments}
            onChange={(segment) => onLook({ segment, sorting: { key: 'code', down: false } })}
          />
        </div>
        <label className="bw-catalog-check">
          <input
            type="checkbox"
            checked={view.showRetired}
            onChange={({ currentTarget }) => onLook({ showRetired: currentTarget.checked })}
          />
          Retired ones too
        </label>
      </div>
    </div>
  );
}

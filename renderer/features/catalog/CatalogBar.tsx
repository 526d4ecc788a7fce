import { useState } from 'react';
import type { Ref } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Shelf } from '../../../shared-types/records/item.ts';
import { SearchBox } from '../../components/SearchBox/SearchBox.tsx';
import { Switch } from '../../components/Switch/Switch.tsx';
import { UndoRedo } from '../../components/UndoRedo/UndoRedo.tsx';
import type { UndoRedoProps } from '../../components/UndoRedo/UndoRedo.tsx';
import { placeAddress } from '../../store/place.ts';
import type { CatalogTool } from './asks.ts';
import { ActiveFilters } from './table/ActiveFilters.tsx';
import type { ColumnsAtHand } from './table/useColumns.ts';
import type { CatalogView } from './view.ts';
import { segments } from './words.ts';

export interface CatalogBarProps extends UndoRedoProps {
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
  columns: ColumnsAtHand;
  onTool: (tool: CatalogTool) => void;
  /** Down from the search: into the rows. */
  onDown: () => void;
}

const tools: readonly [CatalogTool, string][] = [
  ['columns', 'Columns and filters…'],
  ['views', 'Views…'],
  ['bring-in', 'Bring in…'],
  ['save', 'Save as a file…'],
  ['doubles', 'Kept twice…'],
  ['stock', 'Stock by place…'],
  ['due', 'Calibrations due…'],
];

/** What is shown of the catalog, and what can be done to all of it. */
export function CatalogBar(props: CatalogBarProps) {
  const { view, onLook, searchRef, count, shelves, shelf, onShelf, onAddShelf, onEditShelf, onAdd, onDown } = props;
  const { columns, onTool } = props;
  const { undo, redo, onUndo, onRedo } = props;
  /** In a narrow window the rest is folded, so that the table has the room. */
  const [isOpen, setOpen] = useState(false);
  const kind = segments.find(({ value }) => value === view.segment);
  return (
    <div className="bw-catalog-bar" data-open={isOpen || undefined}>
      <div className="bw-catalog-line">
        <SearchBox
          inputRef={searchRef}
          label="Find an item: number, name, size, place or notes"
          hint="Number, name or size"
          value={view.search}
          onValue={(text) => onLook({ search: text })}
          count={count}
          onDown={onDown}
        />
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
        <span className="bw-catalog-fold bw-catalog-tools">
          {shelf === null ? null : <Button onClick={onEditShelf}>Rename shelf</Button>}
          <Button onClick={onAddShelf}>Add shelf</Button>
        </span>
        <span className="bw-catalog-end">
          <span className="bw-catalog-more">
            <Button aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
              {isOpen ? 'Hide kinds, shelves and files' : 'Show kinds, shelves and files…'}
            </Button>
          </span>
          <UndoRedo undo={undo} redo={redo} onUndo={onUndo} onRedo={onRedo} />
          {shelves.length === 0 ? null : (
            <Button variant="filled" onClick={onAdd}>
              Add item
            </Button>
          )}
        </span>
      </div>
      {view.segment === 'all' && !view.showRetired ? null : (
        <p className="bw-catalog-more">
          Only {kind?.label}
          {view.showRetired ? ', retired ones too' : ''}
        </p>
      )}
      <div className="bw-catalog-line bw-catalog-fold">
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
        {shelves.length === 0 ? null : (
          <span className="bw-catalog-tools">
            {tools.map(([tool, label]) => (
              <Button key={tool} size="compact-sm" onClick={() => onTool(tool)}>
                {label}
              </Button>
            ))}
            <span>
              <a href={placeAddress({ at: 'labels' })}>Labels</a>
            </span>
            <span>
              <a href={placeAddress({ at: 'kits' })}>Kits compared</a>
            </span>
          </span>
        )}
      </div>
      <ActiveFilters filters={view.filters} columns={columns.all} onFilters={(filters) => onLook({ filters })} />
    </div>
  );
}

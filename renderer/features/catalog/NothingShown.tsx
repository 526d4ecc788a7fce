import { Button } from '@mantine/core';
import type { ShownItems } from './useShownItems.ts';
import type { CatalogView } from './view.ts';
import { segments } from './words.ts';

export interface NothingShownProps {
  found: ShownItems;
  view: CatalogView;
  shelfName: string;
  onLook: (change: Partial<CatalogView>) => void;
  onAdd: () => void;
}

/** Why no row is shown, and the one press that helps. */
export function NothingShown({ found, view, shelfName, onLook, onAdd }: NothingShownProps) {
  const { onShelf, ofKind, retiredFound } = found;
  const search = view.search.trim();
  const kind = segments.find(({ value }) => value === view.segment)?.label.toLowerCase() ?? '';
  const retired =
    retiredFound === 0 ? null : (
      <Button onClick={() => onLook({ showRetired: true })}>
        Show {retiredFound === 1 ? 'the retired one' : `the ${retiredFound} retired ones`}
      </Button>
    );
  const filters = Object.keys(view.filters).length;
  if (filters > 0 && ofKind > 0) {
    return (
      <div className="bw-catalog-nothing">
        <p>
          Of {ofKind} {view.segment === 'all' ? 'items' : kind} of {shelfName} none passes the filters
          {search === '' ? '' : ` and holds ${search}`}.
        </p>
        <p className="bw-form-foot">
          <Button onClick={() => onLook({ filters: {} })}>Clear all filters</Button>
          {search === '' ? null : <Button onClick={() => onLook({ search: '' })}>Clear the search</Button>}
          {retired}
        </p>
      </div>
    );
  }
  if (search !== '' && ofKind > 0) {
    return (
      <div className="bw-catalog-nothing">
        <p>
          Nothing is found for <b>{search}</b> among {ofKind} {view.segment === 'all' ? 'items' : kind} of {shelfName}.
        </p>
        <p className="bw-second">Looked in number, name, kind, every size, place and notes; each word must be there.</p>
        <p className="bw-form-foot">
          <Button onClick={() => onLook({ search: '' })}>Clear the search</Button>
          {retired}
        </p>
      </div>
    );
  }
  if (onShelf > 0) {
    return (
      <div className="bw-catalog-nothing">
        <p>
          There are no {kind} on {shelfName}.
        </p>
        <p className="bw-form-foot">
          <Button onClick={() => onLook({ segment: 'all', search: '' })}>Show all kinds</Button>
          {retired}
        </p>
      </div>
    );
  }
  return (
    <div className="bw-catalog-nothing">
      <p>Nothing stands on {shelfName} yet.</p>
      <p className="bw-second">Add what lies there one by one, or import a list of it.</p>
      <p className="bw-form-foot">
        <Button onClick={onAdd}>Add the first item</Button>
        {retired}
      </p>
    </div>
  );
}

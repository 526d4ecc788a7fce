import type { Host } from '../../../shared-types/host.ts';
import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { CatalogViewRecord } from '../../../shared-types/records/window.ts';
import type { CatalogTool } from './asks.ts';
import { BringItemsIn } from './exchange/BringItemsIn.tsx';
import { SaveItems } from './exchange/SaveItems.tsx';
import { CalibrationDue } from './lists/CalibrationDue.tsx';
import { Doubles } from './lists/Doubles.tsx';
import { StockByPlace } from './lists/StockByPlace.tsx';
import { ColumnsDialog } from './table/ColumnsDialog.tsx';
import type { ColumnsAtHand } from './table/useColumns.ts';
import { ViewsDialog } from './table/ViewsDialog.tsx';
import type { CodeHolders } from './usage.ts';
import type { CatalogView } from './view.ts';

export interface CatalogToolsProps {
  tool: CatalogTool;
  /** Rows that were pasted, for `bring-in`. */
  pasted: string | null;
  holders: CodeHolders;
  shelves: ReadonlyMap<string, Shelf>;
  /** The shelf at hand, or the first of several. */
  shelf: string;
  shelfName: string;
  shown: readonly Item[];
  /** Those of the shelf at hand, or of all shelves. */
  onShelf: readonly Item[];
  today: string;
  host: Host;
  view: CatalogView;
  views: readonly CatalogViewRecord[];
  columns: ColumnsAtHand;
  count: string;
  onLook: (change: Partial<CatalogView>) => void;
  onItem: (id: string) => void;
  onClose: () => void;
}

/** What is done to the catalog as a whole, each over the table. */
export function CatalogTools(props: CatalogToolsProps) {
  const { tool, pasted, holders, shelves, shelf, shelfName, shown, onShelf, today, host } = props;
  const { view, views, columns, count, onLook, onItem, onClose } = props;
  const toItem = (id: string): void => {
    onClose();
    onItem(id);
  };
  switch (tool) {
    case 'bring-in':
      return (
        <BringItemsIn
          items={holders.items}
          shelves={shelves}
          shelf={shelf}
          host={host}
          pasted={pasted ?? undefined}
          onClose={onClose}
        />
      );
    case 'save':
      return <SaveItems shown={shown} all={onShelf} shelves={shelves} name={shelfName} host={host} onClose={onClose} />;
    case 'columns':
      return <ColumnsDialog view={view} columns={columns} count={count} onLook={onLook} onClose={onClose} />;
    case 'views':
      return (
        <ViewsDialog
          views={views}
          view={view}
          onTake={({ name: _name, ...taken }) => {
            onLook(taken);
            onClose();
          }}
          onClose={onClose}
        />
      );
    case 'doubles':
      return (
        <Doubles items={onShelf} shelves={shelves} holders={holders} today={today} onItem={toItem} onClose={onClose} />
      );
    case 'stock':
      return <StockByPlace items={onShelf} shelfName={shelfName} host={host} onItem={toItem} onClose={onClose} />;
    case 'due':
      return <CalibrationDue items={onShelf} holders={holders} today={today} onItem={toItem} onClose={onClose} />;
  }
}

import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { Host } from '../../../../shared-types/host.ts';
import type { Item } from '../../../../shared-types/records/item.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { RowGrid } from '../../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../../components/RowGrid/RowGrid.tsx';
import { showNumber } from '../../../engine/units/index.ts';
import { tableFile } from '../../report/tableFile.ts';
import { countOf, itemName } from '../words.ts';
import { stockByPlace } from './places.ts';
import type { PlaceStock } from './places.ts';

export interface StockByPlaceProps {
  items: readonly Item[];
  shelfName: string;
  host: Host;
  onItem: (id: string) => void;
  onClose: () => void;
}

const heads: GridColumn[] = [
  { key: 'place', label: 'Place', width: 'minmax(120px, 1fr)' },
  { key: 'items', label: 'Items', width: '64px', end: true },
  { key: 'pieces', label: 'Pieces', width: '72px', end: true },
  { key: 'mass', label: 'Mass (kg)', width: 'minmax(96px, 0.7fr)', end: true },
];

const itemHeads: GridColumn[] = [
  { key: 'item', label: 'Item', width: '104px' },
  { key: 'name', label: 'Name', width: 'minmax(120px, 1fr)' },
  { key: 'pieces', label: 'On hand', width: '72px', end: true },
];

const nameOf = (place: string): string => (place === '' ? 'no place said' : place);

function massText({ massKg, withoutMass, items }: PlaceStock): string {
  if (withoutMass === items.length) return 'not known';
  return withoutMass === 0 ? showNumber(massKg) : `${showNumber(massKg)}, ${withoutMass} without`;
}

/** How much lies where, and what it is. */
export function StockByPlace({ items, shelfName, host, onItem, onClose }: StockByPlaceProps) {
  const places = useMemo(() => stockByPlace(items), [items]);
  const [selected, setSelected] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const inHand = places.find(({ place }) => `p ${place}` === selected);
  const lines = useMemo(
    () =>
      places.map((stock): GridRow => ({
        kind: 'row',
        id: `p ${stock.place}`,
        cells: () => ({
          place: <bdi>{nameOf(stock.place)}</bdi>,
          items: stock.items.length,
          pieces: stock.pieces,
          mass: massText(stock),
        }),
      })),
    [places],
  );
  const itemLines = useMemo(
    () =>
      (inHand?.items ?? []).map((item): GridRow => ({
        kind: 'row',
        id: item.id,
        cells: () => ({
          item: <span className="bw-item-code">{item.code}</span>,
          name: itemName(item),
          pieces: 'onHand' in item ? (item.onHand ?? '') : '',
        }),
      })),
    [inHand],
  );
  const [itemInHand, setItemInHand] = useState<string | null>(null);
  const save = async (): Promise<void> => {
    const rows = places.map((stock) => [nameOf(stock.place), stock.items.length, stock.pieces, massText(stock)]);
    const columns = ['place', 'items', 'pieces', 'mass (kg)'];
    try {
      const saved = await host.saveFile(
        tableFile({ name: `stock by place ${shelfName}`, form: 'xlsx', columns, rows }),
      );
      setSaid(saved ? 'Saved.' : 'Not saved.');
    } catch (error) {
      setSaid(`Not saved: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const pieces = places.reduce((sum, place) => sum + place.pieces, 0);
  return (
    <Dialog title={`Stock by place: ${shelfName}`} onClose={onClose} className="bw-import">
      <div className="bw-deed">
        <p className="bw-form-foot">
          <span>
            {countOf(pieces, 'piece')} at {countOf(places.filter(({ place }) => place !== '').length, 'place')}. Retired
            items are not counted; a bag counts as one piece.
          </span>
          <Button size="compact-sm" onClick={() => void save()}>
            Save the list…
          </Button>
          <span role="status">{said}</span>
        </p>
        {places.length === 0 ? <p>Nothing stands on the shelf yet.</p> : null}
        <div className="bw-catalog-two">
          <RowGrid
            label="Places"
            columns={heads}
            rows={lines}
            selected={selected}
            onSelect={setSelected}
            empty={null}
          />
          {inHand === undefined ? (
            <p className="bw-second">Take a place in hand to see what lies there.</p>
          ) : (
            <RowGrid
              label={`Items at ${nameOf(inHand.place)}`}
              columns={itemHeads}
              rows={itemLines}
              selected={itemInHand}
              onSelect={setItemInHand}
              onOpen={onItem}
              empty={null}
            />
          )}
        </div>
        <p className="bw-second">Enter on an item opens it in the catalog.</p>
      </div>
    </Dialog>
  );
}

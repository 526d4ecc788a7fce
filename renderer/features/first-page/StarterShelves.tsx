import { useState } from 'react';
import { Button } from '@mantine/core';
import type { Shelf } from '../../../shared-types/records/item.ts';
import { placeAddress } from '../../store/place.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { useAct } from '../task/useAct.tsx';
import { starterCatalogs, takeStarter } from './starterCatalogs.ts';
import type { StarterCatalog } from './starterCatalogs.ts';

/** The starter catalogs: each to be taken once, and then the way to its shelf. */
export function StarterShelves() {
  const store = useStore();
  const shelves = useTable('shelves');
  const { run, notice } = useAct();
  const [taking, setTaking] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [taken, setTaken] = useState<string | null>(null);
  const here = (name: string): Shelf | undefined => [...shelves.rows.values()].find((shelf) => shelf.name === name);
  const take = async (catalog: StarterCatalog): Promise<void> => {
    if (taking !== null) return;
    setTaking(catalog.id);
    setFault(null);
    setTaken(null);
    try {
      const { act, items } = await takeStarter(catalog, () => store.newId());
      if (await run(act))
        setTaken(`${countOf(items, 'item')} on the shelf ${catalog.shelfName}. Undo takes them back.`);
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    }
    setTaking(null);
  };
  return (
    <>
      <div className="bw-first-starters">
        {starterCatalogs.map((catalog) => {
          const shelf = here(catalog.shelfName);
          return shelf === undefined ? (
            <Button
              key={catalog.id}
              aria-label={`Take ${catalog.short}: ${catalog.shelfName}`}
              disabled={taking !== null || !shelves.ready}
              onClick={() => void take(catalog)}
            >
              {taking === catalog.id ? `Taking ${catalog.short}…` : `Take ${catalog.short}`}
            </Button>
          ) : (
            <a key={catalog.id} href={placeAddress({ at: 'catalog', shelf: shelf.id })}>
              Open {catalog.shelfName}
            </a>
          );
        })}
      </div>
      <div role="status">{taken === null ? null : <p className="bw-small">{taken}</p>}</div>
      {fault === null ? null : <p role="alert">The catalog was not taken: {fault}</p>}
      {notice}
    </>
  );
}

import { useEffect, useMemo, useState } from 'react';
import { NativeSelect } from '@mantine/core';
import type { Host } from '../../../../shared-types/host.ts';
import type { Item, Shelf } from '../../../../shared-types/records/item.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import type { TableOrigin } from '../../../workers/tableImport.ts';
import { useStore } from '../../session/useStore.ts';
import { TableImport } from '../../tableImport/TableImport.tsx';
import { bringInAct, keptItems } from './itemRows.ts';
import type { KeptItem } from './itemRows.ts';

export interface BringItemsInProps {
  items: ReadonlyMap<string, Item>;
  shelves: ReadonlyMap<string, Shelf>;
  /** The shelf for rows that name none. */
  shelf: string;
  host: Host;
  /** Rows that were pasted into the table. */
  pasted?: string | undefined;
  onClose: () => void;
}

/** A spreadsheet's table on its way onto a shelf: mapped, tried out whole, then kept in one act. */
export function BringItemsIn({ items, shelves, shelf, host, pasted, onClose }: BringItemsInProps) {
  const store = useStore();
  const [chosen, setChosen] = useState(shelf);
  const [kept, setKept] = useState<readonly KeptItem[] | null>(null);
  // What was there when the page was opened: what the rows do is told against it, and the act says if it changed meanwhile.
  const [found] = useState(items);
  useEffect(() => {
    let left = false;
    void keptItems(found, shelves).then((all) => (left ? undefined : setKept(all)));
    return () => {
      left = true;
    };
  }, [found, shelves]);
  const names = useMemo(() => [...shelves.values()].map(({ name }) => name), [shelves]);
  const on = shelves.get(chosen);
  const context = useMemo(
    () => ({ callouts: [], shelves: names, ...(on === undefined ? {} : { shelf: { id: on.id, name: on.name } }) }),
    [names, on],
  );
  const first = useMemo(
    (): TableOrigin | undefined => (pasted === undefined ? undefined : { kind: 'paste', text: pasted }),
    [pasted],
  );
  return (
    <Dialog title="Bring items in" onClose={onClose} className="bw-import">
      {shelves.size < 2 ? null : (
        <NativeSelect
          label="Shelf for rows that name none"
          data={[...shelves.values()].map(({ id, name }) => ({ value: id, label: name }))}
          value={chosen}
          onChange={({ currentTarget }) => setChosen(currentTarget.value)}
        />
      )}
      {kept === null ? (
        <p role="status">Reading the shelf…</p>
      ) : (
        <TableImport
          key={chosen}
          target="items"
          context={context}
          kept={kept}
          host={host}
          first={first}
          onWrite={async ({ rows, from }, watched) => {
            const act = await bringInAct({ ready: rows, kept, shelves, from: from.file, newId: store.newId });
            await store.commit(act, watched);
          }}
          onClose={onClose}
        />
      )}
    </Dialog>
  );
}

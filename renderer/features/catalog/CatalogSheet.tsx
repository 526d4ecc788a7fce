import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { useMediaQuery } from '@mantine/hooks';
import { Button } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import { preferencesKey } from '../../../shared-types/records/window.ts';
import type { CellBlock } from '../../components/RowGrid/block.ts';
import { newItem } from '../../engine/records/newItem.ts';
import { conflictsIn, reasonOf } from '../../components/RecordForm/refusedSave.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Place } from '../../store/place.ts';
import { goTo } from '../session/usePlace.ts';
import { useHistoryState, useStore, useTable } from '../session/useStore.ts';
import { freshCode } from '../task/freshCode.ts';
import { bulkAct } from './acts.ts';
import { onCatalogAsk, takeCatalogAsk } from './asks.ts';
import type { CatalogTool } from './asks.ts';
import { BulkPanel } from './BulkPanel.tsx';
import { CatalogBar } from './CatalogBar.tsx';
import { CatalogFoot } from './CatalogFoot.tsx';
import { CatalogTools } from './CatalogTools.tsx';
import { blockText } from './cells/cellBlock.ts';
import { PasteCells } from './cells/PasteCells.tsx';
import { ItemForm } from './ItemForm.tsx';
import { ItemPane } from './ItemPane.tsx';
import { ItemTable } from './ItemTable.tsx';
import { NothingShown } from './NothingShown.tsx';
import { OneDeed } from './OneDeed.tsx';
import { prepareSearch } from './searchText.ts';
import { ShelfForm } from './ShelfForm.tsx';
import { withWidth } from './table/columnWidth.ts';
import { filterTest } from './table/filters.ts';
import { useColumns } from './table/useColumns.ts';
import type { CodeHolders } from './usage.ts';
import { useStable } from './useStable.ts';
import { usePane } from './usePane.ts';
import { useShownItems } from './useShownItems.ts';
import { rowHeightsPx, useCatalogView } from './view.ts';

/** In an address where no single shelf is chosen. */
const allShelves = 'all';
const none: ReadonlySet<string> = new Set();

export interface CatalogHallProps {
  place: Extract<Place, { at: 'catalog' }>;
  units: UnitsShown;
  /** The day calibrations are judged on, as `2026-11-25`. */
  today: string;
  host: Host;
}

type Props = CatalogHallProps & CodeHolders & { shelves: ReadonlyMap<string, Shelf> };

/** The table, and beside it the item in hand or the form about it. */
export function CatalogSheet(props: Props) {
  const { place, units, today, host, shelves, items, tasks, outings, steps, interfaces } = props;
  const store = useStore();
  const history = useHistoryState();
  const [view, look] = useCatalogView();
  const { pane, leaveAsked, show, whenFree, stayed, left } = usePane();
  const [chosen, setChosen] = useState(none);
  const [deed, setDeed] = useState<{ deed: 'retire' | 'remove'; item: Item } | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [focusAsked, setFocusAsked] = useState(0);
  const root = useRef<HTMLDivElement>(null);
  const search = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  const holders = useMemo(
    () => ({ items, tasks, outings, steps, interfaces }),
    [items, tasks, outings, steps, interfaces],
  );

  const shelfList = useMemo(() => [...shelves.values()].toSorted((a, b) => (a.name < b.name ? -1 : 1)), [shelves]);
  const only = shelfList.length === 1 ? (shelfList[0]?.id ?? null) : null;
  const shelf = place.shelf !== undefined && shelves.has(place.shelf) ? place.shelf : only;
  const shelfName = shelf === null ? 'all shelves' : (shelves.get(shelf)?.name ?? '');
  const item = place.item === undefined ? undefined : items.get(place.item);
  // The hand moves at once; the sheet about the row under it follows as soon as there is time to draw it.
  const inSheet = useDeferredValue(item);
  const columns = useColumns(view, shelf === null && shelfList.length > 1);
  const shown = useMemo(
    () => ({ units, today, shelfName: (id: string) => shelves.get(id)?.name ?? '' }),
    [units, today, shelves],
  );
  const passes = useMemo(() => filterTest(view.filters, columns.all, shown), [view.filters, columns.all, shown]);
  // The key just pressed is painted at once; the rows follow as soon as they can be sieved.
  const [prepared, setPrepared] = useState(false);
  const found = useShownItems(items, columns.all, { view, search: prepared ? view.search : '', shelf, passes });
  useEffect(() => prepareSearch(items, () => setPrepared(true)), [items]);
  const [block, setBlock] = useState<CellBlock | null>(null);
  const [tool, setTool] = useState<CatalogTool | null>(null);
  const [pasted, setPasted] = useState<string | null>(null);
  const preferences = useTable('preferences').rows.get(preferencesKey);
  const onShelf = useMemo(
    () => (shelf === null ? [...items.values()] : [...items.values()].filter((one) => one.shelf === shelf)),
    [items, shelf],
  );
  const bulk = useMemo(() => [...chosen].flatMap((id) => items.get(id) ?? []), [chosen, items]);

  const take = (id: string): void => goTo({ at: 'catalog', shelf: shelf ?? allShelves, item: id }, 'replace');
  const focusRow = (): void => setFocusAsked((before) => before + 1);
  useEffect(() => {
    if (focusAsked > 0) root.current?.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
  }, [focusAsked]);

  const attempt = async (run: () => Promise<unknown>): Promise<void> => {
    setFault(null);
    try {
      await run();
    } catch (error) {
      const conflicts = conflictsIn(error);
      setFault(
        conflicts === null
          ? `NOT SAVED: ${reasonOf(error)}`
          : 'Not done: what it would change was changed meanwhile. Look at it again first.',
      );
    }
  };
  const edit = (wanted: Item | undefined): void => {
    if (wanted === undefined) return;
    whenFree(() => {
      setChosen(none);
      show({ kind: 'edit', item: wanted });
    });
  };
  const add = (): void => {
    const on = shelf ?? item?.shelf ?? shelfList[0]?.id;
    if (on === undefined) return;
    const kind = view.segment === 'all' ? (item?.kind ?? 'socket') : view.segment;
    whenFree(() => {
      setChosen(none);
      show({ kind: 'add', initial: newItem(kind, { id: store.newId(), shelf: on }) });
    });
  };
  const copy = (from: Item): void => {
    const taken = new Set<string>();
    for (const other of items.values()) if (other.shelf === from.shelf) taken.add(other.code);
    const { position: _place, tag: _label, ...rest } = from;
    const initial = { ...rest, id: store.newId(), rev: 0, retired: false, code: freshCode(from.code, taken) } as Item;
    show({ kind: 'add', initial, copyOf: from.code });
  };
  const onSaved = (id: string): void => {
    left(() => {
      const saved = items.get(id);
      if (saved === undefined) look({ search: '', segment: 'all' });
      take(id);
      focusRow();
    });
  };
  const onFormLeft = (): void => left(focusRow);

  const sortBy = useStable((key: string) =>
    look({ sorting: { key, down: view.sorting.key === key && !view.sorting.down } }),
  );
  const widen = useStable((key: string, px: number) => {
    const chosenColumns = view.columns[view.segment] ?? columns.shown.map((column) => ({ key: column.key }));
    look({ columns: { ...view.columns, [view.segment]: withWidth(chosenColumns, key, px) } });
  });
  const selectRow = useStable((id: string) => {
    if (id !== item?.id || pane.kind !== 'item') whenFree(() => take(id));
  });
  const openRow = useStable((_id: string) => heading.current?.focus());
  const editRow = useStable((id: string) => edit(items.get(id)));
  const editInSheet = useStable(() => edit(inSheet));
  const copyInSheet = useStable(() => {
    if (inSheet !== undefined) copy(inSheet);
  });
  const retireInSheet = useStable((retired: boolean) => {
    if (inSheet === undefined) return;
    if (retired) setDeed({ deed: 'retire', item: inSheet });
    else void attempt(() => store.commit(bulkAct([inSheet], { field: 'retired', to: false })));
  });
  const removeInSheet = useStable(() => {
    if (inSheet !== undefined) setDeed({ deed: 'remove', item: inSheet });
  });
  const takeItem = useStable(({ id }: Item) => take(id));
  const pasteText = useStable((text: string) =>
    whenFree(() => {
      setPasted(text);
      if (block === null) setTool('bring-in');
    }),
  );
  const chooseRows = useStable((next: ReadonlySet<string>) => whenFree(() => setChosen(next)));

  // Asked anew with each drawing: what answers is what is shown now.
  useEffect(() => {
    const answer = (): void => {
      const ask = takeCatalogAsk();
      if (ask === 'find') search.current?.focus();
      else if (ask === 'add') add();
      else if (ask !== null && shelfList.length > 0) whenFree(() => setTool(ask));
    };
    answer();
    return onCatalogAsk(answer);
  });

  if (shelfList.length === 0 && pane.kind !== 'shelf') {
    return (
      <div className="bw-catalog-whole">
        <h1>No shelf yet</h1>
        <p>
          A shelf is a named stock: what lies in one shop, one case or one depot and is counted together. Tasks draw on
          shelves; every item stands on one.
        </p>
        <p className="bw-form-foot">
          <Button variant="filled" onClick={() => show({ kind: 'shelf', shelf: null, id: store.newId() })}>
            Add shelf
          </Button>
        </p>
      </div>
    );
  }

  const near = found.near === 0 ? '' : `, ${found.near} nearly so`;
  const count = `${found.shown.length} of ${found.onShelf}${near}`;
  const list = (
    <section key="list" className="bw-pane-list" aria-label="Catalog" data-found={found.search}>
      <ItemTable
        items={found.shown}
        columns={columns.shown}
        shown={shown}
        sorting={view.sorting}
        onSort={sortBy}
        onWidth={widen}
        rowHeightPx={rowHeightsPx[view.density]}
        selected={item?.id ?? null}
        onSelect={selectRow}
        onOpen={openRow}
        onEdit={editRow}
        chosen={chosen}
        onChoose={chooseRows}
        block={block}
        onBlock={setBlock}
        onPaste={pasteText}
        empty={
          found.shown.length > 0 ? null : (
            <NothingShown
              found={found}
              view={{ ...view, search: found.search }}
              shelfName={shelfName}
              onLook={look}
              onAdd={add}
            />
          )
        }
      />
      <CatalogFoot
        shown={found.shown.length}
        chosen={chosen.size}
        cells={block === null ? null : blockText(block, found.shown, columns.shown)}
        density={view.density}
        onDensity={(density) => look({ density })}
      />
    </section>
  );
  const form = { leaveAsked, onStay: stayed, onLeave: onFormLeft };
  const inHand = (
    <div key="detail" className="bw-pane-detail" role="region" aria-label="Item in hand" tabIndex={0}>
      {pane.kind === 'edit' ? (
        <ItemForm
          key={`edit ${pane.item.id}`}
          before={pane.item}
          initial={pane.item}
          shelfName={shelves.get(pane.item.shelf)?.name ?? ''}
          holders={holders}
          {...form}
          onSaved={onSaved}
        />
      ) : pane.kind === 'add' ? (
        <ItemForm
          key={`add ${pane.initial.id}`}
          before={null}
          initial={pane.initial}
          {...(pane.copyOf === undefined ? {} : { copyOf: pane.copyOf })}
          shelfName={shelves.get(pane.initial.shelf)?.name ?? ''}
          holders={holders}
          {...form}
          onSaved={onSaved}
        />
      ) : pane.kind === 'shelf' ? (
        <ShelfForm
          before={pane.shelf === null ? null : (shelves.get(pane.shelf) ?? null)}
          id={pane.id}
          shelves={shelfList}
          {...form}
          onSaved={(id) => left(() => goTo({ at: 'catalog', shelf: id }))}
        />
      ) : bulk.length > 1 ? (
        <BulkPanel
          items={bulk}
          onDone={() => {
            setChosen(none);
            focusRow();
          }}
          onLeave={() => {
            setChosen(none);
            focusRow();
          }}
        />
      ) : inSheet === undefined ? (
        <p className="bw-second">
          Take an item in hand to see it drawn, what is known of it, what it fits and what uses it.
        </p>
      ) : (
        <ItemPane
          item={inSheet}
          holders={holders}
          units={units}
          today={today}
          headingRef={heading}
          onEdit={editInSheet}
          onCopy={copyInSheet}
          onRetire={retireInSheet}
          onRemove={removeInSheet}
          onItem={takeItem}
        />
      )}
    </div>
  );
  return (
    <div className="bw-catalog" ref={root}>
      <CatalogBar
        view={view}
        onLook={look}
        searchRef={search}
        count={!prepared && view.search !== '' ? 'preparing the search…' : count}
        columns={columns}
        onTool={(asked) => whenFree(() => setTool(asked))}
        shelves={shelfList}
        shelf={shelf}
        onShelf={(id) => whenFree(() => goTo({ at: 'catalog', shelf: id ?? allShelves }))}
        onAddShelf={() => whenFree(() => show({ kind: 'shelf', shelf: null, id: store.newId() }))}
        onEditShelf={() => whenFree(() => show({ kind: 'shelf', shelf, id: shelf ?? '' }))}
        onAdd={add}
        undo={history.undo}
        redo={history.redo}
        onUndo={() => void attempt(() => store.undo())}
        onRedo={() => void attempt(() => store.redo())}
        onDown={focusRow}
      />
      {fault === null ? null : (
        <div className="bw-form-notsaved bw-catalog-fault" role="alert">
          <p>{fault}</p>
          <Button onClick={() => setFault(null)}>Close</Button>
        </div>
      )}
      <div className="bw-split bw-catalog-split">{stacked ? [inHand, list] : [list, inHand]}</div>
      {tool === null ? null : (
        <CatalogTools
          tool={tool}
          pasted={pasted}
          holders={holders}
          shelves={shelves}
          shelf={shelf ?? shelfList[0]?.id ?? ''}
          shelfName={shelfName}
          shown={found.shown}
          onShelf={onShelf}
          today={today}
          host={host}
          view={view}
          views={preferences?.catalogViews ?? []}
          columns={columns}
          count={count}
          onLook={look}
          onItem={take}
          onClose={() => {
            setTool(null);
            setPasted(null);
          }}
        />
      )}
      {pasted === null || block === null || tool !== null ? null : (
        <PasteCells
          text={pasted}
          block={block}
          rows={found.shown}
          columns={columns.shown}
          onDone={() => {
            setPasted(null);
            focusRow();
          }}
          onClose={() => setPasted(null)}
        />
      )}
      {deed === null ? null : (
        <OneDeed
          deed={deed.deed}
          item={items.get(deed.item.id) ?? deed.item}
          holders={holders}
          onDone={() => {
            setDeed(null);
            focusRow();
          }}
          onClose={() => setDeed(null)}
        />
      )}
    </div>
  );
}

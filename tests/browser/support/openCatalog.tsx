/** The catalog on a real store, for tests: what stands on the shelf, and the hall as the window shows it. */
import '../../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import '../../../renderer/styles/fonts.css';
import '../../../renderer/styles/base.css';
import { MantineProvider } from '@mantine/core';
import { useSyncExternalStore } from 'react';
import { render } from 'vitest-browser-react';
import type { FileToSave, Host } from '../../../shared-types/host.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { CatalogHall } from '../../../renderer/features/catalog/CatalogHall.tsx';
import { forgetCatalogView } from '../../../renderer/features/catalog/view.ts';
import { StoreContext } from '../../../renderer/features/session/useStore.ts';
import { usePlace } from '../../../renderer/features/session/usePlace.ts';
import type { Proposal, Store } from '../../../renderer/store/store.ts';
import type { UnitsShown } from '../../../renderer/engine/units/index.ts';
import { resolver, theme } from '../../../renderer/theme.ts';
import { memoryJournal } from '../../support/memoryJournal.ts';
import { openWindowOn, put, rowsOf } from './keptStore.ts';

export const today = '2026-11-25';

const common = { rev: 0, retired: false, parts: 1, kit: 'field', shelf: 'crew' } as const;

export const socket = (id: string, more: Partial<Extract<Item, { kind: 'socket' }>> = {}): Item => ({
  ...common,
  id,
  code: id,
  kind: 'socket',
  drive: '3/8 in',
  opening: { form: 'hex6', size: '9/16 in' },
  length: '2.50 in',
  innerDepth: '1.88 in',
  outsideDiameter: '0.80 in',
  ratedTorque: '150 lbf·ft',
  mass: '0.152 kg',
  onHand: 1,
  ...more,
});

export const torqueTool = (id: string, more: Partial<Extract<Item, { kind: 'torque-tool' }>> = {}): Item => ({
  ...common,
  id,
  code: id,
  kind: 'torque-tool',
  drive: '3/8 in',
  min: '15 lbf·ft',
  max: '75 lbf·ft',
  increment: '1 lbf·ft',
  accuracyOfReading: 0.04,
  lever: '10 in',
  mass: '0.9 kg',
  onHand: 1,
  ...more,
});

/** A host that is asked for nothing but to save. */
function savingHost(saved: FileToSave[]): Host {
  return { saveFile: (file: FileToSave) => Promise.resolve(saved.push(file) > 0) } as Partial<Host> as Host;
}

function Hall({ scheme, units, host }: { scheme: 'light' | 'dark'; units: UnitsShown; host: Host }) {
  const place = usePlace();
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme}>
      <div style={{ height: '100vh', display: 'flex', flexDirection: 'column' }}>
        {place.at === 'catalog' ? (
          <CatalogHall place={place} units={units} today={today} host={host} />
        ) : (
          <p>{place.at}</p>
        )}
      </div>
    </MantineProvider>
  );
}

/** Shows nothing before the store is ready, as the window does. */
function Ready({ store, children }: { store: Store; children: React.ReactNode }) {
  const opening = useSyncExternalStore(store.subscribeOpening, store.opening);
  return opening.kind === 'ready' ? children : null;
}

export interface CatalogOptions {
  items?: readonly Item[];
  more?: readonly Proposal[];
  shelves?: readonly { id: string; name: string }[];
  scheme?: 'light' | 'dark';
  units?: UnitsShown;
  /** Another store than one of the test's own. */
  store?: Store;
}

export async function openCatalog(options: CatalogOptions = {}) {
  localStorage.clear();
  forgetCatalogView();
  window.location.hash = '#/catalog';
  const journal = memoryJournal();
  const { store } = await openWindowOn(journal);
  const shelves = options.shelves ?? [{ id: 'crew', name: 'Crew case' }];
  const proposals = [
    ...shelves.map((one) => put('shelves', { ...one, rev: 0 })),
    ...(options.items ?? []).map((item) => put('items', item)),
    ...(options.more ?? []),
  ] as Proposal[];
  if (proposals.length > 0) await store.commit({ action: 'add', title: 'Begin', proposals, undoable: false });
  const shown = options.store ?? store;
  const saved: FileToSave[] = [];
  const host = savingHost(saved);
  const screen = await render(
    <StoreContext value={shown}>
      <Ready store={shown}>
        <Hall scheme={options.scheme ?? 'light'} units={options.units ?? 'both'} host={host} />
      </Ready>
    </StoreContext>,
  );
  return { screen, store, journal, saved, items: () => rowsOf(store, 'items') };
}

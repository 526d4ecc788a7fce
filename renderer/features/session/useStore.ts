import { createContext, use, useSyncExternalStore } from 'react';
import type { RecordOf, TableName } from '../../../shared-types/records/index.ts';
import type { HistoryState, OpeningState, SaveState, Store, TableState } from '../../store/store.ts';

export const StoreContext = createContext<Store | null>(null);

export function useStore(): Store {
  const store = use(StoreContext);
  if (store === null) throw new Error('The store is used outside of its provider.');
  return store;
}

/** The rows of a table, current as long as it is shown. */
export function useTable<T extends TableName>(name: T): TableState<RecordOf<T>> {
  const table = useStore().table(name);
  return useSyncExternalStore(table.subscribe, table.state);
}

export function useSaveState(): SaveState {
  const store = useStore();
  return useSyncExternalStore(store.subscribeSaving, store.saving);
}

export function useHistoryState(): HistoryState {
  const store = useStore();
  return useSyncExternalStore(store.subscribeHistory, store.history);
}

export function useOpening(): OpeningState {
  const store = useStore();
  return useSyncExternalStore(store.subscribeOpening, store.opening);
}

import { use, useCallback } from 'react';
import type { JournalHead } from '../../store/store.ts';
import { StoreContext } from '../session/useStore.ts';

/** What a printed page says of the journal: its head, null where it could not be read, absent where there is no store. */
export type PrintedHead = JournalHead | null | undefined;

/**
 * Reads the journal's head at the moment at which a document is made. It is asked for, and not kept current: a sheet is not laid out anew
 * because something else was kept meanwhile, and any head of before it serves as well to find a cut end.
 */
export function useJournalHead(): () => Promise<PrintedHead> {
  const store = use(StoreContext);
  return useCallback(async () => {
    if (store === null) return undefined;
    try {
      return await store.journalHead();
    } catch {
      return null;
    }
  }, [store]);
}

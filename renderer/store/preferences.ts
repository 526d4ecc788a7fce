import type { PreferencesRecord } from '../../shared-types/records/window.ts';
import { preferencesKey } from '../../shared-types/records/window.ts';
import { ConflictError, NotSavedError } from './store.ts';
import type { Store } from './store.ts';

export type Preferences = Omit<PreferencesRecord, 'id' | 'rev'>;

export const firstPreferences: Preferences = {
  units: 'both',
  scheme: 'follow',
  person: '',
  paper: 'A4',
  singleKeys: true,
  task: null,
};

export interface PreferenceKeeper {
  /** What is kept, with this window's latest wishes on top. */
  state(): Preferences;
  prefer(change: Partial<Preferences>): void;
}

/** How often a wish is put to a record that another window keeps changing. */
const mostTries = 5;

/**
 * Wishes are seen at once and kept one after another: those that come while one is on its way go together in the next.
 * What the disk did not take still holds in this window, and the store says that it is not saved; what may not be kept at
 * all is let go and told.
 */
export function keepPreferences(
  store: Store,
  { changed, refused }: { changed: () => void; refused: (error: unknown) => void },
): PreferenceKeeper {
  const table = store.table('preferences');
  let wishes: Partial<Preferences> = {};
  let writing = false;
  const kept = (): PreferencesRecord | undefined => table.state().rows.get(preferencesKey);
  const read = (): Preferences => {
    const { id: _id, rev: _rev, ...held } = kept() ?? { id: '', rev: 0, ...firstPreferences };
    return { ...held, ...wishes };
  };
  let told = read();
  const tell = (): void => {
    const next = read();
    if (JSON.stringify(next) === JSON.stringify(told)) return;
    told = next;
    changed();
  };
  table.subscribe(tell);

  const write = async (): Promise<void> => {
    writing = true;
    let tries = 0;
    while (Object.keys(wishes).length > 0) {
      const sent = wishes;
      const put = { ...read(), id: preferencesKey, rev: kept()?.rev ?? 0 };
      try {
        await store.commit({
          action: 'prefer',
          title: 'Settings',
          undoable: false,
          proposals: [{ table: 'preferences', put }],
        });
        // Only what has not been wished otherwise meanwhile is done.
        wishes = Object.fromEntries(
          Object.entries(wishes).filter(([name, value]) => sent[name as keyof Preferences] !== value),
        );
      } catch (error) {
        tries += 1;
        if (error instanceof ConflictError && tries < mostTries) continue;
        if (!(error instanceof NotSavedError)) {
          wishes = {};
          refused(error);
        }
        break;
      }
    }
    writing = false;
    tell();
  };

  return {
    state: () => told,
    prefer(change) {
      wishes = { ...wishes, ...change };
      tell();
      if (!writing) void write();
    },
  };
}

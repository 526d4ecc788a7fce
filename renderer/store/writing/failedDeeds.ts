/** What could not be saved, for `saveAgain`. It lives as long as the page, and is settled by being kept. */
import type { Deed } from './deeds.ts';
import { recordKey } from './prepare.ts';
import type { SaveLine } from './saveLine.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { ConflictError } from '../store.ts';
import { whyNotSaved } from './whyNotSaved.ts';
import type { Wish } from './wishes.ts';

export interface FailedDeeds {
  add(deed: Deed, error: unknown): void;
  /** Kept after all, as the journal shows by its key. */
  settle(key: string): void;
  /** The very same was asked before by a deed that was told of as not saved, and settled: asking once more changes nothing. */
  wasKeptAfterAll(wish: Wish): boolean;
  /** Something was kept: what it replaces need not be tried again, and what could not be tried again is told of no more. */
  kept(deed: Deed): void;
  toTryAgain(): Deed[];
  /** While the records were changed by others, trying again would overwrite them. */
  giveUp(deed: Deed, error: unknown): void;
}

export function createFailedDeeds(saves: Pick<SaveLine, 'failed'>): FailedDeeds {
  const failed = new Map<string, { deed: Deed; givenUp: boolean }>();
  const keptAfterAll = new Set<string>();
  const drop = (key: string): void => {
    if (failed.delete(key)) saves.failed(key, null);
  };
  return {
    settle(key) {
      for (const wish of failed.get(key)?.deed.wishes ?? []) keptAfterAll.add(canonicalJson(wish));
      drop(key);
    },
    wasKeptAfterAll: (wish) => keptAfterAll.size > 0 && keptAfterAll.has(canonicalJson(wish)),
    add(deed, error) {
      failed.set(deed.key, { deed, givenUp: false });
      saves.failed(deed.key, whyNotSaved(error));
    },
    kept(deed) {
      drop(deed.key);
      if (failed.size === 0) return;
      const records = new Set(deed.wishes.map(recordKey));
      for (const [key, one] of failed)
        if (one.givenUp || one.deed.wishes.some((wish) => records.has(recordKey(wish)))) drop(key);
    },
    toTryAgain: () => [...failed.values()].flatMap(({ deed, givenUp }) => (givenUp ? [] : [deed])),
    giveUp(deed, error) {
      const why = error instanceof ConflictError ? 'its record was changed meanwhile' : whyNotSaved(error);
      failed.set(deed.key, { deed, givenUp: true });
      saves.failed(deed.key, `${deed.title}: ${why}; open it and save it from there`);
    },
  };
}

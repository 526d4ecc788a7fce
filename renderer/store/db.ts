import Dexie from 'dexie';
import type { Table } from 'dexie';
import type { BagResult, Minimised } from '../../shared-types/bag.ts';
import type { Preferences } from './preferences.ts';

export interface PreferencesRow extends Preferences {
  key: 'preferences';
}

/** The plan under the hand, as it stood in its file. It is read again when it comes back. */
export interface PlanRow {
  key: 'plan';
  name: string;
  text: string;
  openedAt: string;
}

/** The last answer for the plan at hand, with what was asked. */
export interface KeptResult {
  minimised: Minimised;
  timeLimitS: number | null;
  plannedAt: string;
  result: BagResult;
}

export interface ResultRow extends KeptResult {
  key: 'result';
  /** `openedAt` of the plan this answers; of any other plan it says nothing. */
  planOpenedAt: string;
}

export class WindowDb extends Dexie {
  preferences!: Table<PreferencesRow, string>;
  plan!: Table<PlanRow, string>;
  result!: Table<ResultRow, string>;

  constructor(name = 'bagwright') {
    // Only strict durability reaches the disk before a write counts as done.
    super(name, { chromeTransactionDurability: 'strict' });
    this.version(1).stores({ preferences: 'key', plan: 'key', result: 'key' });
  }
}

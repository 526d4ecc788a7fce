/** What one window has in hand while its store is open: the working copy, the right to write, and how far it has come. */
import type { JournalHost } from '../../../shared-types/host.ts';
import type { Change, EntryHead, JournalEntry, Lease } from '../../../shared-types/journal.ts';
import { broughtUp } from '../../../shared-types/records/versions.ts';
import { applyEntries } from '../copy/applyEntries.ts';
import { takeIn } from '../copy/arrivals.ts';
import { entriesFrom } from './hostCalls.ts';
import { headOf } from './history.ts';
import type { ChangedKeys, LiveTables } from '../copy/liveTables.ts';
import { within } from '../noAnswer.ts';
import { settled } from '../copy/workingCopy.ts';
import type { WorkingCopy } from '../copy/workingCopy.ts';

export interface Desk {
  journal: JournalHost;
  copy: WorkingCopy;
  lease: Lease | null;
  /** The last entry whose head this window has. */
  seen: number;
  /** The last entry whose records its screens show, as other windows told. */
  heard: number;
  /** Something may be in the journal that this window does not know of: it looks before it writes. */
  doubtful: boolean;
  /** Newest last. */
  heads: EntryHead[];
  /** Set once the store can take nothing more until it is opened again. */
  stopped: string | null;
  tookHeads(heads: readonly EntryHead[]): void;
  /** An entry is on the disk in both forms: told to the screens, and to the other windows once the tables have it. */
  took(entries: readonly { head: EntryHead; changes: readonly Change[] }[]): void;
}

/** The tables take in what was laid down for them; where they once did not, it is tried again. */
export async function settleArrivals({ copy }: Desk): Promise<void> {
  await copy.arrived().catch(async () => {
    copy.takes(takeIn(copy));
    await copy.arrived();
  });
}

/** Reads what the journal has beyond this window and brings the working copy up to it. */
export async function bringUp(desk: Desk, limitMs: () => number): Promise<void> {
  await settleArrivals(desk);
  for await (const entries of entriesFrom(desk.journal, desk.seen + 1, limitMs)) {
    await within(applyEntries(desk.copy, entries.map(toApply)), limitMs() + weightMs(entries), 'the working copy');
    desk.took(headsOf(desk, entries));
  }
  desk.doubtful = false;
}

/** What many records may take on top of what a few may. */
export function weightMs(entries: readonly JournalEntry[]): number {
  return entries.reduce((sum, { payload }) => sum + payload.changes.length, 0);
}

export function toApply(entry: JournalEntry): Parameters<typeof applyEntries>[1][number] {
  const { seq, hash, prevHash, payload, schema } = entry;
  const changes = payload.changes.map((change): Change => ({
    ...change,
    after: change.after === null ? null : broughtUp(change.table, change.after, schema),
  }));
  return { seq, hash, prevHash, changes };
}

/**
 * Another window says that it has written: the records are read again, as far as the working copy bears it out. Where
 * something was missed in between, whole tables are.
 *
 * @returns whether there was anything new
 */
export async function hearChange(desk: Desk, seq: number, keys: ChangedKeys, tables: LiveTables): Promise<boolean> {
  if (seq <= desk.heard) return false;
  const head = await settled(desk.copy.meta().get('head'));
  if (head === undefined || seq > head.seq || seq <= desk.heard) return false;
  if (seq === desk.heard + 1) tables.readAgain(keys);
  else tables.reload();
  desk.heard = seq;
  return true;
}

/** The history of what another window has written, as far as the screens show it. */
export async function readHeads(desk: Desk, limitMs: () => number): Promise<void> {
  if (desk.seen >= desk.heard) return;
  for await (const entries of entriesFrom(desk.journal, desk.seen + 1, limitMs)) {
    const shown = entries.filter(({ seq }) => seq <= desk.heard);
    desk.tookHeads(headsOf(desk, shown).map(({ head }) => head));
    if (shown.length < entries.length) return;
  }
}

function headsOf(desk: Desk, entries: readonly JournalEntry[]): { head: EntryHead; changes: readonly Change[] }[] {
  let before = desk.heads.at(-1);
  return entries.map((entry) => {
    before = headOf(entry, before);
    return { head: before, changes: toApply(entry).changes };
  });
}

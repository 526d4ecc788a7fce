import { keepDraft, keptDraft } from '../../components/RecordForm/keptDraft.ts';
import type { BenchSheet, Typed } from './benchSheet.ts';

const nameOf = (sheet: string): string => `bench-${sheet}`;

/** What stands in the fields: the entries left there, else the example. */
export function entriesOf(sheet: BenchSheet): { typed: Typed; isExample: boolean } {
  const kept = keptDraft(nameOf(sheet.id));
  if (kept === null) return { typed: sheet.first, isExample: true };
  const texts = Object.entries(kept.draft).filter((entry): entry is [string, string] => typeof entry[1] === 'string');
  return { typed: Object.fromEntries(texts), isExample: false };
}

/** Leaves entries for a sheet of the bench, from wherever they come; null: the example again. */
export function leaveEntries(sheet: string, typed: Typed | null): void {
  keepDraft(nameOf(sheet), typed === null ? null : { draft: typed, at: new Date().toISOString() });
}

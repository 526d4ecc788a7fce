/** A file with everything, at the door: read, held against what is kept, and made into one act. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { AnyRecord } from '../../../shared-types/records/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import { intoHere } from '../../engine/everything/intoHere.ts';
import { outcomeFaults } from '../../engine/everything/outcomeFaults.ts';
import type { AllTables } from '../../engine/everything/readSnapshotText.ts';
import type { Differing, Into } from '../../engine/everything/intoHere.ts';
import type { Everything } from '../../engine/everything/readEverything.ts';
import { nameOf } from '../../store/recordNames.ts';
import { sha256 } from '../../store/sha256.ts';
import type { Act, Proposal } from '../../store/store.ts';

/** @throws RefusedError with everything that keeps the file out */
export async function lookedInto(here: AllTables, file: Everything, differing: Differing): Promise<Into> {
  const into = intoHere(here, file.tables, { differing });
  const contradictions = into.faults.map((message) => ({ code: 'contradiction' as const, message }));
  const refused =
    contradictions.length > 0
      ? contradictions
      : (await outcomeFaults(here, into, sha256)).map(({ table, id, message }) => ({
          ...{ code: 'contradiction' as const, field: table, value: id },
          message: `Beside what is kept here it would not be whole: ${nameOf(table, recordOf(into, id))}: ${message}`,
        }));
  const [first] = refused;
  if (first === undefined) return into;
  throw new RefusedError({ ...first, ...(refused.length > 1 ? { rows: refused } : {}) });
}

function recordOf({ puts }: Into, id: string): Partial<AnyRecord> {
  return puts.find(({ record }) => record.id === id)?.record ?? {};
}

export function everythingAct({ puts, lasts }: Into, name: string): Act {
  return {
    action: 'bring-everything-in',
    title: `Bring in ${name}`.slice(0, 2000),
    // Frozen manifests, their record and label numbers are never taken away, and so neither is what they came with.
    undoable: !lasts,
    snapshotMade: true,
    proposals: puts.map(({ table, record }) => ({ table, put: record }) as Proposal),
  };
}

/** The names of the fields in which two versions of a record differ. */
export function fieldsApart(here: AnyRecord, file: AnyRecord): string[] {
  const [one, other] = [here, file] as unknown as Record<string, unknown>[];
  return [...new Set([...Object.keys(here), ...Object.keys(file)])].filter(
    (field) => field !== 'rev' && canonicalJson(one?.[field] ?? null) !== canonicalJson(other?.[field] ?? null),
  );
}

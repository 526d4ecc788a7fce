/** A file with everything, at the door: what keeps it out in words, and what is made of it, one act. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { AnyRecord } from '../../../shared-types/records/index.ts';
import type { Into } from '../../engine/everything/intoHere.ts';
import type { Contrary } from '../../engine/everything/lookedInto.ts';
import { nameOf } from '../../store/recordNames.ts';
import type { Act, Proposal } from '../../store/store.ts';

/** Everything that keeps a file out which is whole by itself. */
export function contraryRefusal({ contradictions, faults }: Contrary, more: number): Refusal {
  const code = 'contradiction' as const;
  const rows: Refusal[] = [
    ...contradictions.map((message) => ({ code, message })),
    ...faults.map(({ table, id, message, record }) => ({
      ...{ code, field: table, value: id },
      message: `Beside what is kept here it would not be whole: ${nameOf(table, record)}: ${message}`,
    })),
    ...(more > 0 ? [{ code, message: `There are ${more} more faults.` }] : []),
  ];
  return { ...(rows[0] ?? { code, message: 'It cannot be brought in' }), ...(rows.length > 1 ? { rows } : {}) };
}

export function everythingAct(puts: Into['puts'], lasts: boolean, name: string): Act {
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

/** What a change wants of each record, before anything is read or written: checked, and in the form in which it is kept. */
import type { Change, JournalEntry } from '../../../shared-types/journal.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { recordSchemas } from '../../../shared-types/records/index.ts';
import { broughtUp } from '../../../shared-types/records/versions.ts';
import { RefusedError } from '../../engine/errors.ts';
import { refusalFromZod } from '../../engine/json/refusalFromZod.ts';
import { breaths } from '../breathe.ts';
import { nameOf } from '../recordNames.ts';
import type { Act, Proposal } from '../store.ts';
import { asWritten } from './asWritten.ts';
import type { Step } from './watched.ts';

export interface Wish {
  table: TableName;
  id: string;
  /** The record as it shall be; its `rev` is set later. Null: gone. */
  after: AnyRecord | null;
  /**
   * What it was made from: a revision, or for a change turned round the content that the change had left. `whatever` for
   * what goes along with another record.
   */
  from: { rev: number } | { content: AnyRecord | null } | 'whatever';
  /** No revision up to this one is used again. */
  pastRev: number;
}

/**
 * @throws RefusedError naming table, code and field of the first record that is not whole, all of them in `rows`; or
 *   where the act names one record twice, or nothing
 */
export async function wishesOf(act: Act, step: Step = () => undefined): Promise<Wish[]> {
  const wishes: Wish[] = [];
  const seen = new Set<string>();
  const breath = breaths();
  for (const [at, proposal] of act.proposals.entries()) {
    const pause = breath();
    if (pause !== null) {
      await pause;
      step('reading', at, act.proposals.length);
    }
    const wish = wishOf(proposal);
    const key = `${wish.table} ${wish.id}`;
    if (seen.has(key))
      throw new RefusedError({
        code: 'contradiction',
        message: `${act.title}: one record is changed twice`,
        field: key,
      });
    seen.add(key);
    wishes.push(wish);
  }
  return wishes;
}

function wishOf(proposal: Proposal): Wish {
  const { table } = proposal;
  if ('remove' in proposal) {
    const { id, rev } = proposal.remove;
    return { table, id, after: null, from: { rev }, pastRev: rev };
  }
  const checked = recordSchemas[table].safeParse(proposal.put);
  if (!checked.success) {
    const { refusal } = refusalFromZod(checked.error, { input: proposal.put });
    const name = nameOf(table, proposal.put);
    const named = (one: typeof refusal): typeof refusal => ({
      ...one,
      message: `${name}: ${one.message}`,
      field: `${table}.${one.field ?? ''}`,
    });
    const { rows, ...first } = refusal;
    throw new RefusedError({ ...named(first), ...(rows === undefined ? {} : { rows: rows.map(named) }) });
  }
  // As the journal will give it back: a copy that differs from it in a hidden way would be another record.
  const after = asWritten<AnyRecord>(checked.data);
  return { table, id: after.id, after, from: { rev: after.rev }, pastRev: after.rev };
}

/** The changes of an entry, turned round: last change first. */
export function turnedRound(entry: JournalEntry): Wish[] {
  const now = (table: TableName, record: Change['after']): AnyRecord | null =>
    record === null ? null : (broughtUp(table, record, entry.schema) as AnyRecord);
  return entry.payload.changes.toReversed().map(({ table, id, before, after }: Change): Wish => ({
    table,
    id,
    after: now(table, before),
    from: { content: now(table, after) },
    pastRev: Math.max(revOf(before), revOf(after)),
  }));
}

function revOf(record: Change['after']): number {
  const rev = record?.['rev'];
  return typeof rev === 'number' ? rev : 0;
}

/** What bringing a manifest with its record in would add to what is kept; nothing kept is ever changed by it but a closing. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { RecordFile } from '../../../shared-types/recordFile.ts';
import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';

export interface KeptRecords {
  revisions: readonly Revision[];
  events: readonly OutingEvent[];
  discrepancies: readonly Discrepancy[];
}

export interface Brought {
  /** Null where the revision is kept already. */
  revision: Revision | null;
  events: OutingEvent[];
  /** New ones, and kept ones with the closing that the file knows. */
  discrepancies: Discrepancy[];
}

export type IntoKept =
  | { kind: 'refused'; reason: string }
  /** All of it is kept already. */
  | { kind: 'same' }
  | { kind: 'more'; brought: Brought };

/**
 * Holds a verified file against what is kept. A number that another content has is refused; so is a record that went on in
 * another way in both copies, with the first event at which they part.
 *
 * @param file - verified
 * @param kept - all revisions, events and discrepancies
 * @param x.task - key of the task it belongs to here
 * @param x.broughtIn - what the revision says of the file it came with
 */
export function intoKept(
  file: RecordFile,
  kept: KeptRecords,
  x: { task: string; broughtIn: NonNullable<Revision['broughtIn']> },
): IntoKept {
  const { revision, events, discrepancies } = file;
  const { number } = revision;
  const known = kept.revisions.find(({ id }) => id === revision.id);
  const taken = kept.revisions.find((one) => one.task === x.task && one.number === number && one.id !== revision.id);
  if (taken !== undefined)
    return refused(
      `Revision ${number} of this task is another one here: ${taken.hash === revision.hash ? 'the same content, frozen apart, with a record of its own' : 'another content'}, frozen by ${taken.by.name} at ${taken.at}`,
    );
  if (known !== undefined && known.hash !== revision.hash)
    return refused(`Revision ${number} has this key here and another content`);
  const own = kept.events.filter((event) => event.revision === revision.id).toSorted((a, b) => a.no - b.no);
  const parting = own.find((event, at) => events[at] !== undefined && events[at].hash !== event.hash);
  if (parting !== undefined)
    return refused(
      `The record went on in another way here: event ${parting.no} is not the file’s event ${parting.no}. Two copies wrote to one manifest.`,
    );
  const fresh = events.slice(own.length).map((event): OutingEvent => ({ ...event, rev: 0 }));
  const merged = mergedDiscrepancies(discrepancies, kept.discrepancies, x.task);
  if ('reason' in merged) return refused(merged.reason);
  if (known !== undefined && fresh.length === 0 && merged.puts.length === 0) return { kind: 'same' };
  const added = known === undefined ? { ...revision, task: x.task, rev: 0, broughtIn: x.broughtIn } : null;
  return { kind: 'more', brought: { revision: added, events: fresh, discrepancies: merged.puts } };
}

const refused = (reason: string): IntoKept => ({ kind: 'refused', reason });

function mergedDiscrepancies(
  given: RecordFile['discrepancies'],
  kept: readonly Discrepancy[],
  task: string,
): { puts: Discrepancy[] } | { reason: string } {
  const puts: Discrepancy[] = [];
  for (const one of given) {
    const here = kept.find(({ id }) => id === one.id);
    const taken = kept.find((other) => other.task === task && other.number === one.number && other.id !== one.id);
    if (taken !== undefined)
      return {
        reason: `D-${one.number} of this task is another one here: ${taken.item}, of revision key ${taken.revision}`,
      };
    if (here === undefined) puts.push({ ...one, task, rev: 0 });
    else if (here.closed === undefined && one.closed !== undefined) puts.push({ ...here, closed: one.closed });
    else if (one.closed !== undefined && canonicalJson(here.closed) !== canonicalJson(one.closed))
      return { reason: `D-${one.number} was closed in another way here, by ${here.closed?.by.name ?? 'nobody'}` };
  }
  return { puts };
}

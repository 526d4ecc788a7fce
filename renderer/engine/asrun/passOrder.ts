import { groupsOf } from './groups.ts';
import { isBefore } from './moment.ts';
import type { AsRunRecord, Found } from './record.ts';

const source = 'Passes follow one another, and all that the callout has are made: common practice, no source.';

/**
 * `pass-out-of-order`: a pass recorded earlier than a lower one of the same position and cycle. `pass-missing`: a callout that lists its
 * passes, and a position with a record of some of them. Where the callout lists none, an order that is off is a note.
 */
export function passFindings(records: readonly AsRunRecord[], found: Found): void {
  const numbered = records.filter(({ passNumber }) => passNumber !== null);
  for (const group of groupsOf(numbered, ({ callout, position, cycle }) => [callout.id, position, cycle])) {
    const ordered = group.toSorted((a, b) => (a.passNumber ?? 0) - (b.passNumber ?? 0));
    for (const [index, record] of ordered.entries()) lateBefore(record, ordered[index - 1], found);
    missing(ordered, found);
  }
}

function lateBefore(record: AsRunRecord, before: AsRunRecord | undefined, found: Found): void {
  const [here, there] = [record.time?.moment ?? null, before?.time?.moment ?? null];
  if (before === undefined || here === null || there === null || isBefore(here, there) !== true) return;
  found(record, {
    rule: 'pass-out-of-order',
    severity: record.callout.passes.length > 0 ? 'query' : 'note',
    message: `Pass ${record.pass} of position ${record.position}, at ${record.time?.text}, is earlier than pass ${before.pass}, at ${before.time?.text}.`,
    source,
  });
}

function missing(ordered: readonly AsRunRecord[], found: Found): void {
  const last = ordered.at(-1);
  const count = last?.callout.passes.length ?? 0;
  if (last === undefined || count === 0) return;
  const made = new Set(ordered.map(({ passNumber }) => passNumber));
  const absent = Array.from({ length: count }, (_, index) => index + 1).filter((pass) => !made.has(pass));
  if (absent.length === 0) return;
  found(last, {
    rule: 'pass-missing',
    severity: 'query',
    message: `Position ${last.position} has no record of pass ${absent.join(', ')} of ${count} at cycle ${last.cycle}.`,
    source,
  });
}

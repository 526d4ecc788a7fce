import type { Callout } from '../callout/index.ts';
import { orderOfText } from '../pattern/index.ts';
import { groupsOf } from './groups.ts';
import { isBefore } from './moment.ts';
import type { AsRunRecord, Found } from './record.ts';

const source =
  'The order is the callout’s own column "sequence"; that fasteners of a pattern are tightened in their order is common practice, no source.';

/**
 * `out-of-sequence`: a position tightened later than one that comes after it; the callout says the order in a column "sequence", as
 * "1 3 2 4". `position-missing`: a position of that order without a record among those tightened together. `sequence-not-judged`: a note
 * where times are missing or cannot be compared.
 */
export function sequenceFindings(records: readonly AsRunRecord[], found: Found): void {
  const ordered = records.filter(({ callout }) => sequenceOf(callout).length > 0);
  for (const group of groupsOf(ordered, ({ callout, cycle, pass }) => [callout.id, cycle, pass])) {
    const [first] = group;
    if (first === undefined) continue;
    const sequence = sequenceOf(first.callout);
    const byPosition = new Map(group.map((record) => [record.position, record]));
    judgeOrder(sequence, byPosition, found);
    const absent = sequence.filter((position) => !byPosition.has(position));
    if (absent.length > 0)
      found(group.at(-1) ?? first, {
        rule: 'position-missing',
        severity: 'query',
        message: `Of the order ${sequence.join(', ')} there is no record of position ${absent.join(', ')} at cycle ${first.cycle}.`,
        source,
      });
  }
}

/**
 * Positions in the order they are tightened in.
 *
 * @returns none where the callout gives no order
 */
export function sequenceOf({ otherColumns }: Pick<Callout, 'otherColumns'>): string[] {
  if (otherColumns === null) return [];
  const name = Object.keys(otherColumns).find((column) => column.trim().toLowerCase() === 'sequence');
  const text = name === undefined ? '' : (otherColumns[name] ?? '');
  return [...new Set(orderOfText(text))];
}

function judgeOrder(sequence: readonly string[], byPosition: ReadonlyMap<string, AsRunRecord>, found: Found): void {
  const present = sequence.flatMap((position) => byPosition.get(position) ?? []);
  let latest: AsRunRecord | null = null;
  for (const record of present) {
    const moment = record.time?.moment ?? null;
    const before = latest?.time?.moment ?? null;
    const isEarlier = moment === null || before === null ? null : isBefore(moment, before);
    if (moment === null || (latest !== null && isEarlier === null)) {
      found(record, {
        rule: 'sequence-not-judged',
        severity: 'note',
        message: `When position ${record.position} was tightened is not recorded in a way that can be compared: its place in the order is not judged.`,
        source,
      });
    } else if (latest !== null && isEarlier === true) {
      found(record, {
        rule: 'out-of-sequence',
        severity: 'query',
        message: `Position ${record.position} was tightened at ${record.time?.text}, before position ${latest.position} at ${latest.time?.text}, which comes first in the order ${sequence.join(', ')}.`,
        source,
      });
    } else latest = record;
  }
}

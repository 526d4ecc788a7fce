import type { Callout } from '../callout/index.ts';
import { orderOfText } from '../pattern/index.ts';
import { groupsOf } from './groups.ts';
import { isBefore } from './moment.ts';
import type { AsRunRecord, Found } from './record.ts';

/** Column of a callout with its order of tightening, and, where that is not the callout's own, the one that says whose it is. */
export const orderColumn = 'sequence';
export const orderFromColumn = 'sequence from';

const sourceOf = (callout: Pick<Callout, 'otherColumns'>): string => {
  const from = sequenceFrom(callout);
  const whose = from === null ? 'the callout’s own column "sequence"' : `that of ${from}`;
  return `The order is ${whose}; that fasteners of a pattern are tightened in their order is common practice, no source.`;
};

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
        source: sourceOf(first.callout),
      });
  }
}

/**
 * Positions in the order they are tightened in.
 *
 * @returns none where the callout gives no order
 */
export function sequenceOf({ otherColumns }: Pick<Callout, 'otherColumns'>): string[] {
  return [...new Set(orderOfText(columnOf(otherColumns, orderColumn)))];
}

/**
 * Whose order it is that `sequenceOf` gives.
 *
 * @returns null where it is the callout's own, or there is none
 */
export function sequenceFrom({ otherColumns }: Pick<Callout, 'otherColumns'>): string | null {
  const from = columnOf(otherColumns, orderFromColumn).trim();
  return from === '' ? null : from;
}

function columnOf(columns: Callout['otherColumns'], wanted: string): string {
  const name = Object.keys(columns ?? {}).find((column) => column.trim().toLowerCase() === wanted);
  return name === undefined ? '' : (columns?.[name] ?? '');
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
        source: sourceOf(record.callout),
      });
    } else if (latest !== null && isEarlier === true) {
      found(record, {
        rule: 'out-of-sequence',
        severity: 'query',
        message: `Position ${record.position} was tightened at ${record.time?.text}, before position ${latest.position} at ${latest.time?.text}, which comes first in the order ${sequence.join(', ')}.`,
        source: sourceOf(record.callout),
      });
    } else latest = record;
  }
}

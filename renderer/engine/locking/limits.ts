import type { Citation } from '../../../shared-types/handbook.ts';
import { inField, RefusedError } from '../errors.ts';
import { tablesByDocument } from '../handbook/documents.ts';
import type { Thread } from '../thread/index.ts';
import { isPrintedSize, isPrintedThread, matchNotes, type Matched } from '../torqueTable/index.ts';
import { allHeldLimits, type HeldLimits, type PrintedLimit } from './heldLimits.ts';
import { strictest, type LimitsNm } from './strictest.ts';

export interface LockingLimits extends LimitsNm {
  /** Each kind of nut the document tells apart; the limits above are then the stricter of them. */
  variants?: (LimitsNm & { variant: string })[];
  condition: string | null;
  matched: Matched;
  /** The limits as printed, each with the reading it holds for. */
  printed: PrintedLimit[];
  /** What the match passed over. */
  notes: string[];
  /** What the table says of all its rows. */
  tableNotes: string;
  source: Citation;
}

/**
 * Running and breakaway limits of a self-locking fastener by one document. A table is read, never filled in.
 *
 *   T [N·m] = T as printed · the exact size of its unit
 *
 * @param x.thread - as readThread gives it
 * @param x.document - the document's number, as a person writes it
 * @returns greatest running, least breakaway and least reused torque [N·m]; where kinds of nut differ, the stricter: the lower greatest
 *   and the higher least, with each kind beside
 * @throws RefusedError not-held where the document is not held or has not this size, naming what is; nothing is interpolated
 * @source MIL-DTL-45916C Table I, TM 1-1500-204-23-6 Table 2-8, TM 55-1520-240-23-1, FAA AC 43.13-1B Table 7-2,
 *   TM 9-6115-604-34 Table 1-3, ISO 2320 class 04; keys in data/SOURCES.md
 * @validity diameter and pitch as printed; ISO 2320: a size printed without pitch is the coarse one. By diameter where the table
 *   prints no pitches, and the answer says so.
 * @example lockingLimits({ thread: readThread('1/4-28'), document: 'NASM25027' }).runningMaxNm // 3.3895, 30 lbf·in
 */
export function lockingLimits(x: { thread: Thread; document: string }): LockingLimits {
  const tables = new Set(inField('locking', () => tablesByDocument(x.document, tablesWithLimits)));
  const ofDocument = allHeldLimits.filter((held) => tables.has(held.table));
  const found = ofDocument.find((held) => isFor(held, x.thread));
  if (found !== undefined) return inNm(found, x.thread);
  const [first] = ofDocument;
  const notes = [...new Set(ofDocument.map((held) => held.table.notes))].join(' ');
  throw new RefusedError({
    code: 'not-held',
    message:
      `${first?.citation.number ?? x.document} holds no running or breakaway limit for ${x.thread.designation}. ` +
      `Held are: ${ofDocument.map((held) => held.size).join(', ')}. ${notes}`,
    field: 'thread',
    value: x.thread.designation,
  });
}

/**
 * The limits of every document that has a thread's size, side by side: documents differ, and which one rules is the user's choice.
 *
 * @param thread - as readThread gives it
 * @returns one entry for each document, in the order of the tables; none where no document has the size
 * @throws nothing
 * @source the documents of lockingLimits; keys in data/SOURCES.md
 * @validity as lockingLimits
 * @example lockingLimitsOf(readThread('7/16-20')).map((held) => held.source.number).length // 5
 */
export function lockingLimitsOf(thread: Thread): LockingLimits[] {
  return allHeldLimits.filter((held) => isFor(held, thread)).map((held) => inNm(held, thread));
}

const tablesWithLimits = [...new Set(allHeldLimits.map((held) => held.table))];

function isFor(held: HeldLimits, thread: Thread): boolean {
  return (held.matched === 'thread' ? isPrintedThread : isPrintedSize)(held.size, thread);
}

function inNm(held: HeldLimits, thread: Thread): LockingLimits {
  const variants = [...new Set(held.printed.flatMap((limit) => limit.variant ?? []))];
  return {
    ...strictest(held.printed),
    ...(variants.length === 0
      ? {}
      : {
          variants: variants.map((variant) => ({
            variant,
            ...strictest(held.printed.filter((limit) => limit.variant === variant)),
          })),
        }),
    condition: held.condition,
    matched: held.matched,
    printed: held.printed,
    notes: matchNotes(held.matched, thread),
    tableNotes: held.table.notes,
    source: held.citation,
  };
}

import { readThread, type Thread } from '../thread/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { quantityIn } from '../units/index.ts';

/** How a row of a table was found: by diameter and pitch, or, where the table prints no pitches, by diameter alone. */
export type Matched = 'thread' | 'diameter';

const read = new Map<string, Thread>();

/** A printed designation, read once: tables print the same few over and over. */
function printedThread(text: string): Thread {
  const known = read.get(text);
  if (known) return known;
  const thread = readThread(text);
  read.set(text, thread);
  return thread;
}

function same(a: number, b: number): boolean {
  return atLeast(a, b) && atMost(a, b);
}

/**
 * Whether a designation that a table prints means a thread: the same system, diameter and pitch.
 *
 * @param printed - "1/4-28", "0.190-24", "M8x1"; "M8" is the coarse thread
 * @param thread - as readThread gives it
 * @returns whether both are equal within 1e-9 relative. Tables print no thread form, class or hand, so these decide nothing;
 *   `matchNotes` says where that was passed over.
 * @throws RefusedError unreadable-thread where a table prints what is no thread
 * @source ISO 262 and ASME B1.1 for what a designation means; keys in data/SOURCES.md
 * @validity tables that print a pitch, or mean the coarse one
 * @example isPrintedThread('0.250-28', readThread('1/4-28 UNF')) // true
 */
export function isPrintedThread(printed: string, thread: Thread): boolean {
  const held = printedThread(printed);
  return held.system === thread.system && same(held.majorMm, thread.majorMm) && same(held.pitchMm, thread.pitchMm);
}

/**
 * Whether a size that a table prints without a pitch is a thread's diameter.
 *
 * @param printed - "7/16" or "1" (inches), "M8"
 * @param thread - as readThread gives it
 * @returns whether both are equal within 1e-9 relative
 * @throws RefusedError unreadable-quantity where a table prints what is no size
 * @source the exact definition of the inch
 * @validity tables that print no pitches
 * @example isPrintedSize('M8', readThread('M8x1')) // true
 */
export function isPrintedSize(printed: string, thread: Thread): boolean {
  const metric = /^M(\d+(?:\.\d+)?)$/.exec(printed)?.[1];
  if (metric !== undefined) return thread.system === 'metric' && same(Number(metric), thread.majorMm);
  return thread.system === 'unified' && same(quantityIn(`${printed} in`, 'length', 'mm'), thread.majorMm);
}

/**
 * What a match passed over, in words for whoever relies on the value.
 *
 * @param matched - by what the row was found
 * @param thread - as readThread gives it
 * @returns nothing where the table prints all that the thread has: sentences otherwise
 * @throws nothing
 * @source the tables held: none prints a thread form or a hand, some print no pitches
 * @validity tables of torque against size and of locking torque
 * @example matchNotes('diameter', readThread('M8')) // ['The table prints no pitches: matched by diameter alone.']
 */
export function matchNotes(matched: Matched, thread: Thread): string[] {
  return [
    ...(matched === 'diameter' ? ['The table prints no pitches: matched by diameter alone.'] : []),
    ...(/UNJ/.test(thread.designation)
      ? ['The table prints no thread form: its value is given for a UNJ thread of the same diameter.']
      : []),
    ...(thread.hand === 'left' ? ['The table does not speak of left-hand threads.'] : []),
  ];
}

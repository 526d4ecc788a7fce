/**
 * Something learned, kept by itself: what it says, what it is tied to, where it was learned. It is said wherever one of those things is
 * touched, in every task. What it is tied to may go; then it says what that was called, and stays.
 */
import { id, note } from '../fields.ts';
import { z } from '../schema.ts';
import { day, recordHead, recordId } from './head.ts';

const person = z.string().min(1).max(2000);
const moment = z.iso.datetime({ offset: true });
/** What people called the thing when it was tied, as "B of SRL". */
const called = z.string().min(1).max(400);

export const watchOutTie = z.discriminatedUnion('to', [
  z.strictObject({ to: z.literal('interface'), interface: recordId, called }),
  /** A thing of the catalog, by shelf and code: another entry of the same code takes its place. */
  z.strictObject({ to: z.literal('item'), shelf: recordId, code: id, called }),
  z.strictObject({ to: z.literal('step'), step: recordId, called }),
]);

export const learnedIn = ['as-run', 'finding', 'return', 'task', 'said'] as const;

export const watchOutRecord = z.strictObject({
  ...recordHead,
  text: note.min(1),
  ties: z.array(watchOutTie).min(1).max(100),
  learned: z.strictObject({
    /** In a record of what was done, in a finding, on return, in a task's work; or it was said by a person. */
    in: z.enum(learnedIn),
    /** Keys of the task and of the as-run record, where there are such; they may be gone. */
    task: recordId.optional(),
    record: recordId.optional(),
    /** Which, in words: "as-run record B-03". */
    words: note.min(1).optional(),
    on: day,
    person,
  }),
  /** Not said any more from then on; kept with its reason. */
  retired: z.strictObject({ reason: note.min(1), person, at: moment }).optional(),
});

export type WatchOut = z.infer<typeof watchOutRecord>;
export type WatchOutTie = z.infer<typeof watchOutTie>;
export type LearnedIn = (typeof learnedIn)[number];

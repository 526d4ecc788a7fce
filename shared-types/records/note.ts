/** A result of the bench kept with a task: what was put in, and what was said then, as it was said. */
import { z } from '../schema.ts';
import { note } from '../fields.ts';
import { recordHead, recordId } from './head.ts';

/** Longer than any result's text. */
const textMost = 100_000;

export const noteRecord = z.strictObject({
  ...recordHead,
  task: recordId,
  /** Which computation of the bench; one that this program does not have any more still shows its text. */
  sheet: z.string().regex(/^[a-z][a-z-]{0,39}$/, 'not a sheet of the bench'),
  /** As the list shows it: "Torque and preload, 30–35 lbf·ft". */
  name: note,
  keptAt: z.iso.datetime({ offset: true }),
  /** The entries as typed, by the field's key. */
  typed: z.record(z.string().regex(/^[A-Za-z][A-Za-z0-9]{0,39}$/), z.string().max(10_000)),
  /** Formula, numbers, assumptions and sources as they were shown. */
  text: z.string().min(1).max(textMost),
});

export type BenchNote = z.infer<typeof noteRecord>;

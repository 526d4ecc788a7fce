/**
 * What an inspector keeps with a task: lists of callouts and lists of what was recorded, row by row, as typed. What is
 * judged of a row is worked out anew each time and never kept; only what a person decided about a finding is.
 */
import { id, note } from '../fields.ts';
import { z } from '../schema.ts';
import { day, recordHead, recordId } from './head.ts';

/** More columns than a person names. */
const columnsMost = 256;
/** So many rows a list takes; a larger file is judged without being kept. */
export const rowsMost = 20_000;

const columnName = z.string().min(1).max(200);
const person = z.string().max(2000);
const moment = z.iso.datetime({ offset: true });

/** A finding that a person takes as it is, and why. It holds only as long as the finding says the same. */
const acceptedFinding = z.strictObject({
  rule: z.string().min(1).max(80),
  /** The finding's message at that time. */
  message: z.string().min(1).max(4000),
  reason: note.min(1),
  person: person.min(1),
  at: moment,
});

const list = {
  ...recordHead,
  task: recordId,
  name: note.min(1),
  /** As the header spells them, in its order; cells are kept under these names. */
  columns: z.array(columnName).min(1).max(columnsMost),
  /** Where its rows came from, where they were not typed here. */
  from: z
    .strictObject({ file: z.string().min(1).max(400), sheet: z.string().max(200).optional(), at: moment })
    .optional(),
  /** Who made it. */
  person,
};

const row = {
  ...recordHead,
  list: recordId,
  /** Order within the list; keys decide between equals. */
  position: z.number(),
  /** What was typed, by column; a cell that is empty is absent. */
  cells: z.record(columnName, z.string().min(1).max(10_000)),
  accepted: z.array(acceptedFinding).max(100).optional(),
};

export const calloutListRecord = z.strictObject(list);

export const calloutRecord = z.strictObject(row);

export const asRunListRecord = z.strictObject({
  ...list,
  /** The list of callouts that its rows are judged against. */
  callouts: recordId.optional(),
  /** Tools found out after the work: what each set since it was last known to be right is open again. */
  foundOut: z
    .array(
      z.strictObject({
        serial: id,
        lastGood: day.optional(),
        foundOut: day,
        /** Until when its calibration held by the catalog when that was said. */
        due: day.optional(),
        reason: note.optional(),
        person,
        at: moment,
      }),
    )
    .max(1000)
    .optional(),
});

export const asRunRecord = z.strictObject(row);

export type CalloutList = z.infer<typeof calloutListRecord>;
export type KeptCallout = z.infer<typeof calloutRecord>;
export type AsRunList = z.infer<typeof asRunListRecord>;
export type KeptAsRun = z.infer<typeof asRunRecord>;
export type AcceptedFinding = z.infer<typeof acceptedFinding>;

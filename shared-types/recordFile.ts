/** A frozen manifest with everything that was done with it, as one file for another copy of the program. */
import { discrepancyRecord, eventRecord, revisionRecord } from './records/revision.ts';
import { z } from './schema.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/, 'not a SHA-256');

/** What the file calls itself, and the version of its shape. */
export const recordFileMark = 'manifest record';
export const recordFileVersion = 1;

export const recordFileSchema = z.strictObject({
  bagwright: z.literal(recordFileMark),
  version: z.literal(recordFileVersion),
  revision: revisionRecord.omit({ rev: true, broughtIn: true }),
  /** In their order: 1, 2, 3 … */
  events: z.array(eventRecord.omit({ rev: true })).max(200_000),
  discrepancies: z.array(discrepancyRecord.omit({ rev: true })).max(20_000),
  /** Hash of the last event; that of the revision where there is none. */
  head: hash,
  /** SHA-256 of the canonical JSON (RFC 8785) of all the rest. */
  hash,
});

export type RecordFile = z.infer<typeof recordFileSchema>;

import { z } from '../schema.ts';

/** A record's own key: made once, never shown, never reused. What people call the thing is its `code`. */
export const recordId = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/, 'not the key of a record');

/** Every record carries its key and its revision, which grows by one with each change. A record not yet kept has 0. */
export const recordHead = { id: recordId, rev: z.int().min(0) };

/** A day as ISO 8601 writes it. */
export const day = z.iso.date();

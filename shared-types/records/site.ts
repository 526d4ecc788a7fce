/** Work sites and what a hand or tool acts on there. */
import { id, note, whole } from '../fields.ts';
import { accessSchema } from '../plan.ts';
import { z } from '../schema.ts';
import { recordHead, recordId } from './head.ts';

export const siteRecord = z.strictObject({
  ...recordHead,
  code: id,
  name: note.optional(),
  notes: note.optional(),
});

export const interfaceKinds = ['fastener', 'coupling', 'connector', 'latch', 'cover'] as const;

export const interfaceRecord = z.strictObject({
  ...recordHead,
  site: recordId,
  /** Its letter or number on the drawing; unique within the site. */
  code: id,
  name: note.optional(),
  notes: note.optional(),
  kind: z.enum(interfaceKinds),
  /** Code of the catalog's fastener, where it is threaded. */
  fastener: id.optional(),
  count: whole.min(1).max(100_000),
  access: accessSchema.optional(),
  /** Where its positions lie: "circle 120 mm", or "1: 0 mm, 0 mm; 2: 60 mm, 0 mm". */
  pattern: note.optional(),
  /** Said before every step that touches it. */
  watchOuts: z.array(note).max(100).optional(),
});

export type Site = z.infer<typeof siteRecord>;
export type Interface = z.infer<typeof interfaceRecord>;

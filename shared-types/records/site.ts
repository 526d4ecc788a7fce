/** Work sites and what a hand or tool acts on there. */
import { id, note, whole } from '../fields.ts';
import { accessSchema, piecesMost } from '../plan.ts';
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
  /** Where its positions lie: "circle 120 mm", "grid 3 by 4, 40 mm by 30 mm", or "1: 0 mm, 0 mm; 2: 60 mm, 0 mm". */
  pattern: z.string().max(40_000).optional(),
  /** Positions in the order they are tightened in, each once. */
  order: z.array(id).max(1000).optional(),
  /** The worker sees it from behind: right and left change, and so does the way it turns. */
  mirrored: z.boolean().optional(),
  /** What works a coupling, connector, latch or cover: gear by its code, or a hand. */
  gear: z
    .array(z.object({ id, quantity: whole.min(1).max(piecesMost) }))
    .max(100)
    .optional(),
  byHand: z.boolean().optional(),
  /** How far it turns, in quarters of a turn. */
  quarterTurns: whole.min(1).max(400).optional(),
  /** How it is when it is done, in words: "locked, both marks in line". */
  desired: note.optional(),
  /** Said before every step that touches it. */
  watchOuts: z.array(note).max(100).optional(),
});

export type Site = z.infer<typeof siteRecord>;
export type Interface = z.infer<typeof interfaceRecord>;

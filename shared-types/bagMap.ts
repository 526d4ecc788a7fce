/** Where pieces lie by hand: kept with their outing, beside whatever the planner answers. */
import { id, note, whole } from './fields.ts';
import { z } from './schema.ts';

const withinBagMm = z.number().min(0).max(100_000);

const piecesMost = 1_000_000;

/** Where something lies in its bag laid open. */
export const laidAt = {
  /** Its upper left corner from that of the bag. */
  xMm: withinBagMm,
  yMm: withinBagMm,
  /** In which pocket of the bag; its corner is then taken from that of the pocket. */
  pocket: note.min(1).optional(),
  /** A quarter turn from how it is drawn by itself. */
  turned: z.boolean(),
};

/** One line of a planned bag as a person laid it, or some pieces of it: found by its item and the bag the planner gave it. */
export const laidLineSchema = z.strictObject({
  item: id,
  /** Where the planner put it. */
  bag: id,
  /** Where it lies; the same bag where only its place in it is another. */
  to: id,
  ...laidAt,
  /** So many pieces of the line that lie apart from its rest, numbered among those of their line; absent: the rest. */
  apart: z.strictObject({ part: whole.min(1).max(piecesMost), pieces: whole.min(1).max(piecesMost) }).optional(),
});

export type LaidLine = z.infer<typeof laidLineSchema>;

/** Lines of one outing laid by hand, the latest last. */
export const laidLinesSchema = z.array(laidLineSchema).max(10_000);

/** Tasks, their outings and steps. Each is a record of its own, so that two people may change two steps. */
import { laidLinesSchema } from '../bagMap.ts';
import { id, note, torque, whole } from '../fields.ts';
import {
  accessSchema,
  bandSchema,
  carryMaxSchema,
  cautionSchema,
  fastenerMoveSchema,
  minutesMost,
  spreadSchema,
} from '../plan.ts';
import { z } from '../schema.ts';
import { recordHead, recordId } from './head.ts';

export const taskRecord = z.strictObject({
  ...recordHead,
  code: id,
  name: note,
  /** The kept site, or its words alone where the task came from a file. */
  site: recordId.optional(),
  siteText: note.optional(),
  about: note.optional(),
  crew: note.optional(),
  /** The stock it may draw on. */
  shelves: z.array(recordId).max(100),
  places: z.array(z.strictObject({ id, name: note.optional(), final: z.boolean().optional() })).max(1000),
  /** The least share of its range at which a torque tool may be used; absent: not limited. */
  rangeShareMin: z.number().min(0).max(1).optional(),
});

const ofTask = {
  ...recordHead,
  task: recordId,
  /** Order within the task; codes decide between equals. */
  position: z.number(),
  /** The id of the plan file; unique within the task. */
  code: id,
  name: note.optional(),
  notes: note.optional(),
};

export const outingRecord = z.strictObject({
  ...ofTask,
  roles: z.array(id).max(100),
  /** Codes of the catalog's bags. */
  bags: z.array(id).max(1000),
  /** Lines of its planned bags that a person laid elsewhere. */
  bagMap: laidLinesSchema.optional(),
  minutesMax: z.number().positive().max(minutesMost).optional(),
  /** Minutes of the way home. */
  turnBack: z.number().min(0).max(minutesMost).optional(),
  /** Roles that may take each other's steps. */
  swaps: z
    .array(z.tuple([id, id]))
    .max(1000)
    .optional(),
  carryMax: z.array(carryMaxSchema).max(100).optional(),
});

/** Where a step's torque was taken from. What it said then stands in the step; what it says now may be something else. */
const torqueOrigin = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('callout'),
    /** Key of the callout; it may be gone. */
    callout: recordId,
    /** What the drawing called it then. */
    id: note.min(1),
    condition: note.min(1).optional(),
  }),
  z.strictObject({
    kind: z.literal('handbook'),
    /** Key of the table, and its row as an address names it. */
    table: z.string().min(1).max(80),
    row: note.min(1),
    condition: note.min(1).optional(),
  }),
]);

/** A contingency step: which step it is for, by code, and what went wrong there. */
export const ifFails = z.strictObject({
  step: id,
  how: z.enum(['stuck', 'cross-threaded', 'sheared', 'lost', 'other']),
});

export const stepRecord = z.strictObject({
  ...ofTask,
  /** Code of the outing. */
  outing: id,
  role: id,
  slot: id.optional(),
  action: z.enum(['tighten', 'loosen', 'use']),
  /** What it acts on; gives fastener, count and access where the step does not say its own. */
  interface: recordId.optional(),
  /** Which of the interface's positions, in words or numbers. */
  positions: note.optional(),
  fastener: id.optional(),
  count: whole.min(1).optional(),
  callout: bandSchema.optional(),
  calloutSource: note.optional(),
  /** The callout or the row of the handbook that it was taken from. */
  calloutFrom: torqueOrigin.optional(),
  /** Shares or torques on the way to the callout, as "50 %", "30 lbf·ft". */
  passes: z.array(z.string().min(1).max(80)).max(20).optional(),
  running: bandSchema.optional(),
  runningIncluded: z.boolean().optional(),
  demand: torque.optional(),
  access: accessSchema.optional(),
  hold: z.object({ fastener: id, access: accessSchema.optional() }).optional(),
  gear: z.array(z.object({ id, quantity: whole.min(1) })).optional(),
  moves: z.array(z.object({ id, quantity: whole.min(1), from: id, to: id })).optional(),
  minutes: z.number().min(0).max(minutesMost).optional(),
  contingency: z.boolean().optional(),
  spread: spreadSchema.optional(),
  fastenerMoves: z.array(fastenerMoveSchema).max(1000).optional(),
  safeToLeave: z.boolean().optional(),
  /** Codes of the steps it must come after. */
  after: z.array(id).max(1000).optional(),
  ifFails: ifFails.optional(),
  watchOuts: z.array(note).optional(),
  cautions: z.array(cautionSchema).max(20).optional(),
});

export type Task = z.infer<typeof taskRecord>;
export type TaskOuting = z.infer<typeof outingRecord>;
export type TaskStep = z.infer<typeof stepRecord>;
export type TorqueOrigin = z.infer<typeof torqueOrigin>;

/**
 * What leaves and what comes back: frozen manifests, what was done with them, and what is missing. A revision and an event
 * are never changed once they are kept; a discrepancy is closed once, by a named person.
 */
import type { BagResult } from '../bag.ts';
import { laidAt } from '../bagMap.ts';
import { id, note, whole } from '../fields.ts';
import { z } from '../schema.ts';
import { day, recordHead, recordId } from './head.ts';
import { ifFails } from './task.ts';

const moment = z.iso.datetime({ offset: true });
const hash = z.string().regex(/^[0-9a-f]{64}$/, 'not a SHA-256');
const linesMost = 20_000;
const pieces = whole.min(0).max(1_000_000);

/** Who did it, as they call themselves, and as what: "packer", "second counter". */
export const doer = z.strictObject({ name: z.string().min(1).max(200), role: z.string().min(1).max(200) });

/** The number on a thing's label: given once, never again to another thing. */
const tagNumber = whole.min(1).max(999_999);

/** A thing of the manifest as the catalog had it when it was frozen. */
const frozenThing = z.strictObject({
  /** Code; the id of the plan. */
  id,
  /** Key of the catalog's record; it may be gone. */
  record: recordId.optional(),
  name: note,
  kind: z.enum(['fastener', 'socket', 'extension', 'driver', 'torque-tool', 'gear', 'bag']),
  /** Of how many parts one piece consists. */
  parts: whole.min(1).max(1000),
  tag: tagNumber.optional(),
  serial: z.string().max(200).optional(),
  calibrationDue: day.optional(),
  consumed: z.boolean().optional(),
  keptAt: note.optional(),
});

/** So many pieces of a thing in one bag of an outing. Outing, bag and thing name the line, in every revision. */
const frozenLine = z.strictObject({
  outing: id,
  bag: id,
  item: id,
  quantity: pieces.min(1),
  /** Codes of the steps that need it. */
  because: z.array(id).max(linesMost),
  /** Which pocket or layer, where it was laid in one. */
  pocket: note.optional(),
  /** Of the pieces of it that lie in other pockets: where, and how many. */
  apart: z
    .array(z.strictObject({ pocket: note.min(1), pieces: pieces.min(1) }))
    .max(1000)
    .optional(),
});

/** Pieces that a person laid: where they lie in their bag, or in its pocket, laid open. */
const frozenPlace = z.strictObject({ outing: id, bag: id, item: id, pieces: pieces.min(1), ...laidAt });

/** What the cards say of a step and its plan does not hold. */
const frozenFacts = z.strictObject({
  step: id,
  /** "B, azimuth flange". */
  where: note.nullable(),
  /** The step's own words for its positions. */
  positions: note.nullable(),
  passes: z.array(z.string().min(1).max(80)).max(20),
  ifFails: ifFails.optional(),
  /** What is carried to it beyond the plan's own words. */
  carried: z.array(note).max(1000),
  /** What it acts on: how many positions, where they lie and in which order they are tightened. */
  at: z
    .strictObject({
      count: whole.min(1),
      pattern: z.string().max(40_000).nullable(),
      order: z.array(id).max(1000).nullable(),
      mirrored: z.boolean(),
      quarterTurns: whole.min(1).nullable(),
      desired: note.nullable(),
    })
    .nullable(),
});

export const revisionContent = z.strictObject({
  /** The task as a plan file, word for word. */
  planText: z.string().min(2).max(30_000_000),
  /** The bag as it was planned and laid; made by the engine and counted again by it. */
  result: z.custom<BagResult>((value) => typeof value === 'object' && value !== null && 'status' in value),
  things: z.array(frozenThing).max(linesMost),
  lines: z.array(frozenLine).max(linesMost),
  /** Absent where all lies as the program lays it. */
  places: z.array(frozenPlace).max(linesMost).optional(),
  /** Of every step, in the plan's order. */
  facts: z.array(frozenFacts).max(linesMost),
});

/** A manifest as it left the planner: numbered within its task, never changed. */
export const revisionRecord = z.strictObject({
  ...recordHead,
  task: recordId,
  /** 1, 2, 3 … within the task. */
  number: whole.min(1).max(99_999),
  /** What the task was called. */
  called: note,
  at: moment,
  by: doer,
  why: note.min(1),
  /** SHA-256 of the content's canonical JSON. */
  hash,
  content: revisionContent,
  /** From a file of another copy of the program. */
  broughtIn: z
    .strictObject({
      ...{ file: note, at: moment, person: note },
      /** Things of it whose label numbers name another thing here, and the numbers that theirs have here instead. */
      renumbered: z
        .array(z.strictObject({ thing: id, was: tagNumber, is: tagNumber }))
        .max(linesMost)
        .optional(),
    })
    .optional(),
});

const count = { item: id, pieces, parts: pieces };
const counted = z.strictObject({ bag: id, ...count });

/** What was done. `bag` and `item` are codes of the revision, `place` a place of its plan or in words. */
const deeds = [
  /** Counted into a bag: so many pieces with so many parts in all; by its label, where that was read. */
  z.strictObject({ kind: z.literal('counted'), bag: id, ...count, label: z.string().max(80).optional() }),
  /** Not there to be packed. */
  z.strictObject({ kind: z.literal('missing'), bag: id, ...count, reason: note.min(1) }),
  /** An event of the same outing does not count. */
  z.strictObject({ kind: z.literal('taken-back'), of: whole.min(1), reason: note.optional() }),
  /** Closed whole, or with a reason and a second name. */
  z.strictObject({ kind: z.literal('bag-closed'), bag: id, reason: note.optional(), second: doer.optional() }),
  z.strictObject({ kind: z.literal('bag-opened'), bag: id, reason: note.min(1) }),
  /** Counted again by another person, without the manifest's numbers or in another order. */
  z.strictObject({
    kind: z.literal('second-count'),
    bag: id,
    way: z.enum(['blind', 're-ordered']),
    counts: z.array(z.strictObject(count)).max(linesMost),
  }),
  /** The outing's bags leave. */
  z.strictObject({ kind: z.literal('issued'), words: note.optional() }),
  /** Counted already under an earlier revision, and not touched since. */
  z.strictObject({
    kind: z.literal('carried-over'),
    from: recordId,
    counts: z.array(counted.extend({ labels: z.array(z.string().max(80)).max(linesMost) })).max(linesMost),
  }),
  /** Counted in, at the shop or at another place. */
  z.strictObject({ kind: z.literal('back'), bag: id, ...count, place: id, label: z.string().max(80).optional() }),
  /** Stays out there on purpose. */
  z.strictObject({ kind: z.literal('left'), bag: id, ...count, place: id }),
  /** Spent at the work site. */
  z.strictObject({ kind: z.literal('used'), bag: id, ...count, place: id.optional() }),
  /** Seen somewhere, and not counted in. */
  z.strictObject({ kind: z.literal('seen'), bag: id, item: id, place: id, words: note.optional() }),
  /** What is not accounted for by then has a discrepancy each. */
  z.strictObject({ kind: z.literal('return-closed'), reason: note.optional(), second: doer.optional() }),
  z.strictObject({ kind: z.literal('remark'), words: note.min(1), bag: id.optional(), item: id.optional() }),
] as const;

export const deedSchema = z.discriminatedUnion('kind', deeds);

/** One thing that was done with a revision's outing. Each is chained to the one before it. */
export const eventRecord = z.strictObject({
  ...recordHead,
  revision: recordId,
  /** 1, 2, 3 … within the revision: the only order there is. */
  no: whole.min(1),
  /** The clock's claim. */
  at: moment,
  by: doer,
  outing: id,
  deed: deedSchema,
  /** Hash of the event before; that of the revision before the first. */
  prev: hash,
  /** SHA-256 of the event's canonical JSON without this field and without `rev`. */
  hash,
});

/** Something that went out and was not accounted for. */
export const discrepancyRecord = z.strictObject({
  ...recordHead,
  task: recordId,
  /** 1, 2, 3 … within the task. */
  number: whole.min(1),
  revision: recordId,
  outing: id,
  bag: id,
  item: id,
  name: note,
  pieces,
  parts: pieces,
  opened: z.strictObject({ at: moment, by: doer, event: whole.min(1).optional() }),
  /** Where and when it was last seen, and by which event. */
  lastSeen: z.strictObject({ place: note.min(1), at: moment.optional(), event: whole.min(1).optional() }),
  words: note.optional(),
  closed: z
    .strictObject({
      at: moment,
      by: doer,
      how: z.enum(['found', 'lost', 'miscounted', 'spent', 'left-there']),
      /** Where it is now, or why it is given up. */
      words: note.min(1),
    })
    .optional(),
});

export type Revision = z.infer<typeof revisionRecord>;
export type RevisionContent = z.infer<typeof revisionContent>;
export type FrozenThing = z.infer<typeof frozenThing>;
export type FrozenLine = z.infer<typeof frozenLine>;
export type FrozenPlace = z.infer<typeof frozenPlace>;
export type FrozenFacts = z.infer<typeof frozenFacts>;
export type Doer = z.infer<typeof doer>;
export type Deed = z.infer<typeof deedSchema>;
export type DeedOf<K extends Deed['kind']> = Extract<Deed, { kind: K }>;
export type OutingEvent = z.infer<typeof eventRecord>;
export type Discrepancy = z.infer<typeof discrepancyRecord>;

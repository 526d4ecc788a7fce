/** What the window keeps beside the work: the last answer for each task, and how the person likes it. */
import type { BagResult, BagWishes } from '../bag.ts';
import { id, note, whole } from '../fields.ts';
import { z } from '../schema.ts';
import { recordHead, recordId } from './head.ts';

const listMost = 10_000;
const wishSchema = z.strictObject({ id, quantity: whole.min(1), outing: id.optional() });
const wishesSchema = z.strictObject({
  keep: z.array(wishSchema).max(listMost),
  forbid: z.array(z.strictObject({ id, outing: id.optional() })).max(listMost),
  spares: z.array(wishSchema).max(listMost),
});

/** What was asked of the planner. Fields that an older program did not know are absent: nothing was asked of them. */
const asked = {
  /** SHA-256 of the plan it answers; of any other plan it says nothing. */
  planHash: z.string().regex(/^[0-9a-f]{64}$/),
  minimised: z.enum(['mass', 'count', 'volume']),
  tolerance: z.enum(['nothing', 'piece', 'bag']).optional(),
  wishes: z.custom<BagWishes>((value) => wishesSchema.safeParse(value).success, 'not wishes').optional(),
  timeLimitS: z.number().positive().nullable(),
  plannedAt: z.iso.datetime({ offset: true }),
};

/** An answer as it is held against another: what lies in which bag, named and weighed as the plan then had it. */
export const pastAnswer = z.strictObject({
  ...asked,
  status: z.enum(['optimal', 'stopped', 'infeasible']),
  objective: z
    .strictObject({ value: z.number(), unit: z.enum(['kg', 'pieces', 'L']), bound: z.number(), gap: z.number() })
    .nullable(),
  outings: z.array(
    z.strictObject({
      id,
      name: note,
      massKg: z.number(),
      bags: z.array(z.strictObject({ id, name: note, massKg: z.number() })).max(listMost),
      lines: z
        .array(
          z.strictObject({
            ...{ id, bag: id, name: note },
            quantity: whole.min(1),
            massKg: z.number(),
            volumeL: z.number().nullable(),
          }),
        )
        .max(listMost),
    }),
  ),
});

/** So many answers of a task are kept to be held against each other, the newest among them. */
export const pastMost = 6;

/** So many moments of a search are kept. */
export const courseMost = 400;

/** The last planned bag of a task; its key is the task's. */
export const resultRecord = z.strictObject({
  ...recordHead,
  ...asked,
  // Made by the engine alone and counted again by it; its own shape is not repeated here.
  result: z.custom<BagResult>((value) => typeof value === 'object' && value !== null && 'status' in value),
  /** Best answer and bound as they came, outing after outing. */
  course: z
    .array(
      z.strictObject({ outing: id, atS: z.number().min(0), best: z.number().nullable(), bound: z.number().nullable() }),
    )
    .max(courseMost)
    .optional(),
  /** The last answers, the newest first. */
  past: z.array(pastAnswer).max(pastMost).optional(),
});

/** So many ways of looking at the catalog are kept under names. */
export const viewsMost = 50;
const viewText = z.string().max(2000);
const kindShown = z.enum(['all', 'fastener', 'socket', 'extension', 'driver', 'torque-tool', 'gear', 'bag']);
const columnKey = z.string().min(1).max(80);

/** A way of looking at the catalog, under a name. */
const catalogView = z.strictObject({
  name: z.string().min(1).max(200),
  search: viewText,
  segment: kindShown,
  sorting: z.strictObject({ key: columnKey, down: z.boolean() }),
  density: z.enum(['close', 'ordinary', 'gloved']),
  showRetired: z.boolean(),
  filters: z.record(
    columnKey,
    z.discriminatedUnion('is', [
      z.strictObject({ is: z.literal('text'), contains: viewText }),
      z.strictObject({ is: z.literal('range'), from: viewText, to: viewText }),
      z.strictObject({ is: z.literal('choice'), value: viewText }),
    ]),
  ),
  columns: z.partialRecord(
    kindShown,
    z.array(z.strictObject({ key: columnKey, widthPx: z.number().min(40).max(800).optional() })).max(200),
  ),
});

export const preferencesKey = 'preferences';

export const preferencesRecord = z.strictObject({
  ...recordHead,
  units: z.enum(['as-written', 'si', 'inch-pound', 'both']),
  scheme: z.enum(['follow', 'light', 'dark']),
  person: z.string().max(2000),
  paper: z.enum(['A4', 'Letter']),
  /** Shortcuts of one letter, which speech input may set off by chance. */
  singleKeys: z.boolean(),
  /** The task under the hand. */
  task: recordId.nullable(),
  catalogViews: z.array(catalogView).max(viewsMost).optional(),
  /** As what the person acts: "packer", "second counter". */
  personRole: z.string().max(200).optional(),
  /** Rows for gloved hands, far apart. */
  gloved: z.boolean().optional(),
  /** Sounds of the packing list. */
  sounds: z.boolean().optional(),
  /** What a reader that types puts before and after a code. */
  scanner: z.strictObject({ before: z.string().max(8), after: z.enum(['enter', 'tab', 'none']) }).optional(),
});

export type KeptResult = z.infer<typeof resultRecord>;
export type PastAnswer = z.infer<typeof pastAnswer>;
export type SearchMoment = NonNullable<KeptResult['course']>[number];
export type CatalogViewRecord = z.infer<typeof catalogView>;
export type PreferencesRecord = z.infer<typeof preferencesRecord>;

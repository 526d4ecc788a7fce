/** What the window keeps beside the work: the last answer for each task, and how the person likes it. */
import type { BagResult } from '../bag.ts';
import { z } from '../schema.ts';
import { recordHead, recordId } from './head.ts';

/** The last planned bag of a task; its key is the task's. */
export const resultRecord = z.strictObject({
  ...recordHead,
  /** SHA-256 of the plan it answers; of any other plan it says nothing. */
  planHash: z.string().regex(/^[0-9a-f]{64}$/),
  minimised: z.enum(['mass', 'count', 'volume']),
  timeLimitS: z.number().positive().nullable(),
  plannedAt: z.iso.datetime({ offset: true }),
  // Made by the engine alone and counted again by it; its own shape is not repeated here.
  result: z.custom<BagResult>((value) => typeof value === 'object' && value !== null && 'status' in value),
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
});

export type KeptResult = z.infer<typeof resultRecord>;
export type PreferencesRecord = z.infer<typeof preferencesRecord>;

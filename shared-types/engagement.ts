/** Input and result of the question how much thread is engaged, and what fails first. */
import { length } from './fields.ts';
import type { Citation } from './handbook.ts';
import { z } from './schema.ts';

/** A tensile strength as a text with its unit. */
const stress = z
  .string({
    error: ({ input }) =>
      typeof input === 'number' ? `is a bare number: write it as a text with its unit, as "${input} MPa"` : undefined,
  })
  .min(1)
  .max(80);

/** "2a", " 2A " are the class 2A. */
function threadClass<const Names extends readonly [string, ...string[]]>(...names: Names) {
  return z.preprocess(
    (typed) => (typeof typed === 'string' ? typed.replace(/\s+/g, '').toUpperCase() : typed),
    z.enum(names),
  );
}

const limitMm = z.number().positive();

export const engagementLimitsSchema = z.strictObject({
  majorExternalMinMm: limitMm,
  pitchExternalMinMm: limitMm,
  minorInternalMaxMm: limitMm,
  pitchInternalMaxMm: limitMm,
});

export const engagementSchema = z.strictObject({
  thread: z.string().min(1).max(80),
  /** Needed where no limits are given and the designation names no class. */
  externalClass: threadClass('2A', '3A').optional(),
  internalClass: threadClass('2B', '3B').optional(),
  engagement: length,
  /** The bolt's class or grade, or its strengths in MPa; instead of externalUltimate. */
  strength: z.unknown().optional(),
  externalUltimate: stress.optional(),
  internalUltimate: stress.optional(),
  limits: engagementLimitsSchema.optional(),
  /** What a threaded insert is made of: its pull-out load is then given. */
  insertMaterial: z.string().min(1).max(80).optional(),
});

export type EngagementInput = z.infer<typeof engagementSchema>;

/** A table held, by its key; a formula has none. */
export type EngagementSource = Omit<Citation, 'key'> & { key?: string };

export type FailsFirst = 'bolt' | 'external thread' | 'internal thread';

export interface Engagement {
  shearAreaExternalMm2: number;
  shearAreaInternalMm2: number;
  /** Length at which the bolt breaks before either thread strips; null where only one of the two strengths is given. */
  requiredEngagementMm: number | null;
  /** Null unless both strengths are given. */
  failsFirst: FailsFirst | null;
  /** Whether a thread strips before the bolt breaks; null where the strengths given do not tell. */
  threadFailsBeforeBolt: boolean | null;
  /** J, how much weaker the internal thread is than the external one; null where only one strength is given. */
  strengthRatio: number | null;
  limits: z.infer<typeof engagementLimitsSchema>;
  /** Loads at which the bolt breaks and the threads strip; null where their strength is not given. */
  loadsN: { bolt: number | null; externalThread: number | null; internalThread: number | null };
  /** For a threaded insert of the same length: areas of the bolt's thread in it and of its internal thread; null where none is held. */
  insertShearAreaMm2: { external: number; internal: number } | null;
  /** Axial strength of the self-locking nut held for the thread. */
  lockNutAxialStrengthN: number | null;
  assumptions: string[];
  sources: EngagementSource[];
}

export interface EngagementResult extends Engagement {
  /** Null unless the bolt's strength is given with a stress under proof load. */
  proofLoadN: number | null;
  /** Load at which the internal thread of the insert gives way; null where no material is given. */
  insertPullOutN: number | null;
}

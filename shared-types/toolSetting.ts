/** The input of command `setting` and its answer, as the headless contract prints them; what stands beyond it says so. */
import type { Setting } from './bag.ts';
import { length, torque } from './fields.ts';
import type { Citation } from './handbook.ts';
import { openingForms } from './plan.ts';
import { z } from './schema.ts';

const text = z.string().min(1).max(80);
/** A number in the tool's own unit, or a quantity. */
const onScale = z.union([z.number(), text]);
const share = z.number().min(0).lt(1);
const band = z.strictObject({ min: torque, max: torque });

const toolKinds = ['wrench', 'screwdriver', 't-handle', 'power-tool'] as const;

const toolSchema = z.strictObject({
  min: onScale,
  max: onScale,
  increment: onScale.optional(),
  settings: z.array(onScale).min(1).max(1000).optional(),
  unit: text,
  accuracyOfReading: share.optional(),
  accuracyOfFullScale: share.optional(),
  lever: length.optional(),
  /** beyond the contract: an offset head is refused on all but a wrench */
  kind: z.enum(toolKinds).optional(),
});

const spread = z.number().positive().max(10);
const nutFactorSchema = z.discriminatedUnion('form', [
  z.strictObject({ form: z.literal('exact'), value: spread }),
  z.strictObject({ form: z.literal('uniform'), min: spread, max: spread }),
  z.strictObject({ form: z.literal('normal'), mean: spread, standardDeviation: spread }),
  z.strictObject({ form: z.literal('lognormal'), mean: spread, standardDeviation: spread }),
]);

/** beyond the contract: how the tool's torque is spread over its permissible deviation */
const distributionSchema = z.discriminatedUnion('form', [
  z.strictObject({ form: z.literal('exact') }),
  z.strictObject({ form: z.literal('uniform') }),
  z.strictObject({ form: z.literal('normal'), coverage: z.number().gt(0).lt(1) }),
]);

/** beyond the contract: which setting most likely gives a preload within limits */
const preloadLimitsSchema = z.strictObject({
  min: text,
  max: text,
  nutFactor: nutFactorSchema,
  thread: text.optional(),
  diameter: length.optional(),
  seed: z.number().int().min(0).max(2_147_483_647).optional(),
  samples: z.number().int().min(1000).max(1_000_000).optional(),
});

/** beyond the contract: a part between the tool and the fastener, for its twist */
const twistingSchema = z.strictObject({
  length,
  shearModulus: text,
  polarMomentMm4: z.number().positive().optional(),
  outsideDiameter: length.optional(),
  insideDiameter: length.optional(),
});

/** beyond the contract: turns, strokes and time to run the fastener */
const turningSchema = z.strictObject({
  length,
  thread: text.optional(),
  pitch: length.optional(),
  starts: z.number().int().min(1).max(12).optional(),
  swingDeg: z.number().positive().max(360).optional(),
  stepDeg: z.number().positive().max(360).optional(),
  opening: z.enum(openingForms).optional(),
  secondsPerTurn: z.number().positive().max(3600).optional(),
  secondsPerStroke: z.number().positive().max(3600).optional(),
});

export const toolSettingSchema = z.strictObject({
  callout: band,
  running: band.optional(),
  runningIncluded: z.boolean().optional(),
  tool: toolSchema,
  offsetHead: z.strictObject({ length, angleDeg: z.number().min(-360).max(360) }).optional(),
  rangeShareMin: z.number().min(0).max(1).optional(),
  siteTemperature: text.optional(),
  distribution: distributionSchema.optional(),
  windUp: z.array(twistingSchema).min(1).max(20).optional(),
  preloadLimits: preloadLimitsSchema.optional(),
  turning: turningSchema.optional(),
});

export type ToolSettingInput = z.infer<typeof toolSettingSchema>;

export interface BandOfNm {
  min: number;
  max: number;
}

export interface ToolSettingResult {
  setting: Setting | null;
  appliedNm: (BandOfNm & { nominal: number }) | null;
  aimNm: BandOfNm;
  correction: number;
  decision: 'conforming' | 'nonconforming' | 'indeterminate';
  marginNm: number | null;
  rangeShare: number | null;
  /** From here on beyond the contract. */
  reason: string;
  assumptions: string[];
  queries: { rule: string; message: string; source: Citation }[];
  sources: { about: string; document: string; obtained: string }[];
  calibration: Calibration;
  useOfRange: RangeUse[];
  /** Where the callout does not say whether it includes the running torque: the other reading of it. */
  ifNotIncluded: Pick<ToolSettingResult, 'setting' | 'aimNm' | 'decision' | 'marginNm' | 'reason'> | null;
  /** Where no running torque is given: the greatest that can be left out, or added by mistake, and still conform. */
  runningLimits: { atSetting: RunningLimitsNm | null; atBest: RunningLimitsNm } | null;
  probability: { ofConformity: number; distribution: NonNullable<ToolSettingInput['distribution']> } | null;
  windUpDeg: { nominal: number; max: number; parts: number[] } | null;
  preload: PreloadAnswer | null;
  turning: TurningAnswer | null;
}

export interface RunningLimitsNm {
  ignoredNm: number;
  addedNm: number;
}

export interface ShareInterval {
  low: number;
  high: number;
  confidence: number;
  method: string;
}

export interface PreloadAnswer {
  likeliest: { setting: Setting; probability: number; interval: ShareInterval } | null;
  /** The probability at the setting the interval rule chose. */
  atSetting: ShareInterval | null;
  seed: number;
  samples: number;
}

export interface TurningAnswer {
  leadMm: number;
  turns: number;
  strokeDeg: number | null;
  strokes: number | null;
  wholeStrokes: number | null;
  seconds: number | null;
}

/** What one document says of how much of a tool's range to use. Shares are of the tool's maximum. */
export interface RangeUse {
  says: string;
  minShare: number | null;
  maxShare: number | null;
  /** Null where the document speaks of another tool, or gives no share. */
  inside: boolean | null;
  source: Citation;
}

/** What the standard of torque tools says of a tool of this range. */
export interface Calibration {
  permissibleDeviation: number;
  appliesTo: string;
  checkShares: number[];
  lowestCheckLater: string;
  testDeviceError: number;
  preloadingCycles: number;
  ambientC: BandOfNm;
  lastFifthOfLoadS: BandOfNm;
  source: Citation;
}

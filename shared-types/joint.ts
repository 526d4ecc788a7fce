/**
 * One joint as it is asked about, and what is computed of it: the input and the result of `preload`. Quantities are texts with
 * their unit; a number stands alone only where its field's name carries the unit, or where it has none.
 */
import type { Obtained, TableSource } from './handbook.ts';
import { force, length, stress, torque, whole } from './fields.ts';
import { z } from './schema.ts';

const band = z.strictObject({ min: torque, max: torque });
const positive = z.number().positive();
const friction = z.number().gt(0).lt(1);
const shareOfYield = z.number().gt(0).max(1);

/** A screw that no designation names: square, Acme, trapezoidal, of several starts. */
const otherScrewSchema = z.strictObject({
  meanDiameterMm: positive,
  leadMm: positive,
  halfAngleDeg: z.number().min(0).lt(90),
  rootDiameterMm: positive.optional(),
});

export const jointSchema = z.strictObject({
  thread: z.union([z.string().min(1).max(80), otherScrewSchema]),
  strength: z.unknown().optional(),
  nutFactor: z
    .strictObject({
      nominal: positive,
      min: positive.optional(),
      max: positive.optional(),
      diameterMm: positive.optional(),
    })
    .optional(),
  friction: z
    .strictObject({ thread: friction, bearing: z.number().min(0).lt(1), bearingDiameterMm: z.number().min(0) })
    .optional(),
  form: z.enum(['screw', 'exact', 'linear']).optional(),
  torque: band.optional(),
  preload: force.optional(),
  yieldShare: shareOfYield.optional(),
  stressShare: shareOfYield.optional(),
  running: band.optional(),
  torqueIs: z.enum(['wrench', 'seating']).optional(),
  scatter: z.number().min(0).lt(1).optional(),
  scatterOf: z.enum(['band', 'nominal']).optional(),
  relaxation: z.strictObject({ share: z.number().min(0).lt(1), form: z.enum(['divide', 'multiply']) }).optional(),
  thermalN: z
    .union([z.number().min(0), z.strictObject({ gain: z.number().min(0), loss: z.number().min(0) })])
    .optional(),
  torsion: z.enum(['elastic', 'plastic']).optional(),
  /** Bolts that share the load where one loose bolt does no harm: the least preload's scatter is then u/√n. */
  boltsSharing: whole.min(1).optional(),
  /** What turns the fastener when it is loosened; a rating that is not held is left out. */
  stop: z
    .strictObject({
      driver: z.strictObject({ name: z.string().min(1).max(200), max: torque.optional() }),
      parts: z.array(z.strictObject({ name: z.string().min(1).max(200), ratedTorque: torque.optional() })).max(100),
    })
    .optional(),
  /** What is clamped, for its stiffness and for a load in service. */
  service: z
    .strictObject({
      grip: length,
      boltModulus: stress,
      jointModulus: stress,
      load: force.optional(),
      /** Change of temperature times (expansion of the parts − expansion of the bolt). */
      thermalStrain: z.number().gt(-1).lt(1).optional(),
    })
    .optional(),
});

export type JointInput = z.infer<typeof jointSchema>;

/** Where a formula or a value stands. */
export type JointSource = TableSource & { obtained: Obtained };

export interface Spread {
  nominal: number;
  min: number;
  max: number;
}

export interface Share {
  nominal: number;
  max: number;
}

/** The numbers of one joint. */
export interface JointNumbers {
  preloadN: Spread;
  torqueNm: { seating: Spread; installation: { min: number; max: number } };
  releaseTorqueNm: number | null;
  efficiency: number | null;
  selfLocking: boolean | null;
  nutFactorEffective: number | null;
  stressMPa: { tension: number; shear: number | null; equivalent: number | null } | null;
  torsion: 'elastic' | 'plastic';
  proofShare: Share | null;
  yieldShare: Share | null;
}

/** A limit on the loosening torque and the part that sets it; without one, why there is none. */
export interface StopLimit {
  torqueNm: number | null;
  setBy: string | null;
  reason: string | null;
}

/** One way the clamped parts are pictured. */
export interface ServiceOfCone {
  jointStiffnessNPerMm: number;
  jointConstant: number;
  tensionMPa: number | null;
  thermalLoadN: number | null;
}

export interface ServiceNumbers {
  boltStiffnessNPerMm: number;
  elongationMm: number;
  cone30: ServiceOfCone;
  cone45: ServiceOfCone;
}

/** A published factor equal to one that is given: evidence for it, chosen by nobody. */
export interface PublishedFactor {
  of: 'nutFactor' | 'scatter';
  condition: string;
  min: number;
  max: number;
  basis: string;
  source: JointSource;
  notes: string;
}

/** By name: the joint opens, the proof load is passed, the yield strength is passed. */
export interface JointQuery {
  rule: 'preload-below-zero' | 'preload-over-proof' | 'preload-over-yield';
  message: string;
}

export interface JointResult extends JointNumbers {
  stopLimit?: { seated: StopLimit; unseated: StopLimit; rootShearNm: number | null };
  service?: ServiceNumbers;
  published: PublishedFactor[];
  /** What the numbers say against the joint; a person is to look at it. */
  queries: JointQuery[];
  assumptions: string[];
  sources: JointSource[];
  caution: string;
}

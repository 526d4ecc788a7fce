/**
 * The catalog: one record for each entry of a shelf. Fields that the planner reads have the names and the form of the
 * plan file; the rest is for people. Quantities stay as typed.
 */
import { drive, headSize, id, length, mass, note, pocketNames, torque, volume, whole } from '../fields.ts';
import { headForms, openingForms, piecesMost, suppliesSchema } from '../plan.ts';
import { z } from '../schema.ts';
import { day, recordHead, recordId } from './head.ts';

/** Why items are shown beside each other as perhaps one thing. */
const doubleReasons = ['same-thing', 'codes-look-alike', 'odd-signs'] as const;

/** Items that were looked at and left: they are two things. It holds until one of them is another than it was then. */
const leftApart = z.strictObject({
  reason: z.enum(doubleReasons),
  items: z
    .array(z.strictObject({ id: recordId, was: z.string().max(2000) }))
    .min(1)
    .max(1000),
  why: note.min(1),
  person: z.string().min(1).max(2000).optional(),
  on: day,
});

/** A named stock: where a crew's own things are counted together. Codes are unique within their shelf. */
export const shelfRecord = z.strictObject({
  ...recordHead,
  name: z.string().min(1).max(200),
  notes: note.optional(),
  leftApart: z.array(leftApart).max(5000).optional(),
});

const common = {
  ...recordHead,
  shelf: recordId,
  /** What people call it, as `S-18D`; the id of the plan file. */
  code: id,
  /** Order within the shelf, as it was brought in; without one it stands after those that have it, by code. */
  position: z.number().optional(),
  name: note.optional(),
  notes: note.optional(),
  /** Taken off the shelf, kept for what refers to it. */
  retired: z.boolean(),
  /** Of how many parts one piece consists, as they are counted on return. */
  parts: whole.min(1).max(1000),
  kit: z.enum(['field', 'training', 'both']),
  /** Its place in the store. */
  keptAt: note.optional(),
  /** The number on its label, unlike that of every other thing of every shelf. */
  tag: whole.min(1).max(999_999).optional(),
};

const carried = {
  mass,
  volume: volume.optional(),
  size: length.optional(),
  tethers: whole.min(0).optional(),
  onHand: whole.min(0),
};

/** A class or grade by name, or the stresses themselves. */
const strength = z.union([
  z.string().min(1).max(80),
  z.strictObject({
    proofMPa: z.number().positive().optional(),
    yieldMPa: z.number().positive().optional(),
    ultimateMPa: z.number().positive().optional(),
  }),
]);

export const fastenerRecord = z.strictObject({
  ...common,
  kind: z.literal('fastener'),
  thread: z.string().min(1).max(80),
  head: z.strictObject({ form: z.enum(headForms), acrossFlats: headSize }),
  acrossFlatsLimits: z.strictObject({ min: length, max: length }).optional(),
  length: length.optional(),
  strength: strength.optional(),
  locking: note.optional(),
  finish: note.optional(),
  lubrication: note.optional(),
  captive: z.boolean().optional(),
  washers: note.optional(),
  /** Washers under one of it that come off with it and are loose by themselves. */
  looseWashers: whole.min(0).max(20).optional(),
  threadRun: length.optional(),
  mass: mass.optional(),
  volume: volume.optional(),
  size: length.optional(),
  tethers: whole.min(0).optional(),
  onHand: whole.min(0).optional(),
});

const socketRecord = z.strictObject({
  ...common,
  ...carried,
  kind: z.literal('socket'),
  drive,
  opening: z.strictObject({ form: z.enum(openingForms), size: headSize }),
  length,
  innerDepth: length.optional(),
  outsideDiameter: length,
  ratedTorque: torque,
});

const extensionRecord = z.strictObject({
  ...common,
  ...carried,
  kind: z.literal('extension'),
  /** An offset head is kept and counted; the planner's stacks do not use it. */
  form: z.enum(['rigid', 'universal', 'adapter', 'offset-head']),
  driveIn: drive,
  driveOut: drive,
  length,
  outsideDiameter: length,
  ratedTorque: torque,
  /** Universal joints: how far they bend. */
  angleMaxDeg: z.number().positive().max(90).optional(),
  /** Offset heads: from the tool's axis to the socket's. */
  offset: length.optional(),
});

const driverRecord = z.strictObject({
  ...common,
  ...carried,
  kind: z.literal('driver'),
  drive,
  max: torque,
  lever: length.optional(),
  stepDeg: z.number().positive().max(360).optional(),
});

const torqueToolRecord = z.strictObject({
  ...common,
  ...carried,
  kind: z.literal('torque-tool'),
  drive,
  min: torque,
  max: torque,
  increment: torque.optional(),
  settings: z.array(torque).min(1).max(1000).optional(),
  /** One of the two; the planner's rule speaks of the reading, so a tool known by full scale alone is not planned with. */
  accuracyOfReading: z.number().min(0).lt(1).optional(),
  accuracyOfFullScale: z.number().min(0).lt(1).optional(),
  accuracyFrom: z.enum(['certificate', 'assumed']).optional(),
  lever: length.optional(),
  stepDeg: z.number().positive().max(360).optional(),
  loosens: z.boolean().optional(),
  direction: z.enum(['right', 'left', 'both']).optional(),
  freeSpeedPerMin: z.number().positive().optional(),
  serial: z.string().max(200).optional(),
  calibrationDue: day.optional(),
});

const gearRecord = z.strictObject({
  ...common,
  ...carried,
  kind: z.literal('gear'),
  use: z.enum(['tether', 'cap', 'cover', 'restraint', 'consumable', 'other']),
  consumed: z.boolean().optional(),
  /** Loose pieces that it holds closed in. */
  pouchPlaces: whole.min(0).max(piecesMost).optional(),
  /** Fasteners that one of it turns into, by code. */
  supplies: suppliesSchema.optional(),
  /** Tethers and restraints: the mass they may hold. */
  ratedMass: mass.optional(),
});

const bagRecord = z.strictObject({
  ...common,
  kind: z.literal('bag'),
  role: id.optional(),
  mass: mass.optional(),
  massMax: mass.optional(),
  volumeMax: volume.optional(),
  itemsMax: whole.min(0).optional(),
  sizeMax: length.optional(),
  tetherPoints: whole.min(0).optional(),
  pockets: whole.min(0).max(1000).optional(),
  pocketNames: pocketNames.optional(),
});

export const itemRecord = z.discriminatedUnion('kind', [
  fastenerRecord,
  socketRecord,
  extensionRecord,
  driverRecord,
  torqueToolRecord,
  gearRecord,
  bagRecord,
]);

export type Shelf = z.infer<typeof shelfRecord>;
export type LeftApart = z.infer<typeof leftApart>;
export type Item = z.infer<typeof itemRecord>;
export type ItemKind = Item['kind'];
export type ItemOf<K extends ItemKind> = Extract<Item, { kind: K }>;
export const itemKinds = ['fastener', 'socket', 'extension', 'driver', 'torque-tool', 'gear', 'bag'] as const;

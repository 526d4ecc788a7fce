/**
 * A task's plan as it stands in a file: the catalog it may draw on, the outings, the steps. Quantities are texts with
 * their unit, kept as typed; `engine/plan` reads them. Fields of our own beyond the headless contract are all optional
 * and end in a comment "display": they change no answer.
 */
import { drive, headSize, id, length, mass, note, torque, volume, whole } from './fields.ts';
import { z } from './schema.ts';

/** Two years: no outing is longer, and sums stay sums. */
export const minutesMost = 1_000_000;

const described = {
  name: note.optional(), // display
  notes: note.optional(), // display: where a figure comes from, "invented", "assumed"
};

const carried = {
  ...described,
  mass,
  volume: volume.optional(),
  size: length.optional(),
  tethers: whole.min(0).optional(),
  onHand: whole.min(0),
};

export const headForms = ['hex', 'heavy-hex', 'nut', 'twelve-point', 'hex-socket', 'hexalobular', 'square'] as const;
export const openingForms = ['hex6', 'hex12', 'hexKey', 'hexalobular', 'square'] as const;

const fastenerSchema = z.object({
  ...described,
  id,
  thread: z.string().min(1).max(80),
  head: z.object({ form: z.enum(headForms), acrossFlats: headSize }),
  strength: z.unknown().optional(),
  locking: z.string().optional(),
  /** display: axial travel from the first thread to the seat; gives the turns of a step */
  threadRun: length.optional(),
  mass: mass.optional(),
  volume: volume.optional(),
  size: length.optional(),
  tethers: whole.min(0).optional(),
  onHand: whole.min(0).optional(),
});

const socketSchema = z.object({
  ...carried,
  id,
  drive,
  opening: z.object({ form: z.enum(openingForms), size: headSize }),
  length,
  innerDepth: length.optional(),
  outsideDiameter: length,
  ratedTorque: torque,
});

const extensionSchema = z.object({
  ...carried,
  id,
  kind: z.enum(['rigid', 'universal', 'adapter']),
  driveIn: drive,
  driveOut: drive,
  length,
  outsideDiameter: length,
  ratedTorque: torque,
});

const driverSchema = z.object({
  ...carried,
  id,
  drive,
  max: torque,
  lever: length.optional(),
  stepDeg: z.number().positive().max(360).optional(),
});

const torqueToolSchema = z.object({
  ...carried,
  id,
  drive,
  min: torque,
  max: torque,
  increment: torque.optional(),
  settings: z.array(torque).min(1).max(1000).optional(),
  accuracyOfReading: z.number().min(0).lt(1),
  lever: length.optional(),
  stepDeg: z.number().positive().max(360).optional(),
  loosens: z.boolean().optional(),
});

const carryGearSchema = z.object({ ...carried, id, consumed: z.boolean().optional() });

const bagSchema = z.object({
  ...described,
  id,
  role: id.optional(),
  mass: mass.optional(),
  massMax: mass.optional(),
  volumeMax: volume.optional(),
  itemsMax: whole.min(0).optional(),
  sizeMax: length.optional(),
  tetherPoints: whole.min(0).optional(),
});

export const accessSchema = z.object({
  depth: length,
  clearDiameter: length.optional(),
  swingDeg: z.number().positive().max(360).optional(),
  handleRadius: length.optional(),
  protrusion: length.optional(),
});

export const bandSchema = z.object({ min: torque, max: torque });

export const stepSchema = z.object({
  ...described,
  id,
  outing: id,
  role: id,
  slot: id.optional(),
  action: z.enum(['tighten', 'loosen', 'use']),
  fastener: id.optional(),
  count: whole.min(1).optional(),
  callout: bandSchema.optional(),
  /** display: where the callout's band is published */
  calloutSource: note.optional(),
  running: bandSchema.optional(),
  runningIncluded: z.boolean().optional(),
  demand: torque.optional(),
  access: accessSchema.optional(),
  hold: z.object({ fastener: id, access: accessSchema.optional() }).optional(),
  gear: z.array(z.object({ id, quantity: whole.min(1) })).optional(),
  moves: z.array(z.object({ id, quantity: whole.min(1), from: id, to: id })).optional(),
  minutes: z.number().min(0).max(minutesMost).optional(),
  contingency: z.boolean().optional(),
  /** display: said before the step on screen and print */
  watchOuts: z.array(note).optional(),
});

const outingSchema = z.object({
  ...described,
  id,
  roles: z.array(id),
  bags: z.array(id),
  minutesMax: z.number().positive().max(minutesMost).optional(),
});

export const catalogSchema = z.object({
  fasteners: z.array(fastenerSchema).default([]),
  sockets: z.array(socketSchema).default([]),
  extensions: z.array(extensionSchema).default([]),
  drivers: z.array(driverSchema).default([]),
  torqueTools: z.array(torqueToolSchema).default([]),
  carryGear: z.array(carryGearSchema).default([]),
  bags: z.array(bagSchema).default([]),
});

export const planSchema = z.object({
  /** display: name and origin of the task */
  task: z.object({ id, name: note, site: note.optional(), about: note.optional(), crew: note.optional() }).optional(),
  catalog: catalogSchema,
  outings: z.array(outingSchema).default([]),
  steps: z.array(stepSchema).default([]),
  places: z.array(z.object({ id, name: note.optional(), final: z.boolean().optional() })).optional(),
  rangeShareMin: z.number().min(0).max(1).optional(),
});

export type Plan = z.infer<typeof planSchema>;
export type PlanStep = z.infer<typeof stepSchema>;
export type PlanCatalog = z.infer<typeof catalogSchema>;
export type HeadForm = (typeof headForms)[number];
export type OpeningForm = (typeof openingForms)[number];

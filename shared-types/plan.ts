/**
 * A task's plan as it stands in a file: the catalog it may draw on, the outings, the steps. Quantities are texts with
 * their unit, kept as typed; `engine/plan` reads them. Fields of our own beyond the headless contract are all optional
 * and end in a comment "display": they change no answer.
 */
import { z } from './schema.ts';

const id = z.string().min(1).max(200);
/** A text with its unit. A bare number says nothing of its unit, and is told so. */
const quantity = z
  .string({
    error: ({ input }) =>
      typeof input === 'number'
        ? `is a bare number: write it as text with its unit, as "${input} mm" or "${input} N·m"`
        : undefined,
  })
  .min(1)
  .max(80);
const note = z.string().max(2000);
const whole = z.number().int();

const described = {
  name: note.optional(), // display
  notes: note.optional(), // display: where a figure comes from, "invented", "assumed"
};

const carried = {
  ...described,
  mass: quantity,
  volume: quantity.optional(),
  size: quantity.optional(),
  tethers: whole.min(0).optional(),
  onHand: whole.min(0),
};

export const headForms = ['hex', 'heavy-hex', 'nut', 'twelve-point', 'hex-socket', 'hexalobular', 'square'] as const;
export const openingForms = ['hex6', 'hex12', 'hexKey', 'hexalobular', 'square'] as const;

const fastenerSchema = z.object({
  ...described,
  id,
  thread: z.string().min(1).max(80),
  head: z.object({ form: z.enum(headForms), acrossFlats: quantity }),
  strength: z.unknown().optional(),
  locking: z.string().optional(),
  /** display: axial travel from the first thread to the seat; gives the turns of a step */
  threadRun: quantity.optional(),
  mass: quantity.optional(),
  volume: quantity.optional(),
  size: quantity.optional(),
  tethers: whole.min(0).optional(),
  onHand: whole.min(0).optional(),
});

const socketSchema = z.object({
  ...carried,
  id,
  drive: quantity,
  opening: z.object({ form: z.enum(openingForms), size: quantity }),
  length: quantity,
  innerDepth: quantity.optional(),
  outsideDiameter: quantity,
  ratedTorque: quantity,
});

const extensionSchema = z.object({
  ...carried,
  id,
  kind: z.enum(['rigid', 'universal', 'adapter']),
  driveIn: quantity,
  driveOut: quantity,
  length: quantity,
  outsideDiameter: quantity,
  ratedTorque: quantity,
});

const driverSchema = z.object({
  ...carried,
  id,
  drive: quantity,
  max: quantity,
  lever: quantity.optional(),
  stepDeg: z.number().positive().max(360).optional(),
});

const torqueToolSchema = z.object({
  ...carried,
  id,
  drive: quantity,
  min: quantity,
  max: quantity,
  increment: quantity.optional(),
  settings: z.array(quantity).min(1).max(1000).optional(),
  accuracyOfReading: z.number().min(0).lt(1),
  lever: quantity.optional(),
  stepDeg: z.number().positive().max(360).optional(),
  loosens: z.boolean().optional(),
});

const carryGearSchema = z.object({ ...carried, id, consumed: z.boolean().optional() });

const bagSchema = z.object({
  ...described,
  id,
  role: id.optional(),
  mass: quantity.optional(),
  massMax: quantity.optional(),
  volumeMax: quantity.optional(),
  itemsMax: whole.min(0).optional(),
  sizeMax: quantity.optional(),
  tetherPoints: whole.min(0).optional(),
});

const accessSchema = z.object({
  depth: quantity,
  clearDiameter: quantity.optional(),
  swingDeg: z.number().positive().max(360).optional(),
  handleRadius: quantity.optional(),
  protrusion: quantity.optional(),
});

const bandSchema = z.object({ min: quantity, max: quantity });

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
  demand: quantity.optional(),
  access: accessSchema.optional(),
  hold: z.object({ fastener: id, access: accessSchema.optional() }).optional(),
  gear: z.array(z.object({ id, quantity: whole.min(1) })).optional(),
  moves: z.array(z.object({ id, quantity: whole.min(1), from: id, to: id })).optional(),
  minutes: z.number().min(0).optional(),
  contingency: z.boolean().optional(),
  /** display: said before the step on screen and print */
  watchOuts: z.array(note).optional(),
});

const outingSchema = z.object({
  ...described,
  id,
  roles: z.array(id),
  bags: z.array(id),
  minutesMax: z.number().positive().optional(),
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

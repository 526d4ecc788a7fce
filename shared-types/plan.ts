/**
 * A task's plan as it stands in a file: the catalog it may draw on, the outings, the steps. Quantities are texts with
 * their unit, kept as typed; `engine/plan` reads them. Fields of our own beyond the headless contract are all optional:
 * those with a comment "display" change no answer; those with a comment "course" are read for how an outing runs
 * (engine/outing) and change nothing in the bag.
 */
import { drive, headSize, id, length, mass, note, pocketNames, torque, volume, whole } from './fields.ts';
import { z } from './schema.ts';

/** Two years: no outing is longer, and sums stay sums. */
export const minutesMost = 1_000_000;

/** Each piece is followed by itself. */
export const piecesMost = 10_000;

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
  /** course: stays with its part when it is loosened */
  captive: z.boolean().optional(),
  /** course: washers under one of it which come off with it and are loose by themselves */
  looseWashers: whole.min(0).max(20).optional(),
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
  /** course: the way in which it measures; which torque tool a stack may have is not asked by it */
  direction: z.enum(['right', 'left', 'both']).optional(),
});

/** What one piece of gear turns into when its step takes it: a set of four nuts, four nuts. */
export const suppliesSchema = z.object({ fastener: id, quantity: whole.min(1).max(piecesMost) });

const carryGearSchema = z.object({
  ...carried,
  id,
  consumed: z.boolean().optional(),
  /** course: loose pieces that it holds closed in; more than none makes it a pouch */
  pouchPlaces: whole.min(0).max(piecesMost).optional(),
  /** course */
  supplies: suppliesSchema.optional(),
});

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
  /** display: in which order its pockets are filled; which bag takes what is not asked by it */
  pocketNames: pocketNames.optional(),
});

export const accessSchema = z.object({
  depth: length,
  clearDiameter: length.optional(),
  /** Stretches from the mouth inwards, each so wide as far as it goes; from the last on to the head it is `clearDiameter`. */
  profile: z
    .array(z.object({ to: length, clearDiameter: length }))
    .max(20)
    .optional(),
  swingDeg: z.number().positive().max(360).optional(),
  handleRadius: length.optional(),
  protrusion: length.optional(),
});

export const bandSchema = z.object({ min: torque, max: torque });

/** Signal words by what they warn of, the gravest first: the meanings of ANSI Z535. No alert sign with the last. */
export const signalWords = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const;

/** display: the hazard, what it does, how to avoid it */
export const cautionSchema = z.object({ word: z.enum(signalWords), text: note.min(1) });

/** course: minutes a step takes at the least, most likely and at the most; a triangular distribution */
export const spreadSchema = z.object({
  least: z.number().min(0).max(minutesMost),
  likely: z.number().min(0).max(minutesMost),
  most: z.number().min(0).max(minutesMost),
});

/**
 * course: fasteners which a step takes out, puts in or lays elsewhere, and washers with them (absent: each its own loose ones).
 * `from`, `to`: "site" (in its hole), "bag" (bags and pouches of the step's role), a place, a role of the outing (its
 * hands); `from` may be gear that supplies the fastener. `to` absent: the plan does not say where.
 */
export const fastenerMoveSchema = z.object({
  id,
  quantity: whole.min(1).max(piecesMost),
  washers: whole.min(0).max(piecesMost).optional(),
  from: id,
  to: id.optional(),
});

/** course: the most a role carries in its own bags, these included */
export const carryMaxSchema = z.object({ role: id, mass });

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
  spread: spreadSchema.optional(),
  fastenerMoves: z.array(fastenerMoveSchema).max(1000).optional(),
  /** course: the work may be left as it is after this step */
  safeToLeave: z.boolean().optional(),
  /** course: steps of its outing that it must come after, and no others; absent: it keeps its place among those without */
  after: z.array(id).max(1000).optional(),
  /** display: said before the step on screen and print */
  watchOuts: z.array(note).optional(),
  /** display: said before the step's watch-outs, the gravest first */
  cautions: z.array(cautionSchema).max(20).optional(),
});

const outingSchema = z.object({
  ...described,
  id,
  roles: z.array(id),
  bags: z.array(id),
  minutesMax: z.number().positive().max(minutesMost).optional(),
  /** course: minutes of the way home from the work site, whenever it is begun */
  turnBack: z.number().min(0).max(minutesMost).optional(),
  /** course: pairs of roles that may take each other's steps; absent: any two */
  swaps: z
    .array(z.tuple([id, id]))
    .max(1000)
    .optional(),
  carryMax: z.array(carryMaxSchema).max(100).optional(),
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
export type Caution = z.infer<typeof cautionSchema>;
export type SignalWord = (typeof signalWords)[number];
export type HeadForm = (typeof headForms)[number];
export type OpeningForm = (typeof openingForms)[number];

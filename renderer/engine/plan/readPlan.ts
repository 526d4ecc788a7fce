import type { Plan } from '../../../shared-types/plan.ts';
import { planSchema } from '../../../shared-types/plan.ts';
import { readJson, refusalFromZod, rowFinder } from '../json/readJson.ts';
import { ignoredFields } from './ignoredFields.ts';
import { Reading } from './reading.ts';
import { inTheBag } from './resolveCourse.ts';
import { Refusals } from '../json/refusals.ts';
import {
  byId,
  resolveBag,
  resolveDriver,
  resolveExtension,
  resolveFastener,
  resolveGear,
  resolveSocket,
  resolveTorqueTool,
} from './resolveCatalog.ts';
import type { Carried, ResolvedPlan } from './resolved.ts';
import { checkUnique, resolveOuting, resolveStep } from './resolveSteps.ts';

/** The largest plan file read; real ones hold some hundred kilobytes. */
export const planBytesMax = 32 * 1024 * 1024;

/**
 * A plan file's text, checked whole and put into the engine's units.
 *
 * @param text - JSON of the headless contract's PLAN
 * @param file - the file's name, for refusals
 * @throws RefusedError naming file, row, field, value and reason; every fault of the plan in `rows`
 */
export function readPlan(text: string, file?: string): ResolvedPlan {
  const origin = file === undefined ? {} : { file };
  const given = readJson(text, { ...origin, maxBytes: planBytesMax });
  return planFrom(given, { ...origin, text });
}

/**
 * The same for a plan that is already an object, as `batch` hands it over.
 *
 * @throws RefusedError as readPlan does; rows only where the text is given
 */
export function planFrom(given: unknown, origin: { file?: string; text?: string } = {}): ResolvedPlan {
  const parsed = planSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { ...origin, input: given });
  const { text } = origin;
  const refusals = new Refusals(origin.file, text === undefined ? () => undefined : rowFinder(text));
  const plan = resolvePlan(parsed.data, new Reading(refusals));
  refusals.settle();
  return { ...plan, ignoredFields: ignoredFields(given, parsed.data) };
}

function resolvePlan(source: Plan, r: Reading): ResolvedPlan {
  const { catalog } = source;
  const seen = new Map<string, string>();
  const list = <S extends { id: string }, T>(
    at: string,
    items: S[],
    resolve: (r: Reading, at: string, item: S) => T,
  ): Map<string, T> => byId(r, seen, { at: `catalog.${at}`, items, resolve });

  const fasteners = list('fasteners', catalog.fasteners, resolveFastener);
  const sockets = list('sockets', catalog.sockets, resolveSocket);
  const extensions = list('extensions', catalog.extensions, resolveExtension);
  const tools = new Map([
    ...list('drivers', catalog.drivers, resolveDriver),
    ...list('torqueTools', catalog.torqueTools, resolveTorqueTool),
  ]);
  const gear = list('carryGear', catalog.carryGear, resolveGear);
  const bags = list('bags', catalog.bags, resolveBag);
  for (const [index, { supplies }] of catalog.carryGear.entries()) {
    if (supplies === undefined || fasteners.has(supplies.fastener)) continue;
    r.refusals.add(`catalog.carryGear[${index}].supplies.fastener`, {
      code: 'unknown-id',
      value: supplies.fastener,
      message: `no fastener has the id "${supplies.fastener}"`,
    });
  }

  const places = source.places ?? [];
  checkUnique(r, 'outings', source.outings);
  checkUnique(r, 'steps', source.steps);
  checkUnique(r, 'places', places);
  for (const [index, { id }] of places.entries()) {
    if (id !== inTheBag) continue;
    r.refusals.add(`places[${index}].id`, {
      code: 'contradiction',
      value: id,
      message: '"bag" is the word for not left anywhere',
    });
  }

  const outings = source.outings.map((o, index) => resolveOuting(r, `outings[${index}]`, o, bags));
  const known = {
    fasteners,
    gear,
    outings: new Map(outings.map((o) => [o.id, o])),
    places: new Set(places.map((p) => p.id)),
    steps: new Set(source.steps.map((s) => s.id)),
  };
  return {
    source,
    fasteners,
    tools,
    extensions,
    sockets,
    gear,
    bags,
    carried: new Map<string, Carried>([...tools, ...extensions, ...sockets, ...gear]),
    outings,
    steps: source.steps.map((step, index) => resolveStep(r, `steps[${index}]`, step, known)),
    rangeShareMin: source.rangeShareMin ?? 0,
    ignoredFields: [],
  };
}

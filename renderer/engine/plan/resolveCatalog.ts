import type { PlanCatalog } from '../../../shared-types/plan.ts';
import { pocketsOf } from '../../../shared-types/pockets.ts';
import { RefusedError } from '../errors.ts';
import type { Reading } from './reading.ts';
import type {
  Carried,
  OpeningSize,
  ResolvedBag,
  ResolvedExtension,
  ResolvedFastener,
  ResolvedGear,
  ResolvedSocket,
  ResolvedTool,
} from './resolved.ts';
import { resolveTorque } from './resolveTorque.ts';
import { readThread } from '../thread/index.ts';

type CarriedSource = PlanCatalog['carryGear'][number];

function carried<K extends Carried['kind']>(
  r: Reading,
  at: string,
  item: CarriedSource,
  kind: K,
): Carried & { kind: K } {
  return {
    id: item.id,
    name: item.name ?? item.id,
    kind,
    massKg: r.massKg(`${at}.mass`, item.mass),
    volumeL: r.optional(item.volume, (text) => r.volumeL(`${at}.volume`, text)),
    sizeMm: r.optional(item.size, (text) => r.lengthMm(`${at}.size`, text)),
    tethers: item.tethers ?? 0,
    onHand: item.onHand,
  };
}

/** Hexalobular sizes are compared as text, every other as a length. */
function openingSize(r: Reading, field: string, form: string, text: string): OpeningSize {
  return form === 'hexalobular' ? { text: text.trim() } : { mm: r.extentMm(field, text), typed: text.trim() };
}

/** A fastener with its sizes in the engine’s units. */
export function resolveFastener(r: Reading, at: string, f: PlanCatalog['fasteners'][number]): ResolvedFastener {
  r.refusals.attempt(`${at}.thread`, f.thread, null, () => readThread(f.thread));
  return {
    id: f.id,
    name: f.name ?? f.id,
    thread: f.thread,
    headForm: f.head.form,
    acrossFlats: openingSize(r, `${at}.head.acrossFlats`, f.head.form, f.head.acrossFlats),
    threadRunMm: r.optional(f.threadRun, (text) => r.lengthMm(`${at}.threadRun`, text)),
    captive: f.captive ?? null,
    looseWashers: f.looseWashers ?? 0,
    massKg: r.optional(f.mass, (text) => r.massKg(`${at}.mass`, text)),
    onHand: f.onHand ?? 0,
  };
}

/** A socket with its sizes in the engine’s units. */
export function resolveSocket(r: Reading, at: string, s: PlanCatalog['sockets'][number]): ResolvedSocket {
  return {
    ...carried(r, at, s, 'socket'),
    driveMm: r.squareMm(`${at}.drive`, s.drive),
    openingForm: s.opening.form,
    size: openingSize(r, `${at}.opening.size`, s.opening.form, s.opening.size),
    lengthMm: r.extentMm(`${at}.length`, s.length),
    innerDepthMm: r.optional(s.innerDepth, (text) => r.lengthMm(`${at}.innerDepth`, text)),
    outsideDiameterMm: r.extentMm(`${at}.outsideDiameter`, s.outsideDiameter),
    ratedNm: r.strengthNm(`${at}.ratedTorque`, s.ratedTorque),
  };
}

/** An extension with its sizes in the engine’s units. */
export function resolveExtension(r: Reading, at: string, e: PlanCatalog['extensions'][number]): ResolvedExtension {
  return {
    ...carried(r, at, e, 'extension'),
    form: e.kind,
    driveInMm: r.squareMm(`${at}.driveIn`, e.driveIn),
    driveOutMm: r.squareMm(`${at}.driveOut`, e.driveOut),
    lengthMm: r.extentMm(`${at}.length`, e.length),
    outsideDiameterMm: r.extentMm(`${at}.outsideDiameter`, e.outsideDiameter),
    ratedNm: r.strengthNm(`${at}.ratedTorque`, e.ratedTorque),
  };
}

/** A driver with its sizes in the engine’s units. */
export function resolveDriver(r: Reading, at: string, d: PlanCatalog['drivers'][number]): ResolvedTool {
  return {
    ...carried(r, at, d, 'driver'),
    driveMm: r.squareMm(`${at}.drive`, d.drive),
    maxNm: r.strengthNm(`${at}.max`, d.max),
    leverMm: r.optional(d.lever, (text) => r.lengthMm(`${at}.lever`, text)),
    stepDeg: d.stepDeg ?? null,
    torque: null,
    direction: null,
  };
}

/** A torque tool with its sizes and scale in the engine’s units. */
export function resolveTorqueTool(r: Reading, at: string, t: PlanCatalog['torqueTools'][number]): ResolvedTool {
  const torque = resolveTorque(r, at, t);
  return {
    ...carried(r, at, t, 'torqueTool'),
    driveMm: r.squareMm(`${at}.drive`, t.drive),
    maxNm: torque.maxNm,
    leverMm: r.optional(t.lever, (text) => r.lengthMm(`${at}.lever`, text)),
    stepDeg: t.stepDeg ?? null,
    torque,
    direction: t.direction ?? null,
  };
}

/** Gear; nothing of it is measured but what every carried item has. */
export function resolveGear(r: Reading, at: string, g: PlanCatalog['carryGear'][number]): ResolvedGear {
  return {
    ...carried(r, at, g, 'gear'),
    consumed: g.consumed ?? false,
    pouchPlaces: g.pouchPlaces ?? 0,
    supplies: g.supplies ?? null,
  };
}

/** A bag with its limits in the engine’s units. */
export function resolveBag(r: Reading, at: string, b: PlanCatalog['bags'][number]): ResolvedBag {
  return {
    id: b.id,
    name: b.name ?? b.id,
    role: b.role ?? null,
    massKg: b.mass === undefined ? 0 : r.massKg(`${at}.mass`, b.mass),
    massMaxKg: r.optional(b.massMax, (text) => r.massKg(`${at}.massMax`, text)),
    volumeMaxL: r.optional(b.volumeMax, (text) => r.volumeL(`${at}.volumeMax`, text)),
    itemsMax: b.itemsMax ?? null,
    sizeMaxMm: r.optional(b.sizeMax, (text) => r.lengthMm(`${at}.sizeMax`, text)),
    tetherPoints: b.tetherPoints ?? null,
    pockets: b.pocketNames === undefined ? [] : pocketsOf(b.pocketNames),
  };
}

/** Lists of one kind by id; an id seen before anywhere in the catalog is refused where it comes again. */
export function byId<S extends { id: string }, T>(
  r: Reading,
  seen: Map<string, string>,
  list: { at: string; items: S[]; resolve: (r: Reading, at: string, item: S) => T },
): Map<string, T> {
  const found = new Map<string, T>();
  for (const [index, item] of list.items.entries()) {
    const at = `${list.at}[${index}]`;
    r.refusals.attempt(`${at}.id`, item.id, undefined, () => {
      const before = seen.get(item.id);
      if (before === undefined) return;
      throw new RefusedError({ code: 'duplicate-id', message: `"${item.id}" is already the id of ${before}` });
    });
    seen.set(item.id, at);
    found.set(item.id, list.resolve(r, at, item));
  }
  return found;
}

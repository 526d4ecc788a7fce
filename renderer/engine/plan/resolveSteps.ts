import type { Plan, PlanStep } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import { atMost } from '../tolerance.ts';
import type { Reading } from './reading.ts';
import { checkCourse, inTheBag, readCourseOfOuting, readSpread } from './resolveCourse.ts';
import type {
  BandNm,
  ResolvedAccess,
  ResolvedFastener,
  ResolvedGear,
  ResolvedOuting,
  ResolvedStep,
  ShownUnits,
} from './resolved.ts';

interface Known {
  fasteners: Map<string, ResolvedFastener>;
  gear: Map<string, ResolvedGear>;
  outings: Map<string, ResolvedOuting>;
  places: Set<string>;
  steps: ReadonlySet<string>;
}

const atTheFace: ResolvedAccess = {
  depthMm: 0,
  clearDiameterMm: null,
  profile: [],
  swingDeg: null,
  handleRadiusMm: null,
  protrusionMm: null,
};

/** Room at the head; none said is a head that lies open. */
export function readAccess(r: Reading, at: string, a: PlanStep['access']): ResolvedAccess {
  if (!a) return atTheFace;
  const depthMm = r.lengthMm(`${at}.depth`, a.depth);
  return {
    depthMm,
    clearDiameterMm: r.optional(a.clearDiameter, (text) => r.lengthMm(`${at}.clearDiameter`, text)),
    profile: readProfile(r, at, a, depthMm),
    swingDeg: a.swingDeg ?? null,
    handleRadiusMm: r.optional(a.handleRadius, (text) => r.lengthMm(`${at}.handleRadius`, text)),
    protrusionMm: r.optional(a.protrusion, (text) => r.lengthMm(`${at}.protrusion`, text)),
  };
}

/** Stretches of a hole, each going further in than the one before and none beyond the head. */
function readProfile(
  r: Reading,
  at: string,
  { depth, profile = [] }: NonNullable<PlanStep['access']>,
  depthMm: number,
): ResolvedAccess['profile'] {
  let before = { toMm: 0, to: '' };
  return profile.map(({ to, clearDiameter }, index) => {
    const field = `${at}.profile[${index}]`;
    const toMm = r.extentMm(`${field}.to`, to);
    if (index > 0 && ![before.toMm, toMm].some(Number.isNaN) && atMost(toMm, before.toMm))
      r.refusals.add(`${field}.to`, {
        code: 'contradiction',
        value: to,
        message: `goes no further in than ${before.to}, where the stretch before it ends`,
      });
    if (r.isAbove(toMm, depthMm))
      r.refusals.add(`${field}.to`, {
        code: 'contradiction',
        value: to,
        message: `is deeper than the head, which is ${depth} deep`,
      });
    before = { toMm, to };
    return { toMm, clearMm: r.extentMm(`${field}.clearDiameter`, clearDiameter) };
  });
}

/** A band of torque, its lower end below its upper. */
export function readBand(r: Reading, at: string, b: { min: string; max: string } | undefined): BandNm | null {
  if (!b) return null;
  const minNm = r.torqueNm(`${at}.min`, b.min);
  const maxNm = r.torqueNm(`${at}.max`, b.max);
  if (r.isAbove(minNm, maxNm)) {
    r.refusals.add(`${at}.min`, { code: 'contradiction', value: b.min, message: `is above max, ${b.max}` });
  }
  return { minNm, maxNm };
}

/** An id that must be one of those known. */
function known<T>(r: Reading, field: string, id: string, what: string, among: ReadonlyMap<string, T>): T | null {
  return r.refusals.attempt<T | null>(field, id, null, () => {
    const found = among.get(id);
    if (found !== undefined) return found;
    throw new RefusedError({ code: 'unknown-id', message: `no ${what} has the id "${id}"` });
  });
}

function needs(
  r: Reading,
  at: string,
  step: PlanStep,
  field: 'fastener' | 'callout' | 'demand' | 'running',
  why: string,
): void {
  if (step[field] === undefined)
    r.refusals.add(`${at}.${field}`, { code: 'missing-field', message: `is missing: ${why}` });
}

function checkComplete(r: Reading, at: string, step: PlanStep): void {
  if (step.runningIncluded === false) {
    needs(r, at, step, 'running', 'runningIncluded is false, so the running torque to add must be given');
  }
  if (step.action === 'use') return;
  const turns = step.action === 'tighten' ? 'tightens' : 'loosens';
  needs(r, at, step, 'fastener', `a step that ${turns} names its fastener`);
  if (step.action === 'tighten') needs(r, at, step, 'callout', 'a step that tightens has a callout');
  else needs(r, at, step, 'demand', 'a step that loosens says the torque its parts must bear');
}

function checkMoves(r: Reading, at: string, step: PlanStep, known_: Known): void {
  for (const [index, move] of (step.moves ?? []).entries()) {
    const field = `${at}.moves[${index}]`;
    known(r, `${field}.id`, move.id, 'carry gear', known_.gear);
    for (const end of ['from', 'to'] as const) {
      const place = move[end];
      if (place === inTheBag || known_.places.has(place)) continue;
      r.refusals.add(`${field}.${end}`, {
        code: 'unknown-id',
        value: place,
        message: `no place has the id "${place}"`,
      });
    }
  }
}

/** Rule 5's demand and rule 6's aim: the callout, moved by a running torque that is still to be added. */
function loads(step: PlanStep, callout: BandNm | null, running: BandNm | null, demandNm: number | null) {
  if (step.action === 'use') return { demandNm: null, aim: null };
  if (step.action === 'loosen') return { demandNm, aim: null };
  if (!callout) return { demandNm: null, aim: null };
  if (step.runningIncluded !== false || !running) return { demandNm: callout.maxNm, aim: callout };
  return {
    demandNm: callout.maxNm + running.maxNm,
    aim: { minNm: callout.minNm + running.maxNm, maxNm: callout.maxNm + running.minNm },
  };
}

/** A step with what it names found and its quantities in the engine’s units. */
export function resolveStep(r: Reading, at: string, step: PlanStep, k: Known): ResolvedStep {
  const outing = known(r, `${at}.outing`, step.outing, 'outing', k.outings);
  if (outing && !outing.roles.includes(step.role)) {
    const message = `outing "${outing.id}" has no role "${step.role}", only ${outing.roles.join(', ') || 'none'}`;
    r.refusals.add(`${at}.role`, { code: 'unknown-id', value: step.role, message });
  }
  checkComplete(r, at, step);
  checkMoves(r, at, step, k);
  checkCourse(r, at, step, { ...k, outing });
  const spread = readSpread(r, at, step);
  for (const [index, gear] of (step.gear ?? []).entries()) {
    known(r, `${at}.gear[${index}].id`, gear.id, 'carry gear', k.gear);
  }
  const fastener =
    step.fastener === undefined ? null : known(r, `${at}.fastener`, step.fastener, 'fastener', k.fasteners);
  const callout = readBand(r, `${at}.callout`, step.callout);
  const running = readBand(r, `${at}.running`, step.running);
  const demand = r.optional(step.demand, (text) => r.torqueNm(`${at}.demand`, text));
  const held = step.hold ? known(r, `${at}.hold.fastener`, step.hold.fastener, 'fastener', k.fasteners) : null;
  return {
    id: step.id,
    name: step.name ?? step.id,
    outing: step.outing,
    role: step.role,
    slot: step.slot ?? null,
    action: step.action,
    fastener,
    count: step.count ?? null,
    callout,
    running,
    runningIncluded: step.runningIncluded ?? true,
    ...loads(step, callout, running, demand),
    access: readAccess(r, `${at}.access`, step.access),
    hold: held ? { fastener: held, access: readAccess(r, `${at}.hold.access`, step.hold?.access) } : null,
    gear: step.gear ?? [],
    moves: step.moves ?? [],
    minutes: step.minutes ?? spread?.likelyMin ?? 0,
    contingency: step.contingency ?? false,
    spread,
    fastenerMoves: (step.fastenerMoves ?? []).map(({ id, quantity, washers, from, to }) => {
      const own = quantity * (k.fasteners.get(id)?.looseWashers ?? 0);
      return { id, quantity, washers: washers ?? own, from, to: to ?? null };
    }),
    safeToLeave: step.safeToLeave ?? false,
    after: step.after ?? null,
    shown: shownUnits(r, step, fastener),
  };
}

/** The length unit of the access, else of the head; the torque unit of the callout or the demand. */
function shownUnits(r: Reading, step: PlanStep, fastener: ResolvedFastener | null): ShownUnits {
  const head = fastener && 'mm' in fastener.acrossFlats ? fastener.acrossFlats.typed : undefined;
  const length = r.unitOf(step.access?.depth ?? head);
  const torque = r.unitOf(step.callout?.max ?? step.demand);
  return { length: length === 'in' || length === 'ft' ? 'in' : 'mm', torque: torque ?? 'N·m' };
}

/** Ids of steps, outings and places: one of each. */
export function checkUnique(r: Reading, at: string, items: { id: string }[]): void {
  const seen = new Set<string>();
  for (const [index, { id }] of items.entries()) {
    if (seen.has(id)) {
      r.refusals.add(`${at}[${index}].id`, {
        code: 'duplicate-id',
        value: id,
        message: `"${id}" is already an id in ${at}`,
      });
    }
    seen.add(id);
  }
}

/** An outing with its bags found. */
export function resolveOuting(
  r: Reading,
  at: string,
  o: Plan['outings'][number],
  bags: ReadonlyMap<string, unknown>,
): ResolvedOuting {
  for (const [index, bag] of o.bags.entries()) {
    known(r, `${at}.bags[${index}]`, bag, 'bag', bags);
    if (o.bags.indexOf(bag) < index) {
      r.refusals.add(`${at}.bags[${index}]`, {
        code: 'duplicate-id',
        value: bag,
        message: `bag "${bag}" is listed twice`,
      });
    }
  }
  return {
    id: o.id,
    name: o.name ?? o.id,
    roles: o.roles,
    bags: o.bags,
    minutesMax: o.minutesMax ?? null,
    ...readCourseOfOuting(r, at, o),
  };
}

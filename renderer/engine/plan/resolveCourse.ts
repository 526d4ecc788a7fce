/** What a plan says of how an outing runs, beyond the headless contract. */
import type { Plan, PlanStep } from '../../../shared-types/plan.ts';
import type { Reading } from './reading.ts';
import type { ResolvedOuting, ResolvedSpread } from './resolved.ts';

/** Words that stand for no place in a move of fasteners. */
export const atTheSite = 'site';
/** Stands for "not left anywhere" in a move. */
export const inTheBag = 'bag';

/**
 * The minutes a step may take, in order.
 *
 * @returns null where none are said
 */
export function readSpread(r: Reading, at: string, step: Pick<PlanStep, 'spread' | 'minutes'>): ResolvedSpread | null {
  const { spread, minutes } = step;
  if (spread === undefined) return null;
  const { least, likely, most } = spread;
  const against = (field: string, value: number, message: string): void =>
    r.refusals.add(field, { code: 'contradiction', value, message });
  if (likely < least) against(`${at}.spread.likely`, likely, `is below least, ${least}`);
  if (most < likely) against(`${at}.spread.most`, most, `is below likely, ${likely}`);
  if (minutes !== undefined && (minutes < least || minutes > most))
    against(`${at}.minutes`, minutes, `lies outside the step's spread, ${least} to ${most}`);
  return { leastMin: least, likelyMin: likely, mostMin: most };
}

interface Known {
  fasteners: ReadonlyMap<string, unknown>;
  gear: ReadonlyMap<string, { supplies: { fastener: string } | null }>;
  places: ReadonlySet<string>;
  steps: ReadonlySet<string>;
}

/** Whatever a step's course names must be there: fasteners, places, roles, gear that supplies them, other steps. */
export function checkCourse(
  r: Reading,
  at: string,
  step: PlanStep,
  k: Known & { outing: ResolvedOuting | null },
): void {
  const unknown = (field: string, value: string, message: string): void =>
    r.refusals.add(field, { code: 'unknown-id', value, message });
  for (const [index, move] of (step.fastenerMoves ?? []).entries()) {
    const field = `${at}.fastenerMoves[${index}]`;
    if (!k.fasteners.has(move.id)) unknown(`${field}.id`, move.id, `no fastener has the id "${move.id}"`);
    if (move.from === move.to)
      r.refusals.add(`${field}.to`, { code: 'contradiction', value: move.to, message: 'is where it comes from' });
    for (const end of ['from', 'to'] as const) {
      const word = move[end];
      if (word === undefined || isEnd(word, k) || (end === 'from' && supplies(word, move.id, k))) continue;
      const also = end === 'from' ? ', and no gear that supplies this fastener' : '';
      unknown(`${field}.${end}`, word, `"${word}" is neither "site", "bag", a place nor a role of the outing${also}`);
    }
  }
  for (const [index, id] of (step.after ?? []).entries()) {
    if (id === step.id || !k.steps.has(id))
      unknown(`${at}.after[${index}]`, id, id === step.id ? 'is this step itself' : `no step has the id "${id}"`);
  }
}

function isEnd(word: string, k: Known & { outing: ResolvedOuting | null }): boolean {
  return (
    word === atTheSite || word === inTheBag || k.places.has(word) || k.outing === null || k.outing.roles.includes(word)
  );
}

function supplies(word: string, fastener: string, k: Known): boolean {
  return k.gear.get(word)?.supplies?.fastener === fastener;
}

/** The most each role carries, and who may take whose steps. */
export function readCourseOfOuting(
  r: Reading,
  at: string,
  o: Plan['outings'][number],
): Pick<ResolvedOuting, 'turnBackMin' | 'swaps' | 'carryMaxKg'> {
  const checkRole = (field: string, role: string): void => {
    if (o.roles.includes(role)) return;
    const message = `outing "${o.id}" has no role "${role}", only ${o.roles.join(', ') || 'none'}`;
    r.refusals.add(field, { code: 'unknown-id', value: role, message });
  };
  const carryMaxKg = new Map<string, number>();
  for (const [index, { role, mass }] of (o.carryMax ?? []).entries()) {
    const field = `${at}.carryMax[${index}]`;
    checkRole(`${field}.role`, role);
    if (carryMaxKg.has(role))
      r.refusals.add(`${field}.role`, { code: 'duplicate-id', value: role, message: `"${role}" is listed twice` });
    carryMaxKg.set(role, r.massKg(`${field}.mass`, mass));
  }
  for (const [index, [one, other]] of (o.swaps ?? []).entries()) {
    checkRole(`${at}.swaps[${index}][0]`, one);
    checkRole(`${at}.swaps[${index}][1]`, other);
    if (one === other)
      r.refusals.add(`${at}.swaps[${index}]`, {
        code: 'contradiction',
        value: one,
        message: 'names one role twice: a pair is two roles',
      });
  }
  return { turnBackMin: o.turnBack ?? null, swaps: o.swaps ?? null, carryMaxKg };
}

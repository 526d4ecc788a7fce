import type { Carried, ResolvedBag, ResolvedPlan } from '../../plan/resolved.ts';
import type { Counts } from '../counts.ts';
import { mostOf } from '../counts.ts';
import { volumeL } from '../measure.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import type { Costs } from './costs.ts';
import { demandsOf } from './demands.ts';
import { addDraws } from './draws.ts';
import type { Term } from './integerProgram.ts';
import { IntegerProgram } from './integerProgram.ts';
import type { Loss } from './losses.ts';
import { addLoss, addOneMore } from './losses.ts';
import type { BagModel, Lying } from './lying.ts';

/** How the model is to be read: what a piece costs, which losses are told, and whether limits bend. */
export interface ModelTerms {
  costs: Costs;
  losses: readonly Loss[];
  /** Lets stock and bag limits be passed, and minimises by how much, in place of the objective. */
  elastic?: boolean;
  /** Only what may lie where, without what the steps ask. */
  withoutSteps?: boolean;
}

/**
 * One outing as an integer program.
 *
 *   n(p,b)  pieces p in bag b;  y  flows of `addFlow`, one a group;  z(b)  bag b holds something
 *   min  Σ w(p)·n(p,b) + Σ w(b)·z(b)
 *   step of role r:        Σ_{b: r's or nobody's} n(p,b) ≥ use(s,p)
 *   slot with several roles:   Σ_{b: r's} n(p,b) + d(r,p) ≥ use(s,p),  Σ_r d(r,p) ≤ Σ_{b: nobody's} n(p,b)
 *   Σ_b n(p,b) ≤ on hand;  each bag within mass, volume, items and tether points;  gear in full;  what is kept
 *
 * @returns the program, and which of its columns stand for what
 */
export function bagModel(plan: ResolvedPlan, reduced: ReducedWork, terms: ModelTerms): BagModel {
  const model: BagModel = { program: new IntegerProgram(), lying: [], lyingOf: new Map(), opened: new Map() };
  addPieces(model, plan, reduced, terms);
  if (!terms.withoutSteps) {
    for (const { addTo } of demandsOf(reduced)) addDraws(model, addTo(model.program));
    for (const loss of terms.losses) addLoss(model, loss);
  }
  if (reduced.work.tolerance === 'piece') addOneMore(model, reduced.standing);
  for (const bag of reduced.work.bags) addBag(model, bag, terms);
  return model;
}

function addPieces(
  model: BagModel,
  plan: ResolvedPlan,
  { work, dropped, useful }: ReducedWork,
  { costs, elastic }: ModelTerms,
): void {
  const { program } = model;
  for (const item of plan.carried.values()) {
    const gear = work.gear.get(item.id) ?? 0;
    const kept = work.keep.get(item.id) ?? 0;
    const piece = dropped.has(item.id) || work.forbidden.has(item.id) ? 0 : (useful.get(item.id) ?? 0);
    const most = Math.max(item.kind === 'gear' ? gear : piece, kept);
    if (most === 0) continue;
    const there = lay(model, work, item, elastic ? most : Math.min(most, Math.max(item.onHand, gear, kept)), costs);
    if (gear > 0) program.equal(Math.max(gear, kept), there);
    else if (kept > 0) program.atLeast(kept, there);
    if (item.kind === 'gear') continue;
    const bent: Term[] = elastic ? [[program.column({ cost: 1 }), -1]] : [];
    program.atMost(item.onHand, [...there, ...bent]);
  }
}

function lay(model: BagModel, work: ReducedWork['work'], item: Carried, upper: number, costs: Costs): Term[] {
  const lying = work.bags
    .filter((bag) => work.admits(bag, item))
    .map((bag): Lying => ({ item, bag, upper, column: model.program.column({ cost: costs.ofItem(item), upper }) }));
  model.lying.push(...lying);
  model.lyingOf.set(item.id, lying);
  return lying.map(({ column }): Term => [column, 1]);
}

function addBag(model: BagModel, bag: ResolvedBag, { costs, elastic }: ModelTerms): void {
  const { program } = model;
  const inBag = model.lying.filter((l) => l.bag === bag);
  // As shares of the limit: the solver's tolerance is absolute, and is then the contract's relative one.
  const limit = (allowed: number | null, each: (item: Carried) => number): void => {
    if (allowed === null) return;
    const terms = inBag.map(({ item, column }): Term => [column, allowed === 0 ? each(item) : each(item) / allowed]);
    if (elastic) terms.push([program.column({ cost: 1, integer: false }), -1]);
    program.atMost(allowed === 0 ? 0 : 1, terms);
  };
  limit(bag.massMaxKg, (item) => item.massKg);
  limit(bag.volumeMaxL, volumeL);
  limit(bag.itemsMax, () => 1);
  limit(bag.tetherPoints, (item) => item.tethers);

  const cost = costs.ofBag(bag);
  if (cost === 0 || elastic) return;
  const opened = program.column({ cost, upper: 1 });
  model.opened.set(bag, opened);
  for (const { upper, column } of inBag)
    program.atLeast(0, [
      [opened, upper],
      [column, -1],
    ]);
}

/** Of every piece, the most that may be of use or is asked for. */
export function mostAsked({ work, useful }: ReducedWork): Counts {
  return mostOf([useful, work.keep]);
}

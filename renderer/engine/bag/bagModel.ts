import type { Minimised } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedPlan } from '../plan/resolved.ts';
import type { Term } from './integerProgram.ts';
import { IntegerProgram } from './integerProgram.ts';
import type { Counts } from './counts.ts';
import { addedUp, mostOf } from './counts.ts';
import { measured, solverScale, volumeL } from './measure.ts';
import type { Choice, OutingWork, StepGroup } from './outingWork.ts';
import { drawsFrom } from './outingWork.ts';

/** How many of one item lie in one bag: a column of the program. */
export interface Lying {
  item: Carried;
  bag: ResolvedBag;
  /** No more than this is of use. */
  upper: number;
  column: number;
}

export interface GroupColumns {
  group: StepGroup;
  stacks: { choice: Choice; column: number }[];
  holds: { choice: Choice; column: number }[] | null;
}

export interface BagModel {
  program: IntegerProgram;
  lying: Lying[];
  groups: GroupColumns[];
}

/**
 * One outing as an integer program.
 *
 *   n(p,b)  pieces p in bag b;  y(s,k), h(s,k)  step s uses stack k, hold k;  z(b)  bag b holds something
 *   min  Σ w(p)·n(p,b) + Σ w(b)·z(b)
 *   Σ_k y(s,k) = 1,  Σ_k h(s,k) = 1
 *   step s of role r:          Σ_{b: r's or nobody's} n(p,b) ≥ use(s,p) = Σ_k c(k,p)·(y(s,k) + h(s,k))
 *   slot with several roles:   Σ_{b: r's} n(p,b) + d(r,p) ≥ use(s,p),  Σ_r d(r,p) ≤ Σ_{b: nobody's} n(p,b)
 *   Σ_b n(p,b) ≤ on hand;  each bag within mass, volume, items and tether points;  gear in full
 *
 * Whole numbers throughout but for the draws d, which come out whole because the rest is.
 *
 * @returns the program, and which of its columns stand for what
 * @param elastic - lets stock and bag limits be passed, and minimises by how much, in place of the objective
 */
export function bagModel(plan: ResolvedPlan, work: OutingWork, minimise: Minimised, elastic = false): BagModel {
  const model: BagModel = { program: new IntegerProgram(), lying: [], groups: [] };
  const scale = elastic ? 0 : solverScale[minimise];
  addPieces(model, plan, work, { minimise, scale, elastic });
  for (const group of work.groups) addGroup(model, group);
  addNeeds(model);
  for (const bag of work.bags) addBag(model, bag, { minimise, scale, elastic });
  return model;
}

/** How the model is to be read: what counts, in which scale, and whether limits bend. */
interface Terms {
  minimise: Minimised;
  scale: number;
  elastic: boolean;
}

function addPieces(model: BagModel, plan: ResolvedPlan, work: OutingWork, terms: Terms): void {
  const { program } = model;
  const useful = usefulPieces(work);
  const lay = (item: Carried, upper: number): Term[] =>
    work.bags
      .filter((bag) => work.admits(bag, item))
      .map((bag): Term => {
        const column = program.column({ cost: measured(item, terms.minimise) * terms.scale, upper });
        model.lying.push({ item, bag, upper, column });
        return [column, 1];
      });

  for (const item of plan.carried.values()) {
    const gear = work.gear.get(item.id);
    if (gear !== undefined) program.equal(gear, lay(item, gear));
    const most = useful.get(item.id);
    if (most === undefined) continue;
    const there = lay(item, terms.elastic ? most : Math.min(most, item.onHand));
    if (terms.elastic) there.push([program.column({ cost: 1 }), -1]);
    program.atMost(item.onHand, there);
  }
}

/** More of a piece than each role's greatest need at one time is of no use to anybody. */
function usefulPieces(work: OutingWork): Counts {
  const byRole = new Map<string, Counts>();
  const mostUsed = (choices: readonly Choice[]): Counts => mostOf(choices.map(({ counts }) => counts));
  for (const { role, stacks, holds } of work.groups) {
    const atOnce = addedUp([mostUsed(stacks), mostUsed(holds ?? [])]);
    byRole.set(role, mostOf([byRole.get(role) ?? new Map<string, number>(), atOnce]));
  }
  return addedUp([...byRole.values()]);
}

function addGroup(model: BagModel, group: StepGroup): void {
  const { program } = model;
  const choose = (list: Choice[]): { choice: Choice; column: number }[] => {
    const columns = list.map((choice) => ({ choice, column: program.column({ upper: 1 }) }));
    program.equal(
      1,
      columns.map(({ column }): Term => [column, 1]),
    );
    return columns;
  };
  model.groups.push({ group, stacks: choose(group.stacks), holds: group.holds && choose(group.holds) });
}

function addNeeds(model: BagModel): void {
  const { program } = model;
  /** Draws from nobody's bags, by slot and piece. */
  const draws = new Map<string, { slot: string; id: string; columns: Map<string, number> }>();
  for (const columns of model.groups) {
    const { role, slot } = columns.group;
    for (const [id, use] of uses(columns)) {
      if (slot === null) {
        program.atLeast(0, [...lyingIn(model, id, (bag) => drawsFrom(bag, role)), ...use]);
        continue;
      }
      const key = JSON.stringify([slot, id]);
      const draw = draws.get(key) ?? { slot, id, columns: new Map<string, number>() };
      draws.set(key, draw);
      const column = draw.columns.get(role) ?? program.column({ integer: false });
      draw.columns.set(role, column);
      program.atLeast(0, [...lyingIn(model, id, (bag) => bag.role === role), [column, 1], ...use]);
    }
  }
  for (const { id, columns } of draws.values()) {
    const drawn = [...columns.values()].map((column): Term => [column, -1]);
    program.atLeast(0, [...lyingIn(model, id, (bag) => bag.role === null), ...drawn]);
  }
}

/** For each piece a group may use: the terms that take it away. */
function uses({ stacks, holds }: GroupColumns): Map<string, Term[]> {
  const terms = new Map<string, Term[]>();
  for (const { choice, column } of [...stacks, ...(holds ?? [])]) {
    for (const [id, count] of choice.counts) {
      const known = terms.get(id);
      if (known) known.push([column, -count]);
      else terms.set(id, [[column, -count]]);
    }
  }
  return terms;
}

function lyingIn(model: BagModel, id: string, of: (bag: ResolvedBag) => boolean): Term[] {
  return model.lying.filter(({ item, bag }) => item.id === id && of(bag)).map(({ column }): Term => [column, 1]);
}

function addBag(model: BagModel, bag: ResolvedBag, { minimise, scale, elastic }: Terms): void {
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

  if (minimise !== 'mass' || bag.massKg === 0 || elastic) return;
  const holdsSomething = program.column({ cost: bag.massKg * scale, upper: 1 });
  for (const { upper, column } of inBag)
    program.atLeast(0, [
      [holdsSomething, upper],
      [column, -1],
    ]);
}

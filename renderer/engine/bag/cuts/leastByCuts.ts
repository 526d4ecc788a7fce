import type { Highs } from 'highs';
import type { Carried, ResolvedBag, ResolvedPlan } from '../../plan/resolved.ts';
import { atMost } from '../../tolerance.ts';
import type { Content, Known } from '../contents.ts';
import { better, contentsOf, piecesCounted, piecesOf, readContents } from '../contents.ts';
import type { LeastContents, LeastOptions } from '../least.ts';
import { volumeL } from '../measure.ts';
import { bagModel } from '../model/bagModel.ts';
import type { Solution } from '../model/integerProgram.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import type { Covering } from '../search/covering.ts';
import { atPrices } from '../search/covering.ts';
import { costOf, firstBag, mended } from '../search/firstBag.ts';
import { placed } from '../search/place.ts';
import { cutSource } from './cutSource.ts';
import { masterOf } from './master.ts';
import { unmetBy } from './unmet.ts';

export interface CutOptions extends Pick<LeastOptions, 'costs' | 'timeLimitS'> {
  told: (progress: { best: number | null; bound: number }) => void;
  /** A bag known beforehand, by the numbers of its pieces. */
  have: Int32Array | null;
  /** No bag costs less. */
  bound: number;
  /** Whether contents that were laid into bags without a look at hands serve each role. */
  servesRoles: (contents: readonly Content[]) => boolean;
}

/** Rounds of the local search at the prices that the program in shares gives. */
const shakesAtPrices = 8;
/** Of its own cost a piece keeps this share in those prices, so that none is free. */
const ownPrice = 0.02;

/**
 * The least contents, by a program of the pieces alone, which is told by and by, in cuts, what the steps ask.
 *
 * The program with all flows, solved in shares, says what the least bag in shares is. Cuts are gathered between that
 * and what the program of the pieces calls least in shares, until they agree, which gives a good bound. Then the
 * program of the pieces is solved in whole numbers. No bag costs less than its answer; where the answer serves every
 * step it is the least, and where it does not, cuts that rule it out are told, and it is solved again.
 *
 * @returns null where the program with flows says more: roles with bags of their own do not go together in a slot
 *   though they do in shares, or a limit is passed by less than the solver sees
 */
export function leastByCuts(
  highs: Highs,
  plan: ResolvedPlan,
  reduced: ReducedWork,
  cover: Covering,
  options: CutOptions,
): LeastContents | null {
  const { costs, timeLimitS, told, servesRoles } = options;
  const { work } = reduced;
  const master = masterOf(plan, reduced, costs);
  let { have, bound } = options;
  let known: Known | null = null;
  let seconds = 0;
  const leftS = (): number | undefined => (timeLimitS === undefined ? undefined : Math.max(0.01, timeLimitS - seconds));
  const outOfTime = (): boolean => timeLimitS !== undefined && seconds >= timeLimitS;
  const proven = (): boolean => known !== null && atMost(known.cost, bound);
  const costMost = (): number => known?.cost ?? Infinity;
  const say = (): void => told({ best: known?.cost ?? null, bound });
  const rise = (to: number): void => {
    if (to > bound) bound = to;
    say();
  };
  const offer = (pieces: Int32Array | null): void => {
    const start = pieces && placed(master.model, work, piecesOf(cover, pieces));
    const contents = start && contentsOf(master.model, (column) => start.get(column) ?? 0);
    if (contents && servesRoles(contents)) known = better(known, contents, costs);
  };
  const ended = (): LeastContents => {
    return { status: proven() ? 'optimal' : 'stopped', contents: known?.contents ?? null, bound, seconds };
  };
  const impossible = (): LeastContents => ({ status: 'infeasible', contents: null, bound: Infinity, seconds });

  offer(have);
  say();
  const flows = bagModel(plan, reduced, { costs, losses: [] }).program.solveInShares(highs, leftS());
  seconds += flows.seconds;
  if (flows.status === 'infeasible') return impossible();
  if (flows.status === 'stopped') return ended();
  rise(flows.value);
  if (have) {
    const prices = Float64Array.from(cover.table.cost, (cost, piece) => {
      const lying = master.model.lyingOf.get(cover.table.ids[piece] ?? '') ?? [];
      const [first = 0, ...others] = lying.map(({ column }) => flows.reducedCosts[column] ?? 0);
      return Math.max(0, Math.min(first, ...others)) + ownPrice * cost;
    });
    const other = firstBag(atPrices(cover, prices), shakesAtPrices);
    if (other && costOf(cover, other) < costOf(cover, have)) have = other;
    offer(have);
    say();
  }

  const source = cutSource(highs, reduced, cover, master, flows.columns);
  try {
    const shares = source.gather({ until: flows.value, timeLimitS: leftS(), have });
    seconds += source.seconds();
    if (shares) {
      rise(shares.value);
      source.ruleOut(shares, costMost());
    }
    for (;;) {
      if (proven() || outOfTime()) return ended();
      const solution = whole();
      seconds += solution.seconds;
      if (solution.status === 'infeasible') return known ? ended() : impossible();
      rise(solution.bound);
      const answer = readContents(master.model, solution);
      if (!answer) return ended();
      if (!withinLimits(work.bags, answer)) return null;
      const missed = unmetBy(reduced, cover, answer);
      if (missed.slots.length > 0) return null;
      if (missed.groups.length === 0) {
        known = better(known, answer, costs);
        if (solution.status === 'optimal') rise(known.cost);
        return ended();
      }
      if (solution.status === 'stopped') return ended();
      const before = source.seconds();
      source.tell(missed, solution);
      seconds += source.seconds() - before;
      // Where a bag may be lost whole, the local search does not see to it.
      if (have) offer((have = mended(cover, piecesCounted(cover, answer), have)));
      say();
    }
  } finally {
    source.dispose();
  }

  function whole(): Solution {
    const start = startOf();
    return master.model.program.solve(highs, {
      timeLimitS: leftS(),
      cuts: master.cuts,
      coarse: true,
      start,
      onProgress: ({ bound: to }) => {
        if (to !== null) rise(to);
      },
    });
  }

  function startOf(): Map<number, number> | undefined {
    if (!known) return undefined;
    const columns = new Map<number, number>(master.model.lying.map(({ column }) => [column, 0]));
    for (const { item, bag, quantity } of known.contents) {
      const lying = master.model.lyingOf.get(item.id)?.find((one) => one.bag === bag);
      if (lying) columns.set(lying.column, quantity);
    }
    const used = new Set(known.contents.map(({ bag }) => bag));
    for (const [bag, column] of master.model.opened) columns.set(column, Number(used.has(bag)));
    for (const { column, at } of master.beside)
      columns.set(
        column,
        at((of) => columns.get(of) ?? 0),
      );
    return columns;
  }
}

/** The limits of the bags, which the solver keeps a little less closely than they are judged. */
function withinLimits(bags: readonly ResolvedBag[], contents: readonly Content[]): boolean {
  return bags.every((bag) => {
    const lines = contents.filter((line) => line.bag === bag);
    const within = (limit: number | null, each: (item: Carried) => number): boolean =>
      limit === null ||
      atMost(
        lines.reduce((sum, { item, quantity }) => sum + quantity * each(item), 0),
        limit,
      );
    return (
      within(bag.massMaxKg, ({ massKg }) => massKg) &&
      within(bag.volumeMaxL, volumeL) &&
      within(bag.itemsMax, () => 1) &&
      within(bag.tetherPoints, ({ tethers }) => tethers)
    );
  });
}

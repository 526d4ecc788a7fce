import type { Highs } from 'highs';
import type { ResolvedBag, ResolvedPlan } from '../../plan/resolved.ts';
import type { Costs } from '../model/costs.ts';
import { bagModel } from '../model/bagModel.ts';
import type { Row, Term } from '../model/integerProgram.ts';
import { sharesSettings, summed } from '../model/integerProgram.ts';
import type { BagModel } from '../model/lying.ts';
import { lyingTerms } from '../model/lying.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import type { Cut, LiesThere } from './demandProgram.ts';

/** What may lie where, with cuts in place of what the steps ask. */
export interface Master {
  model: BagModel;
  /** The cuts told. */
  cuts: Row[];
  /** Of an item, whether one of it is there to be lost. */
  there: Map<string, number>;
  /** Columns beside those of the pieces, each with what it is where the pieces are whole. */
  beside: { column: number; at: (value: (column: number) => number) => number }[];
}

/** The master of an outing, not told of any step yet. */
export function masterOf(plan: ResolvedPlan, reduced: ReducedWork, costs: Costs): Master {
  const model = bagModel(plan, reduced, { costs, losses: [], withoutSteps: true });
  return { model, cuts: [], there: new Map(), beside: [] };
}

const anyBag = (_bag: ResolvedBag): boolean => true;

/** How many of an item are of use. */
export function mostOfItem({ model }: Master, id: string): number {
  return Math.max(0, ...(model.lyingOf.get(id) ?? []).map(({ upper }) => upper));
}

/** A column that is 1 where some of the item lies in a bag. */
export function thereColumn(master: Master, id: string): number {
  const known = master.there.get(id);
  if (known !== undefined) return known;
  const lying = lyingTerms(master.model, id, anyBag);
  const column = flagColumn(master, lying, 1);
  // One that is there is lost: it cannot be left uncounted.
  master.model.program.atLeast(0, [[column, mostOfItem(master, id)], ...lying.map(([at]): Term => [at, -1])]);
  master.there.set(id, column);
  return column;
}

/** A column that is 1 only where at least so many lie there. */
export function flagColumn(master: Master, lying: readonly Term[], count: number): number {
  const { program } = master.model;
  const column = program.column({ upper: 1 });
  program.atLeast(0, [...lying, [column, -count]]);
  const sum = (value: (at: number) => number): number => lying.reduce((total, [at]) => total + value(at), 0);
  master.beside.push({ column, at: (value) => Number(sum(value) >= count) });
  return column;
}

/** The cut as a row of the master. */
export function rowOf(master: Master, { terms, lost }: Cut): Row {
  const all = terms.flatMap(({ id, of, weight }): Term[] => {
    const lying = lyingTerms(master.model, id, of).map(([column]): Term => [column, weight]);
    if (id !== lost) return lying;
    return mostOfItem(master, id) <= 1 ? [] : [...lying, [thereColumn(master, id), -weight]];
  });
  return { terms: [...summed(all)], lower: 1, upper: Infinity };
}

/** What lies there, by the values of the columns, less a piece that is lost. */
export function liesBy(master: Master, lost: string | null, value: (column: number) => number): LiesThere {
  return (id, of) => {
    const lies = (master.model.lyingOf.get(id) ?? []).reduce(
      (sum, { bag, column }) => (of(bag) ? sum + value(column) : sum),
      0,
    );
    if (id !== lost) return lies;
    if (Number.isInteger(lies)) return Math.max(0, lies - 1);
    return lies * (1 - 1 / Math.max(1, mostOfItem(master, id)));
  };
}

/** The master in shares, kept in the solver while cuts come in. */
export interface MasterInShares {
  solve: (timeLimitS: number | undefined) => SharesWithSlack | null;
  seconds: () => number;
  dispose: () => void;
}

export interface SharesWithSlack {
  value: number;
  columns: Float64Array;
  reducedCosts: Float64Array;
  /** How far from being tight each cut is. */
  slack: number[];
}

/** Hands the master to the solver; columns that come later are not in it. */
export function masterInShares(highs: Highs, { model: { program }, cuts }: Master): MasterInShares {
  const firstCut = program.rowCount;
  const model = highs.createModel(program.inShares());
  model.options.set(sharesSettings);
  let told = 0;
  return {
    solve: (timeLimitS) => {
      for (const { lower, upper, terms } of cuts.slice(told)) {
        model.addRow(lower, upper, { indices: terms.map(([at]) => at), values: terms.map(([, value]) => value) });
      }
      told = cuts.length;
      // The solver's clock runs on over what it did before.
      if (timeLimitS !== undefined) model.options.set({ time_limit: model.getRunTime() + timeLimitS });
      const { modelStatus } = model.run();
      if (modelStatus !== highs.constants.modelStatus.optimal) return null;
      const { colValue, colDual, rowValue } = model.getSolution();
      const slack = cuts.map(({ lower }, index) => (rowValue[firstCut + index] ?? 0) - lower);
      return { value: model.getObjectiveValue(), columns: colValue, reducedCosts: colDual, slack };
    },
    seconds: () => model.getRunTime(),
    dispose: () => model.dispose(),
  };
}

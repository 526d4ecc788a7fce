import type { Highs } from 'highs';
import { limitTolerance } from '../../tolerance.ts';

/** A term of a row: which column, times what. */
export type Term = [column: number, coefficient: number];

interface Column {
  cost: number;
  upper: number;
  integer: boolean;
}

/** lower ≤ Σ terms ≤ upper. */
export interface Row {
  lower: number;
  upper: number;
  terms: Term[];
}

export interface Solution {
  status: 'optimal' | 'stopped' | 'infeasible';
  /** Null where none was found. */
  columns: number[] | null;
  /** No solution costs less. */
  bound: number;
  seconds: number;
}

export interface SolveOptions {
  timeLimitS?: number | undefined;
  /** A solution known beforehand, by its whole columns: what it costs is not exceeded. */
  start?: ReadonlyMap<number, number> | undefined;
  /** Solved at the solver's own tolerances: at finer ones rows of odd coefficients lead it astray. */
  coarse?: boolean | undefined;
  /** Rows beside its own. */
  cuts?: readonly Row[] | undefined;
  onProgress?: ((progress: { best: number | null; bound: number | null }) => void) | undefined;
}

/** Past this, looking for reductions takes HiGHS far longer than solving, and keeps no time limit meanwhile. */
const manyColumns = 3000;

/** A row or an integer may be off by no more. */
const feasibilityTolerance = limitTolerance;

/** A minimisation over whole numbers from 0 up, put together piece by piece and handed to HiGHS. */
export class IntegerProgram {
  private readonly columns: Column[] = [];
  private readonly rows: Row[] = [];

  column(column: { cost?: number; upper?: number; integer?: boolean }): number {
    this.columns.push({ cost: column.cost ?? 0, upper: column.upper ?? Infinity, integer: column.integer ?? true });
    return this.columns.length - 1;
  }

  atLeast(lower: number, terms: Term[]): void {
    this.rows.push({ lower, upper: Infinity, terms });
  }

  atMost(upper: number, terms: Term[]): void {
    this.rows.push({ lower: -Infinity, upper, terms });
  }

  equal(value: number, terms: Term[]): void {
    this.rows.push({ lower: value, upper: value, terms });
  }

  get rowCount(): number {
    return this.rows.length;
  }

  /** Rules a column out. */
  fixAtZero(column: number): void {
    const fixed = this.columns[column];
    if (fixed) fixed.upper = 0;
  }

  /** Asks only whether there is an answer. */
  dropCosts(): void {
    for (const column of this.columns) column.cost = 0;
  }

  /** Proven to the last digit: both gaps of HiGHS are 0. Whole numbers come back rounded to whole. */
  solve(highs: Highs, options: SolveOptions = {}): Solution {
    if (this.columns.length === 0) return this.rows.every((r) => r.lower <= 0 && r.upper >= 0) ? trivial : impossible;
    return highs.withModel(this.modelData(options.cuts), (model): Solution => {
      model.options.set(solverSettings(this.columns.length, options));
      if (options.start) model.setSolution({ indices: [...options.start.keys()], values: [...options.start.values()] });
      const { onProgress } = options;
      const { modelStatus } = model.run(
        onProgress && {
          [highs.constants.callbackType.mipLogging]: ({ data }) => {
            onProgress({ best: finite(data.mip_primal_bound), bound: finite(data.mip_dual_bound) });
          },
        },
      );
      const known = highs.constants.modelStatus;
      const seconds = model.getRunTime();
      if (modelStatus === known.infeasible || modelStatus === known.unboundedOrInfeasible)
        return { ...impossible, seconds };
      const found = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible;
      const bound = Number(model.info.get('mip_dual_bound'));
      return {
        status: modelStatus === known.optimal ? 'optimal' : 'stopped',
        columns: found ? this.whole(model.getSolution().colValue) : null,
        bound,
        seconds,
      };
    });
  }

  private whole(values: ArrayLike<number>): number[] {
    return Array.from(values, (value, index) => (this.columns[index]?.integer ? Math.round(value) : value));
  }

  /** The program with all its columns in shares. */
  inShares() {
    return { ...this.modelData(), integrality: this.columns.map(() => 0 as const) };
  }

  /** @returns the least in shares, with what one more of each column costs; null where there is none, or no time */
  solveInShares(highs: Highs, timeLimitS?: number): Shares {
    return highs.withModel(this.inShares(), (model): Shares => {
      // Looking for reductions takes longer than these programs do.
      model.options.set({ ...sharesSettings, ...(timeLimitS === undefined ? {} : { time_limit: timeLimitS }) });
      const { modelStatus } = model.run();
      const { optimal, infeasible, unboundedOrInfeasible } = highs.constants.modelStatus;
      const seconds = model.getRunTime();
      if (modelStatus === infeasible || modelStatus === unboundedOrInfeasible) return { status: 'infeasible', seconds };
      if (modelStatus !== optimal) return { status: 'stopped', seconds };
      const { colValue, colDual } = model.getSolution();
      return {
        status: 'optimal',
        value: model.getObjectiveValue(),
        columns: colValue,
        reducedCosts: colDual,

        seconds,
      };
    });
  }

  /** The program as HiGHS takes it. */
  modelData(cuts: readonly Row[] = []) {
    const rows = [...this.rows, ...cuts];
    const starts = [0];
    const indices: number[] = [];
    const values: number[] = [];
    for (const { terms } of rows) {
      for (const [column, coefficient] of summed(terms)) {
        indices.push(column);
        values.push(coefficient);
      }
      starts.push(indices.length);
    }
    const [numCols, numRows] = [this.columns.length, rows.length];
    return {
      numCols,
      numRows,
      colCost: this.columns.map((c) => c.cost),
      colLower: this.columns.map(() => 0),
      colUpper: this.columns.map((c) => c.upper),
      rowLower: rows.map((r) => r.lower),
      rowUpper: rows.map((r) => r.upper),
      matrix: { format: 'csr' as const, numRows, numCols, starts, indices, values },
      integrality: this.columns.map((c) => (c.integer ? (1 as const) : (0 as const))),
    };
  }
}

/** The answer of a program in shares. */
export type Shares =
  | {
      status: 'optimal';
      value: number;
      columns: Float64Array;
      reducedCosts: Float64Array;
      seconds: number;
    }
  | { status: 'infeasible'; seconds: number }
  | { status: 'stopped'; seconds: number };

/** How HiGHS is set for programs in shares: they are solved sooner than looked through for reductions. */
export const sharesSettings = { output_flag: false, presolve: 'off' };

const trivial: Solution = { status: 'optimal', columns: [], bound: 0, seconds: 0 };
const impossible: Solution = { status: 'infeasible', columns: null, bound: Infinity, seconds: 0 };

/** How HiGHS is set: no gap left, so that what it calls optimal is the least. */
export function solverSettings(columns: number, { timeLimitS, coarse = false }: SolveOptions) {
  return {
    output_flag: false,
    mip_rel_gap: 0,
    mip_abs_gap: 0,
    ...(coarse
      ? {}
      : { primal_feasibility_tolerance: feasibilityTolerance, mip_feasibility_tolerance: feasibilityTolerance }),
    // These programs are solved at the root; starting over there only costs time.
    mip_allow_restart: false,
    ...(columns > manyColumns ? { presolve: 'off', mip_detect_symmetry: false } : {}),
    ...(timeLimitS === undefined ? {} : { time_limit: timeLimitS }),
  };
}

/** A row names each column once. */
export function summed(terms: readonly Term[]): Map<number, number> {
  const sums = new Map<number, number>();
  for (const [column, coefficient] of terms) sums.set(column, (sums.get(column) ?? 0) + coefficient);
  return sums;
}

function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}

import type { Highs } from 'highs';
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';

/** What one solve was given. */
export interface Heard {
  settings: Record<string, unknown>;
  costs: number[];
  /** What the solver was given to begin with, by column; null where nothing. */
  start: ReadonlyMap<number, number> | null;
}

/** What a solve is made to answer in place of the truth. */
export interface Made {
  status?: 'timeLimit' | 'unboundedOrInfeasible';
  /** Says that it found no solution. */
  findsNothing?: boolean;
  bound?: number;
  seconds?: number;
  /** What it tells on the way. */
  tells?: { mip_primal_bound?: number; mip_dual_bound?: number };
  /** Changes the values of the columns found. */
  columns?: (values: number[]) => number[];
}

/** HiGHS, overheard: it solves as ever, without a time limit, and then says what it is made to, solve by solve. */
export async function overheard(...made: Made[]): Promise<{ solver: Highs; heard: Heard[] }> {
  const highs = await loadSolver();
  const { constants } = highs;
  const heard: Heard[] = [];
  const withModel = ((data: { colCost: number[] }, use: (model: unknown) => unknown) => {
    const { status, findsNothing, bound, seconds, tells, columns } = made[heard.length] ?? {};
    const one: Heard = { settings: {}, costs: data.colCost, start: null };
    heard.push(one);
    return highs.withModel(data as Parameters<typeof highs.createModel>[0] & object, (model) =>
      use({
        options: {
          set: ({ time_limit: timeLimit, ...others }: Record<string, unknown>) => {
            one.settings = { ...others, ...(timeLimit === undefined ? {} : { time_limit: timeLimit }) };
            model.options.set(others as Parameters<typeof model.options.set>[0]);
          },
        },
        setSolution: (start: { indices: number[]; values: number[] }) => {
          one.start = new Map(start.indices.map((column, n) => [column, start.values[n] ?? Number.NaN]));
          model.setSolution(start);
        },
        run: (callbacks?: Record<number, (event: { data: object }) => void>) => {
          if (tells) callbacks?.[constants.callbackType.mipLogging]?.({ data: tells });
          const run = model.run();
          return status === undefined ? run : { ...run, modelStatus: constants.modelStatus[status] };
        },
        info: {
          get: (name: 'mip_dual_bound' | 'primal_solution_status') => {
            if (name === 'mip_dual_bound' && bound !== undefined) return bound;
            if (name === 'primal_solution_status' && findsNothing) return constants.solutionStatus.none;
            return model.info.get(name);
          },
        },
        getSolution: () => {
          const solution = model.getSolution();
          const values = Array.from(solution.colValue);
          return { ...solution, colValue: columns ? columns(values) : values };
        },
        getRunTime: () => seconds ?? model.getRunTime(),
      }),
    );
  }) as unknown as Highs['withModel'];
  return { solver: { constants, withModel } as Highs, heard };
}

/** HiGHS, cold and as it comes, on the plain model of the same plan: what the planner is measured against. */
import type { Highs } from 'highs';
import type { Ask } from '../../reference/ask.ts';
import { plainModel } from '../../reference/secondSolver/plainModel.ts';
import { readded } from '../../reference/secondSolver/secondAnswer.ts';
import { TooLargeError } from '../../reference/secondSolver/stacks.ts';
import type { GeneratedTask } from '../../reference/tasks/generateTask.ts';
import { processorS } from './processor.ts';

export interface PlainRun {
  status: 'optimal' | 'stopped' | 'infeasible' | 'too large';
  stacks: number;
  columns: number;
  value: number | null;
  gap: number | null;
  /** Writing the model down, its stacks included. */
  modelS: number;
  solveS: number;
  /** Of the processor, for both. */
  processorS: number;
}

/** More stacks than this are not written down: HiGHS would not read them in the time, nor hold them. */
const stacksMax = 150_000;
const columnsMax = 400_000;

const nothing = { stacks: 0, columns: 0, value: null, gap: null };

export function runPlain(highs: Highs, { plan }: GeneratedTask, ask: Ask, limitS: number): PlainRun {
  const began = performance.now();
  const before = processorS();
  const sinceS = (from: number): number => (performance.now() - from) / 1000;
  try {
    const model = plainModel(plan, ask, { stacksMax, columnsMax });
    const modelS = sinceS(began);
    if (model === null)
      return { ...nothing, status: 'infeasible', modelS, solveS: 0, processorS: processorS() - before };
    const { program, stacks } = model;
    const size = { stacks, columns: program.columns.length, modelS };
    const solving = performance.now();
    return highs.withModel(program.forHighs(), (solver): PlainRun => {
      solver.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0, time_limit: limitS });
      const { modelStatus } = solver.run();
      const { modelStatus: known, solutionStatus } = highs.constants;
      const solveS = sinceS(solving);
      if (modelStatus === known.infeasible || modelStatus === known.unboundedOrInfeasible) {
        return { ...size, status: 'infeasible', value: null, gap: null, solveS, processorS: processorS() - before };
      }
      const found = solver.info.get('primal_solution_status') === solutionStatus.feasible;
      return {
        ...size,
        status: modelStatus === known.optimal ? 'optimal' : 'stopped',
        value: found ? readded(model, ask, [...solver.getSolution().colValue]) : null,
        gap: found ? Number(solver.info.get('mip_gap')) : null,
        solveS,
        processorS: processorS() - before,
      };
    });
  } catch (error) {
    if (!(error instanceof TooLargeError)) throw error;
    return { ...nothing, status: 'too large', modelS: sinceS(began), solveS: 0, processorS: processorS() - before };
  }
}

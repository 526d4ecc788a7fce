/**
 * A longer comparison of the program with the second solver: `npx tsx tests/bench/tasks/secondSolver.ts [first
 * seed] [how many]`, from seed 201 on 1,000 plans where nothing is said.
 */
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { judge } from '../../reference/judge.ts';
import { middlePlan } from '../../reference/secondSolver/middlePlan.ts';
import { secondAnswer } from '../../reference/secondSolver/secondAnswer.ts';
import { findSolver, notRunHere } from '../../reference/secondSolver/solvers.ts';

const [first = 201, count = 1000] = process.argv.slice(2).map(Number);
const say = (text: string): void => void process.stdout.write(`${text}\n`);
const solver = findSolver();

if (solver === null) say(notRunHere);
else {
  let differing = 0;
  let feasible = 0;
  for (let seed = first; seed < first + count; seed++) {
    const { plan, options } = middlePlan(seed);
    const least = secondAnswer(plan, options, solver);
    const result = await planBag(readPlan(JSON.stringify(plan)), options);
    const value = result.objective?.value ?? null;
    // The judge writes out every stack and hold together: for plans with a loss, which are small, that is quick.
    const faults = options.tolerance === 'nothing' ? [] : judge(plan, options, result);
    const agree =
      result.status === (least === null ? 'infeasible' : 'optimal') &&
      Math.abs((value ?? 0) - (least ?? 0)) <= 1e-9 * (least ?? 0);
    if (least !== null) feasible += 1;
    if (agree && faults.length === 0) continue;
    differing += 1;
    say(
      `seed ${seed}, least ${options.minimise}, ${options.tolerance} lost: ${result.status} ${value}, ${solver.name} ${least}`,
    );
    for (const { rule, where, says } of faults) say(`  ${rule}, ${where}: ${says}`);
  }
  say(`${count} plans, ${feasible} with a bag, ${differing} answered otherwise than by ${solver.name}`);
  process.exitCode = differing === 0 ? 0 : 1;
}

/**
 * The bag of the program against a second solver that knows nothing of it: a plain model written from the rules alone,
 * solved by cbc or glpsol, on plans of 6 to 20 steps and 30 to 100 items, everything mixed; here the first five. A
 * failure names the seed: `middlePlan(seed)` of `tests/reference/secondSolver` gives the plan again, and
 * `npx tsx tests/bench/tasks/secondSolver.ts 1 200` compares the first two hundred, or as many as wanted.
 */
import { comparePlans } from './secondSolverPlans.ts';

comparePlans(1, 5);

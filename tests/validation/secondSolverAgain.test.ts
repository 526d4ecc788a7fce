/** Five more of the plans that `secondSolver.test.ts` begins. */
import { comparePlans } from './secondSolverPlans.ts';

comparePlans(101, 5);

/**
 * The bag of the program against an exhaustive search that shares no code with it, on 2,000 random plans of at most 12
 * pieces with losses, things kept and forbidden, and spares; and proof that this comparison would notice a break of
 * each rule. A failure names the seed: `randomPlan(seed)` of `tests/reference` gives the plan again. Here the first
 * quarter.
 */
import { comparePlans } from './leastBagPlans.ts';

comparePlans({ share: 0, shares: 4, planCount: 500 });

/** The fourth quarter of the plans that `leastBag.test.ts` begins. */
import { comparePlans } from './leastBagPlans.ts';

comparePlans({ share: 3, shares: 4, planCount: 500 });

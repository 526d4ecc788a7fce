/** The third quarter of the plans that `leastBag.test.ts` begins. */
import { comparePlans } from './leastBagPlans.ts';

comparePlans({ share: 2, shares: 4, planCount: 500 });

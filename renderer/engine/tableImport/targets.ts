import { asRunTarget } from './asRunTarget.ts';
import { calloutTarget } from './calloutTarget.ts';
import { itemTarget } from './itemTarget.ts';
import { stepTarget } from './stepTarget.ts';
import type { ImportTarget, TargetName } from './importTarget.ts';

/** What tables can be brought in as. */
export const importTargets: Record<TargetName, ImportTarget> = {
  callouts: calloutTarget,
  'as-run': asRunTarget,
  items: itemTarget,
  steps: stepTarget,
};

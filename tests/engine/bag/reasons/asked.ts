import { planBag } from '../../../../renderer/engine/bag/planBag.ts';
import type { ReasonsOptions } from '../../../../renderer/engine/bag/reasons/ask.ts';
import { bagReasons } from '../../../../renderer/engine/bag/reasons/bagReasons.ts';
import { planFrom } from '../../../../renderer/engine/plan/readPlan.ts';
import type { ReasonPart } from '../../../../shared-types/bagReasons.ts';
import type { Edit } from '../../../support/editJson.ts';
import { smallPlan } from '../../../support/smallPlan.ts';

/** The small plan with an edit, planned, and what its reasons are. */
export async function reasonsOf(edit: Edit, parts?: readonly ReasonPart[], options: Partial<ReasonsOptions> = {}) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const { wishes, tolerance, ...rest } = { minimise: 'mass' as const, ...options };
  const asking = { ...rest, ...wishes, ...(tolerance ? { tolerance } : {}) };
  const result = await planBag(plan, asking);
  return { plan, result, reasons: await bagReasons(plan, result, { minimise: 'mass', ...options }, parts) };
}

/** A loosening step that is like the small plan's first, elsewhere. */
export const anotherStep = (bend: Record<string, unknown>) => ({ ...smallPlan().steps[0], ...bend });

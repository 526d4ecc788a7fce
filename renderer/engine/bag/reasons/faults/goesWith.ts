import type { Limit } from '../../../../../shared-types/bagReasons.ts';
import type { ReasonsOptions } from '../ask.ts';
import { askToTheEnd } from '../ask.ts';
import type { Wished } from '../relaxed.ts';
import { relaxed } from '../relaxed.ts';

/** Whether a plan has a bag with some limits lifted, or set to a figure. */
export async function goesWith(
  core: Wished,
  limits: readonly Limit[],
  options: ReasonsOptions,
  figure: number | null = null,
): Promise<boolean> {
  const eased = relaxed(core, limits, () => figure);
  return (await askToTheEnd(eased.plan, { ...options, wishes: eased.wishes })).total !== null;
}

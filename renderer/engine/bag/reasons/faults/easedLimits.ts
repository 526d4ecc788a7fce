import type { EasedLimit, MeasuredLimit, StepConflict } from '../../../../../shared-types/bagReasons.ts';
import type { ReasonsOptions } from '../ask.ts';
import { goesWith } from './goesWith.ts';
import { leastThatDoes } from './leastThatDoes.ts';
import { limitsOf } from '../limitsOf.ts';
import { eachAlone, minimalPart } from '../minimalPart.ts';
import type { Wished } from '../relaxed.ts';

/** No more ways out than this are measured. */
const easedMost = 6;

/**
 * What stands in the way of steps that do not go together: the limits each of which alone, eased far enough, lets them;
 * where none does, a smallest set of limits that do together. Stock of what is not there at all is looked at last:
 * a piece that both steps want says more than one that might be bought.
 */
export async function easedLimits(
  core: Wished,
  outing: string,
  options: ReasonsOptions,
): Promise<Pick<StepConflict, 'eased' | 'easedTogether'>> {
  const together = (list: readonly MeasuredLimit[]): Promise<boolean> =>
    goesWith(
      core,
      list.map(({ limit }) => limit),
      options,
    );
  const all = limitsOf(core.plan, outing, core.wishes, null);
  const there = all.filter(({ limit, allowed }) => limit.kind !== 'stock' || allowed !== 0);
  for (const list of [there, all]) {
    const alone = await eachAlone(list, together);
    if (alone.length > 0) {
      const eased: EasedLimit[] = [];
      for (const limit of alone.slice(0, easedMost)) eased.push(await measured(core, limit, options));
      return { eased, easedTogether: [] };
    }
    const least = await minimalPart(list, together);
    if (least) return { eased: [], easedTogether: least };
  }
  return { eased: [], easedTogether: [] };
}

async function measured(core: Wished, limit: MeasuredLimit, options: ReasonsOptions): Promise<EasedLimit> {
  const { needs, least } = await leastThatDoes(core, limit, options);
  return { ...limit, used: null, needs, least };
}

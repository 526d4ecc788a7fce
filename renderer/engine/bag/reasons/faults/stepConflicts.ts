import type { StepConflict } from '../../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../../plan/resolved.ts';
import type { ReasonsOptions } from '../ask.ts';
import { asFarAsTimeGoes, askToTheEnd, noWishes } from '../ask.ts';
import { oneOuting, onlySteps, wishesOn } from '../derived.ts';
import { easedLimits } from './easedLimits.ts';
import { minimalPart } from '../minimalPart.ts';
import { conflictSentence } from './sentences.ts';

/** How many conflicts of one outing are looked for. */
const conflictsMost = 5;

/**
 * Steps of one outing which do not go together though every part of them does: a smallest set of them, then another
 * among the steps left, until what is left can be packed. No step is in two of them; steps that the planner names as
 * impossible by themselves are in none. A conflict of one step is with the bags or the stock alone, one of no steps
 * with the wishes. Where a question runs out of time, the conflicts proven until then.
 *
 * @param limits.most - no more conflicts than this are looked for
 * @param limits.except - steps of which it is known already why they are impossible
 */
export async function stepConflicts(
  plan: ResolvedPlan,
  outing: string,
  options: ReasonsOptions,
  { most = conflictsMost, except = [] }: { most?: number; except?: readonly string[] } = {},
): Promise<StepConflict[]> {
  const alone = oneOuting(plan, outing);
  const { tolerance = 'nothing' } = options;
  const asking = { ...options, wishes: wishesOn(options.wishes ?? noWishes, outing) };
  const impossible = async (steps: readonly string[]): Promise<boolean> =>
    (await askToTheEnd(onlySteps(alone, steps), asking)).outcome === 'infeasible';

  const conflicts: StepConflict[] = [];
  await asFarAsTimeGoes(async () => {
    let rest = await withoutImpossible(alone, except, asking);
    while (conflicts.length < most) {
      const steps = await minimalPart(rest, impossible);
      if (!steps) break;
      rest = rest.filter((id) => !steps.includes(id));
      const core = { plan: onlySteps(alone, steps), wishes: asking.wishes };
      const eased = await easedLimits(core, outing, asking);
      conflicts.push({
        outing,
        tolerance,
        steps,
        ...eased,
        reason: conflictSentence(plan, { outing, steps, ...eased }),
      });
      if (steps.length === 0) break;
    }
  });
  return conflicts;
}

/** Ids of the steps that neither are excepted nor named by the planner as impossible by themselves. */
async function withoutImpossible(
  plan: ResolvedPlan,
  except: readonly string[],
  options: ReasonsOptions,
): Promise<string[]> {
  let rest = plan.steps.map(({ id }) => id).filter((id) => !except.includes(id));
  for (;;) {
    const { outcome, result } = await askToTheEnd(onlySteps(plan, rest), options);
    const named = new Set(outcome === 'infeasible' ? result.infeasible.flatMap(({ step }) => step ?? []) : []);
    const left = rest.filter((id) => !named.has(id));
    if (left.length === rest.length) return rest;
    rest = left;
  }
}

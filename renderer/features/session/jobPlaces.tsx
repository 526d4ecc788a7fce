import type { ReactNode } from 'react';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { planProblems } from '../../engine/outing/planProblems.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import type { JobPlace } from '../../components/JobLine/JobLine.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { KeptResult } from '../../store/session.ts';
import { placeAddress } from '../../store/place.ts';
import type { PlaceName } from '../../store/place.ts';
import { gapText, stateOf } from '../bag/BagHeading.tsx';
import type { Counts } from '../steps/judging.ts';
import { countOf } from '../steps/words.ts';

interface Job {
  plan: ResolvedPlan;
  /** Records that cannot be read yet. */
  missing: readonly Missing[];
  counts: Counts;
  kept: KeptResult | null;
  /** The last answer is of an earlier state of the task. */
  former: boolean;
  planning: boolean;
  at: PlaceName;
  /** Id of the outing the sheet at hand is about; it goes along from sheet to sheet. */
  outing: string | undefined;
}

function bagWord(kept: KeptResult | null, planning: boolean, former: boolean): ReactNode {
  if (planning) return 'planning';
  if (kept === null) return former ? 'to plan again' : 'not planned';
  const { result } = kept;
  const state = stateOf(result);
  if (state === 'infeasible') return <StateMark state="infeasible" text={countOf(result.infeasible.length, 'fault')} />;
  if (state === 'proved-least') return <StateMark state="proved-least" />;
  return (
    <StateMark
      state="not-proved"
      text={result.objective === null ? 'none found' : `bound ${gapText(result.objective.gap)}`}
    />
  );
}

function bagDone(kept: KeptResult | null): number {
  if (kept === null || kept.result.objective === null) return 0;
  return kept.result.status === 'optimal' ? 1 : 1 - kept.result.objective.gap;
}

function manifestWord(kept: KeptResult | null, outing: string | undefined): string {
  if (kept === null) return 'needs a bag';
  const { outings, problems } = kept.result;
  if (!outings.some(({ id }) => outing === undefined || id === outing)) return 'no bag';
  return problems.length > 0 ? `ready, ${countOf(problems.length, 'problem')}` : 'ready to preview';
}

/** A step out of reach has a card too, which says so. */
function cardsWord(kept: KeptResult | null): string {
  if (kept === null) return 'need a bag';
  const { outings, infeasible } = kept.result;
  if (infeasible.length > 0) return 'ready, not all reached';
  return outings.length === 0 ? 'no bag' : 'ready to preview';
}

function outingsWord(plan: ResolvedPlan): ReactNode {
  const problems = planProblems(plan);
  const [first] = problems;
  if (first === undefined) return countOf(plan.outings.length, 'outing');
  return <StateMark state={first.rule} text={countOf(problems.length, 'problem')} />;
}

/** The places of the job with how far each is done and what it lacks. */
export function jobPlaces({ plan, missing, counts, kept, former, planning, at, outing }: Job): JobPlace[] {
  const { reached, notReached, byHand } = counts;
  const incomplete = missing.filter(({ table }) => table === 'steps').length;
  const steps = plan.steps.length + incomplete;
  const along = outing === undefined ? {} : { outing };
  return [
    {
      name: 'Steps',
      address: placeAddress({ at: 'steps' }),
      current: at === 'steps',
      done: steps === 0 ? 0 : (reached + byHand) / steps,
      word:
        steps === 0 ? (
          'none yet'
        ) : incomplete > 0 ? (
          <StateMark state="no-stack" text={`${incomplete} not complete`} />
        ) : notReached > 0 ? (
          <StateMark state="not-reached" text={`${notReached} not reached`} />
        ) : (
          countOf(steps, 'step')
        ),
    },
    {
      name: 'Outings',
      address: placeAddress({ at: 'outings', ...along }),
      current: at === 'outings',
      done: plan.outings.length === 0 ? 0 : 1,
      word: plan.outings.length === 0 ? 'none yet' : outingsWord(plan),
    },
    {
      name: 'Bag',
      address: placeAddress({ at: 'bag', ...along }),
      current: at === 'bag',
      done: steps === 0 ? 0 : bagDone(kept),
      word: steps === 0 && !planning ? 'needs steps' : bagWord(kept, planning, former),
    },
    {
      name: 'Manifest',
      address: placeAddress({ at: 'manifest', ...along }),
      current: at === 'manifest' || at === 'revisions' || at === 'frozen',
      done: 0,
      word: steps === 0 ? 'needs steps' : manifestWord(kept, outing),
    },
    {
      name: 'Cards',
      address: placeAddress({ at: 'cards', ...along }),
      current: at === 'cards',
      done: 0,
      word: steps === 0 ? 'needs steps' : cardsWord(kept),
    },
  ];
}

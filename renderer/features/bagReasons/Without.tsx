import { useMemo } from 'react';
import type { BagOuting, CheckFailure, ClosestFit } from '../../../shared-types/bag.ts';
import type { WithoutItem } from '../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { once } from '../bag/amounts.ts';
import { withNames } from '../bag/Findings.tsx';
import { stackText } from '../steps/ClosestFits.tsx';
import { shownFigure } from '../steps/shownText.ts';
import { checkWords, countOf, fewNumbersText } from '../steps/words.ts';
import { instead } from './reasonWords.ts';
import type { ReasonsState } from './useReasons.ts';
import { withoutItem } from './withoutItem.ts';

export interface WithoutProps {
  plan: ResolvedPlan;
  outing: BagOuting;
  item: string;
  reasons: ReasonsState;
  units: UnitsShown;
}

/** What the planner gives where an item is left at home, all of it or one piece. */
export function Without({ plan, outing, item, reasons, units }: WithoutProps) {
  const found = reasons.found.without.filter(({ outing: of, id }) => of === outing.id && id === item);
  if (found.length === 0)
    return (
      <>
        <StepByStep plan={plan} outing={outing} item={item} units={units} />
        <div className="bw-second">
          {reasons.kind === 'running' ? 'Each step judged alone; the planner is still being asked.' : null}
          {reasons.kind === 'failed'
            ? `Each step judged alone; the planner could not be asked: ${reasons.refusal ?? 'no reason given'}.`
            : null}
        </div>
      </>
    );
  return (
    <>
      {found.map((one) => (
        <div key={one.left}>
          {one.left === 0 ? null : (
            <b>
              With {one.left} of {one.packed}:{' '}
            </b>
          )}
          <One plan={plan} found={one} units={units} />
          {one.againstWish ? ' (It is kept by wish; this is what the planner does without that wish.)' : ''}
        </div>
      ))}
    </>
  );
}

function One({ plan, found, units }: { plan: ResolvedPlan; found: WithoutItem; units: UnitsShown }) {
  const { outcome, fails, conflicts } = found;
  if (outcome !== 'infeasible') return <>{instead(plan, found, units)}</>;
  const numbers = new Map(plan.steps.map(({ id }, index) => [id, index + 1]));
  const failing = [...new Set(fails.flatMap(({ step }) => (step === undefined ? [] : [numbers.get(step) ?? 0])))];
  const nearest = fails.flatMap(({ closest }) => closest).find(({ stack }) => stack.length > 0);
  const [miss] = nearest?.fails ?? [];
  return (
    <>
      {failing.length === 0 ? null : (
        <>
          <b>{countOf(failing.length, 'step fails', 'steps fail')}</b>: {fewNumbersText(failing)}.{' '}
        </>
      )}
      {failing.length > 0
        ? null
        : [...conflicts, ...fails]
            .slice(0, 1)
            .map(({ reason }) => <span key={reason}>The bag fails: {withNames(plan, reason)}</span>)}
      <NearestFit plan={plan} nearest={nearest} miss={miss} units={units} />
    </>
  );
}

/** What becomes of the steps that need it, each against the rest of the stock: known at once. */
function StepByStep({ plan, outing, item, units }: Omit<WithoutProps, 'reasons'>) {
  const { failing, otherwise } = useMemo(() => {
    const because = outing.items.filter(({ id }) => id === item).flatMap((line) => line.because);
    return withoutItem(plan, { id: item, because });
  }, [plan, outing, item]);
  const numbers = new Map(plan.steps.map(({ id }, index) => [id, index + 1]));
  const numbersOf = (ids: string[]): string => fewNumbersText(ids.flatMap((id) => numbers.get(id) ?? []));
  const stacks = new Map<string, string[]>();
  for (const { step, judgement } of otherwise) {
    const stack = stackText(plan, judgement.best?.stack ?? []);
    stacks.set(stack, [...(stacks.get(stack) ?? []), step.id]);
  }
  const nearest = failing.flatMap(({ judgement }) => judgement?.closest ?? []).find(({ stack }) => stack.length > 0);
  const [miss] = nearest?.fails ?? [];
  return (
    <>
      {failing.length === 0 ? null : (
        <div>
          <b>{countOf(failing.length, 'step fails', 'steps fail')}</b>: {numbersOf(failing.map(({ step }) => step.id))}
          {failing.every(({ judgement }) => judgement === null) ? ', whose gear it is' : ''}.
        </div>
      )}
      <NearestFit plan={plan} nearest={nearest} miss={miss} units={units} />
      {[...stacks].map(([stack, ids]) => (
        <div key={stack}>
          {ids.length === 1 ? 'Step' : 'Steps'} {numbersOf(ids)} would take {stack}.
        </div>
      ))}
    </>
  );
}

function NearestFit(props: {
  plan: ResolvedPlan;
  nearest: ClosestFit | undefined;
  miss: CheckFailure | undefined;
  units: UnitsShown;
}) {
  const { plan, nearest, miss, units } = props;
  if (nearest === undefined || miss === undefined) return null;
  return (
    <div>
      Nearest: {stackText(plan, nearest.stack)}, {checkWords[miss.check].toLowerCase()}: has{' '}
      {shownFigure(miss.check, miss.have, once(units))}, needs {shownFigure(miss.check, miss.need, once(units))}.
    </div>
  );
}

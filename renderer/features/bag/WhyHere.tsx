import { useMemo } from 'react';
import type { Ref } from 'react';
import type { BagItem, BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { stackText } from '../steps/ClosestFits.tsx';
import { shownFigure } from '../steps/shownText.ts';
import { checkWords, countOf, fewNumbersText, itemName } from '../steps/words.ts';
import { once } from './amounts.ts';
import { withoutItem } from './without.ts';

export interface WhyHereProps {
  plan: ResolvedPlan;
  outing: BagOuting;
  item: BagItem;
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
}

function useNumbers(plan: ResolvedPlan): (ids: string[]) => string {
  const numbers = useMemo(() => new Map(plan.steps.map(({ id }, index) => [id, index + 1])), [plan]);
  return (ids) => fewNumbersText(ids.flatMap((id) => numbers.get(id) ?? []));
}

/** Why a line is in the bag: where it is needed and with what, and what fails where it is not there. */
export function WhyHere({ plan, outing, item, units, headingRef }: WhyHereProps) {
  const numbersOf = useNumbers(plan);
  const { failing, otherwise } = useMemo(() => withoutItem(plan, item), [plan, item]);
  const piece = plan.carried.get(item.id);
  const uses = outing.steps.filter(({ id }) => item.because.includes(id));
  const partners = new Map<string, string[]>();
  for (const { id, stack, hold } of uses) {
    const own = [stack, hold ?? []].find((parts) => parts.includes(item.id)) ?? [];
    const rest = own.filter((part) => part !== item.id);
    const key = own.length === 0 ? 'as gear' : rest.length === 0 ? 'alone' : `with ${stackText(plan, rest)}`;
    partners.set(key, [...(partners.get(key) ?? []), id]);
  }
  const instead = new Map<string, string[]>();
  for (const { step, judgement } of otherwise) {
    const stack = stackText(plan, judgement.best?.stack ?? []);
    instead.set(stack, [...(instead.get(stack) ?? []), step.id]);
  }
  const nearest = failing.flatMap(({ judgement }) => judgement?.closest ?? []).find(({ stack }) => stack.length > 0);
  const [firstMiss] = nearest?.fails ?? [];
  return (
    <section className="bw-why" aria-labelledby="why-heading">
      <h3 id="why-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
        {itemName(plan, item.id)}: why it is here
      </h3>
      <dl className="bw-facts">
        <dt>Needed at</dt>
        <dd>
          {partners.size === 0 ? 'no step of its own' : null}
          {[...partners].map(([key, ids]) => (
            <div key={key}>
              {ids.length === 1 ? 'step' : 'steps'} {numbersOf(ids)}, {key}
            </div>
          ))}
        </dd>
        <dt>Without it</dt>
        <dd>
          {failing.length === 0 ? null : (
            <div>
              <b>{countOf(failing.length, 'step fails', 'steps fail')}</b>:{' '}
              {numbersOf(failing.map(({ step }) => step.id))}
              {failing.every(({ judgement }) => judgement === null) ? ', whose gear it is' : ''}.
            </div>
          )}
          {nearest === undefined || firstMiss === undefined ? null : (
            <div>
              Nearest: {stackText(plan, nearest.stack)}, {checkWords[firstMiss.check].toLowerCase()}: has{' '}
              {shownFigure(firstMiss.check, firstMiss.have, once(units))}, needs{' '}
              {shownFigure(firstMiss.check, firstMiss.need, once(units))}.
            </div>
          )}
          {[...instead].map(([stack, ids]) => (
            <div key={stack}>
              {ids.length === 1 ? 'Step' : 'Steps'} {numbersOf(ids)} would take {stack}.
            </div>
          ))}
        </dd>
        <dt>On hand</dt>
        <dd>
          {piece === undefined
            ? 'not in the catalog'
            : `${countOf(piece.onHand, 'piece')}, ${item.quantity} taken on this outing`}
        </dd>
      </dl>
      <p className="bw-source">“Without it” judges the steps against the rest of the stock, one step at a time.</p>
    </section>
  );
}

import { useMemo } from 'react';
import type { Ref } from 'react';
import { Button } from '@mantine/core';
import type { BagItem, BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { WishKind } from '../bagPlan/planDraft.ts';
import type { ReasonsState } from '../bagReasons/useReasons.ts';
import { Without } from '../bagReasons/Without.tsx';
import { stackText } from '../steps/ClosestFits.tsx';
import { countOf, fewNumbersText, itemName } from '../steps/words.ts';

export interface WhyHereProps {
  plan: ResolvedPlan;
  outing: BagOuting;
  item: BagItem;
  reasons: ReasonsState;
  units: UnitsShown;
  headingRef: Ref<HTMLHeadingElement>;
  /** What is asked of the item when it is planned again. */
  wished: readonly WishKind[];
  /** Null while nothing can be asked. */
  onWish: ((kind: WishKind) => void) | null;
}

const buttons: { kind: WishKind; label: string; said: string }[] = [
  { kind: 'keep', label: 'Keep always', said: 'is kept always' },
  { kind: 'forbid', label: 'Forbid', said: 'is forbidden' },
  { kind: 'spares', label: 'Add one spare', said: 'has a spare' },
];

/** Why a line is in the bag: where it is needed and with what, and what fails where it is not there. */
export function WhyHere({ plan, outing, item, reasons, units, headingRef, wished, onWish }: WhyHereProps) {
  const numbers = useMemo(() => new Map(plan.steps.map(({ id }, index) => [id, index + 1])), [plan]);
  const numbersOf = (ids: string[]): string => fewNumbersText(ids.flatMap((id) => numbers.get(id) ?? []));
  const piece = plan.carried.get(item.id);
  const partners = new Map<string, string[]>();
  for (const { id, stack, hold } of outing.steps.filter((step) => item.because.includes(step.id))) {
    const own = [stack, hold ?? []].find((parts) => parts.includes(item.id)) ?? [];
    const rest = own.filter((part) => part !== item.id);
    const key = own.length === 0 ? 'as gear' : rest.length === 0 ? 'alone' : `with ${stackText(plan, rest)}`;
    partners.set(key, [...(partners.get(key) ?? []), id]);
  }
  const asked = buttons.filter(({ kind }) => wished.includes(kind));
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
          <Without plan={plan} outing={outing} item={item.id} reasons={reasons} units={units} />
        </dd>
        <dt>On hand</dt>
        <dd>
          {piece === undefined
            ? 'not in the catalog'
            : `${countOf(piece.onHand, 'piece')}, ${item.quantity} taken in this bag`}
        </dd>
      </dl>
      {onWish === null ? null : (
        <div className="bw-why-wishes">
          {buttons
            .filter(({ kind }) => kind !== 'spares' || piece?.kind === 'gear')
            .map(({ kind, label }) => (
              <Button key={kind} size="xs" aria-pressed={wished.includes(kind)} onClick={() => onWish(kind)}>
                {label}
              </Button>
            ))}
        </div>
      )}
      <p className="bw-source" role="status">
        {asked.length === 0
          ? '“Without it” is what the planner gives when it is asked again without the item.'
          : `${item.id} ${asked.map(({ said }) => said).join(' and ')} in the form: plan again to see what that gives.`}
      </p>
    </section>
  );
}

import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { itemName, placeText } from './words.ts';

/** What a step takes besides a stack, and what changes its place in it. */
export function GearAndMoves({ plan, step }: { plan: ResolvedPlan; step: ResolvedStep }) {
  if (step.gear.length === 0 && step.moves.length === 0)
    return step.action === 'use' ? <p className="bw-second">This step takes no gear and moves nothing.</p> : null;
  return (
    <div className="bw-gear">
      {step.gear.length === 0 ? null : (
        <section aria-labelledby="gear-of-step">
          <h3 id="gear-of-step">Gear</h3>
          <ul>
            {step.gear.map(({ id, quantity }) => (
              <li key={id}>
                {quantity} × {itemName(plan, id)} <span className="bw-code">{id}</span>
                {plan.gear.get(id)?.consumed === true ? <span className="bw-second"> used up</span> : null}
              </li>
            ))}
          </ul>
        </section>
      )}
      {step.moves.length === 0 ? null : (
        <section aria-labelledby="moves-of-step">
          <h3 id="moves-of-step">Moves</h3>
          <ul>
            {step.moves.map(({ id, quantity, from, to }, index) => (
              <li key={index}>
                {quantity} × {itemName(plan, id)}: from {placeText(plan, from)} to {placeText(plan, to)}
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

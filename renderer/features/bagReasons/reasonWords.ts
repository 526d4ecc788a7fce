import type { BagObjective } from '../../../shared-types/bag.ts';
import type { MeasuredLimit, Pieces, Proven, WithoutItem } from '../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText } from '../bag/amounts.ts';
import { itemName } from '../steps/words.ts';

type Unit = BagObjective['unit'];

const nothing = 1e-9;

/** "0.310 kg more", "1 piece less", "no more": a difference with its sign in words. */
export function moreText(value: number, unit: Unit, units: UnitsShown): string {
  if (Math.abs(value) < nothing)
    return unit === 'pieces' ? 'no piece more' : `no more ${unit === 'kg' ? 'mass' : 'volume'}`;
  return `${amountText(Math.abs(value), unit, units)} ${value > 0 ? 'more' : 'less'}`;
}

/** An amount that is proven, or between what is proven and what was found. */
export function provenText({ value, bound }: Proven, unit: Unit, units: UnitsShown): string {
  const most = amountText(value, unit, units);
  return value - bound < nothing ? most : `between ${amountText(bound, unit, units)} and ${most} (not proved)`;
}

/** "1 × Socket deep (S-18T) + 1 × …" */
function piecesText(plan: ResolvedPlan, pieces: readonly Pieces[]): string {
  return pieces
    .map(({ id, quantity }) => {
      const name = itemName(plan, id);
      return `${quantity} × ${name.includes(id) ? name : `${name} (${id})`}`;
    })
    .join(', ');
}

/** What the planner gives without an item: what comes in for it, and what that costs. */
export function instead(plan: ResolvedPlan, found: WithoutItem, units: UnitsShown): string {
  const { cost, comesIn, goesOut, unit, id } = found;
  if (cost === null) return 'Not known: out of time before a bag was found.';
  const others = goesOut.filter((piece) => piece.id !== id);
  const taken =
    comesIn.length === 0
      ? 'The rest of the bag would take its place'
      : `${piecesText(plan, comesIn)} would take its place`;
  const freed = others.length === 0 ? '' : `, and ${piecesText(plan, others)} would stay home`;
  const proved = found.outcome === 'proven' ? '' : ' at most (not proved)';
  return `${taken}${freed}: ${moreText(cost.value, unit, units)}${proved}.`;
}

/** A limit as the plan calls it. */
export function limitText(plan: ResolvedPlan, { limit }: MeasuredLimit): string {
  if (limit.kind === 'stock') return `Pieces on hand of ${itemName(plan, limit.id)}`;
  if (limit.kind === 'slot') return `Steps at the same time, slot ${limit.slot}`;
  if (!('bag' in limit)) {
    const wishes = { keep: 'Kept always', forbid: 'Forbidden', spares: 'Spares' } as const;
    return `${wishes[limit.kind]}: ${itemName(plan, limit.id)}`;
  }
  const bag = plan.bags.get(limit.bag)?.name ?? limit.bag;
  const words = {
    massMax: 'mass',
    volumeMax: 'volume',
    itemsMax: 'pieces',
    sizeMax: 'longest piece',
    tetherPoints: 'tether points',
  } as const;
  return `${bag}: ${words[limit.kind]}`;
}

/** "3.980 kg of 4.000 kg" */
export function usedText({ used, allowed, unit }: MeasuredLimit, units: UnitsShown): string {
  if (unit === null || allowed === null) return '';
  const amount = (value: number): string =>
    unit === 'tether points' ? `${showNumber(value)} tether points` : amountText(value, unit, units);
  return used === null ? `at most ${amount(allowed)}` : `${amount(used)} of ${amount(allowed)}`;
}

import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { CarriedBlock } from '../../components/BagMap/MapBag.tsx';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, once } from '../bag/amounts.ts';
import { findBlock } from './carrying.ts';
import type { MapRefusal } from './carrying.ts';
import type { MapBlock } from '../../engine/bagMap/mapBlocks.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';

export const howToMove =
  'Enter picks it up; then the arrows move it 10 mm, with Shift 1 mm, T turns it, Page Down takes it over the next ' +
  'pocket or bag, Enter sets it down and Escape puts it back. Of several pieces, − and + say how many are taken. With a pointer: ' +
  'drag it, or use the buttons below the bags.';

/** "2 of 3 × T-07": what is in the hand. */
export function takenText({ item, quantity }: MapBlock, pieces: number): string {
  if (quantity === 1) return item;
  return pieces === quantity ? `${quantity} × ${item}` : `${pieces} of ${quantity} × ${item}`;
}

const bagName = (plan: ResolvedPlan, id: string): string => plan.bags.get(id)?.name ?? id;

/** Where a carried block is held. */
export function heldText(
  plan: ResolvedPlan,
  { bag, xMm, yMm, turned }: CarriedBlock,
  units: UnitsShown,
  pocket: string | null = null,
): string {
  const mm = (value: number): string => amountText(value, 'mm', once(units));
  return `${mm(xMm)} from the left and ${mm(yMm)} from the top of ${bagName(plan, bag)}${pocket === null ? '' : `, in ${pocket}`}${turned ? ', turned' : ''}`;
}

/** Why it cannot lie there, with the number that stands in the way. */
export function refusedText(plan: ResolvedPlan, layout: MapLayout, refused: MapRefusal, units: UnitsShown): string {
  if (refused.why === 'place') {
    const { refusal } = refused;
    const by = amountText(Math.max(1, Math.ceil(refusal.byMm)), 'mm', once(units));
    if (refusal.kind === 'outside') return `No room there: ${by} past the ${refusal.side} of the bag.`;
    const other = findBlock(layout, refusal.key)?.laid.block.item ?? 'another';
    return `No room there: ${by} into the place of ${other}.`;
  }
  const { refusal, bag } = refused;
  const name = bagName(plan, bag);
  if (refusal.kind === 'role') return `${name} is ${refusal.role}’s: none of ${refusal.role}’s steps uses it.`;
  if (refusal.kind === 'short') return `${name} cannot take it: ${refusal.faults.join('; ')}.`;
  const { would, limit, unit } = refusal;
  if (unit === 'tether points' || unit === 'pieces')
    return `${name} would hold ${showNumber(would)} ${unit} of at most ${showNumber(limit)}: ${showNumber(would - limit)} over.`;
  const amount = (value: number): string => amountText(value, unit, once(units));
  return unit === 'mm'
    ? `Too long for ${name}: ${amount(would)} of at most ${amount(limit)}, ${amount(would - limit)} over.`
    : `${name} would hold ${amount(would)} of at most ${amount(limit)}: ${amount(would - limit)} over.`;
}

/** What was laid by hand and no longer lies so. */
export function fallenText(
  plan: ResolvedPlan,
  { gone, refused, fallen }: { gone: readonly LaidLine[]; refused: readonly LaidLine[]; fallen: readonly LaidLine[] },
): string | null {
  const items = (lines: readonly LaidLine[]): string => lines.map(({ item }) => item).join(', ');
  const said = [
    ...(gone.length === 0 ? [] : [`this plan does not pack it there: ${items(gone)}`]),
    ...(refused.length === 0
      ? []
      : [refused.map(({ item, to }) => `${bagName(plan, to)} does not take ${item} any more`).join(', ')]),
    ...(fallen.length === 0 ? [] : [`no room is left where it lay: ${items(fallen)}`]),
  ];
  return said.length === 0 ? null : `Laid by hand before, lies by itself now: ${said.join('; ')}.`;
}

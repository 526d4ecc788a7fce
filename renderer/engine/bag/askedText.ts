import type { BagResult, BagWishes, ItemWish, Tolerance } from '../../../shared-types/bag.ts';

const stands: Record<Tolerance, string> = {
  nothing: 'Stands no loss: one lost tool piece may stop a step.',
  piece: 'Stands the loss of any one tool piece: every step still has a stack among what is left.',
  bag: 'Stands the loss of any one bag with all it holds: every step still has a stack in the others.',
};

const asked: Record<Tolerance, string | null> = {
  nothing: null,
  piece: 'Asked to stand the loss of any one tool piece.',
  bag: 'Asked to stand the loss of any one bag with all it holds.',
};

/** What a bag stands, and what was asked of it beside the plan's steps, in sentences. */
export function askedLines({ objective, tolerance, wishes }: BagResult): string[] {
  const loss = objective ? stands[tolerance] : asked[tolerance];
  return [...(loss === null ? [] : [loss]), ...wishLines(wishes)];
}

function wishLines({ keep, forbid, spares }: BagWishes): string[] {
  const counted = ({ id, quantity, outing }: ItemWish): string => `${quantity} × ${id}${on(outing)}`;
  const listed = (what: string, list: readonly string[]): string[] =>
    list.length === 0 ? [] : [`${what}: ${list.join(', ')}.`];
  return [
    ...listed('Kept, at least', keep.map(counted)),
    ...listed(
      'Forbidden',
      forbid.map(({ id, outing }) => `${id}${on(outing)}`),
    ),
    ...listed('Spare, beyond the need', spares.map(counted)),
  ];
}

function on(outing: string | undefined): string {
  return outing === undefined ? '' : ` on ${outing}`;
}

import type { Deed, Discrepancy, Doer, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { isSome, returnState, shop } from '../../engine/return/index.ts';

export type How = NonNullable<Discrepancy['closed']>['how'];

/** A discrepancy as it is closed: by whom, how, in words. */
export function closedBy(one: Discrepancy, x: { at: string; by: Doer; how: How; words: string }): Discrepancy {
  const { at, by, how, words } = x;
  return { ...one, closed: { at, by, how, words } };
}

/**
 * What the record says of the pieces when a discrepancy is closed so: found ones are counted in, spent ones used, others left there. Nothing
 * of pieces that are given up or never went out, and nothing where they were counted in before.
 */
export function closingDeed(
  one: Discrepancy,
  x: { how: How; place: string; revision: Pick<Revision, 'content'>; events: readonly OutingEvent[] },
): Deed | null {
  const { how, place } = x;
  if (how === 'lost' || how === 'miscounted') return null;
  const line = returnState(x.revision, x.events, one.outing).lines.find(
    ({ bag, item }) => bag === one.bag && item === one.item,
  );
  if (line === undefined) return null;
  const amount = {
    pieces: Math.min(one.pieces, line.open.pieces),
    parts: Math.min(one.parts, line.open.parts),
  };
  if (!isSome(amount)) return null;
  const of = { bag: one.bag, item: one.item, ...amount };
  if (how === 'spent') return { kind: 'used', ...of };
  return how === 'found' ? { kind: 'back', ...of, place: place === '' ? shop : place } : { kind: 'left', ...of, place };
}

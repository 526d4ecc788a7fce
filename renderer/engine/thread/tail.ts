import type { Cursor } from './cursor.ts';

/**
 * What ends a designation: the tolerance class and the hand, in either order, to the end of the text.
 *
 * @throws RefusedError unreadable-thread where something else follows
 */
export function readTail(at: Cursor, classForm: RegExp): { class: string | null; hand: 'right' | 'left' } {
  const found: { class: string | null; hand: 'right' | 'left' | null } = { class: null, hand: null };
  for (;;) {
    at.take(/\s+$/);
    if (at.rest === '') return { class: found.class, hand: found.hand ?? 'right' };
    const start = at.index;
    at.take(/\s*-\s*|\s+/);
    const hand = at.take(/(?<hand>LH|RH)(?![A-Za-z0-9])/i)?.['hand'];
    if (hand !== undefined) {
      if (found.hand !== null) throw at.refuse('names the hand twice.', 'unreadable-thread', start);
      found.hand = hand.toUpperCase() === 'LH' ? 'left' : 'right';
      continue;
    }
    const named = at.take(new RegExp(`${classForm.source}(?![A-Za-z0-9])`, classForm.flags))?.['class'];
    if (named === undefined) throw at.refuse(`cannot be read from "${at.rest}" on.`);
    if (found.class !== null) throw at.refuse('names the class twice.', 'unreadable-thread', start);
    found.class = named;
  }
}

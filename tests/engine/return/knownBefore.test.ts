import { describe, expect, it } from 'vitest';
import type { Deed, Discrepancy, OutingEvent } from '../../../shared-types/records/revision.ts';
import {
  countFault,
  knownBefore,
  knownWords,
  plannedToComeHome,
  plannedToStay,
} from '../../../renderer/engine/return/index.ts';
import { discrepancy, eventsOf, twoPlan, twoRevision, wentOut } from '../../support/outAndBack.ts';

const tether = { bag: 'C', item: 'T-07' };
const left: Deed = { kind: 'left', ...tether, pieces: 2, parts: 4, place: 'foot' };
const home: Deed[] = [
  { kind: 'back', bag: 'L', item: 'R-38', pieces: 1, parts: 3, place: 'shop' },
  { kind: 'back', bag: 'L', item: 'S-13', pieces: 1, parts: 1, place: 'shop' },
  { kind: 'back', bag: 'Z', item: 'W-10', pieces: 2, parts: 2, place: 'shop' },
];
const lost: Deed = {
  kind: 'return-closed',
  reason: 'lost in the swell',
  second: { name: 'S. Second', role: 'checker' },
};

function known(deeds: readonly Deed[], discrepancies: Discrepancy[] = []) {
  const events: OutingEvent[] = eventsOf([...wentOut, ...deeds]);
  return knownBefore({
    ...{ plan: twoPlan, outing: 'p', revision: 'rev-2', revisions: [twoRevision], events, discrepancies },
  });
}

describe('what the plan has stay and come home', () => {
  it('follows its moves over the outings in order', () => {
    expect(plannedToStay(twoPlan, 'o')).toEqual([{ item: 'T-07', place: 'foot', pieces: 2, step: 'turn' }]);
    expect(plannedToStay(twoPlan, 'p')).toEqual([]);
    expect(plannedToComeHome(twoPlan, 'p')).toEqual([{ item: 'T-07', place: 'foot', pieces: 2, step: 'fetch' }]);
    expect(plannedToComeHome(twoPlan, 'o')).toEqual([]);
  });
});

describe('what is known before the next outing', () => {
  it('is nothing before anything has left', () => {
    const none = knownBefore({
      ...{ plan: twoPlan, outing: 'p', revision: null, revisions: [twoRevision], events: [], discrepancies: [] },
    });
    expect(knownWords(none, twoPlan)).toEqual([]);
  });

  it('says what lies where, and what is missing since which discrepancy', () => {
    const words = knownWords(known([...home, left, lost], [discrepancy()]), twoPlan);
    expect(words).toEqual([
      '1 piece of T-07 Tool tether is missing since First outing, discrepancy D-1; last seen in Common box, as it left.',
      '2 pieces of T-07 Tool tether lie at Mast foot since First outing (revision 2, event 10).',
    ]);
  });

  it('says what came home although planned to stay, and what is still out', () => {
    const came = knownWords(
      known([...home, { kind: 'back', ...tether, pieces: 3, parts: 6, place: 'shop' }, lost]),
      twoPlan,
    );
    expect(came).toEqual([
      'The plan counts on 2 of T-07 Tool tether at Mast foot; none lies there. 2 came home although planned to stay.',
    ]);
    expect(knownWords(known([...home, left]), twoPlan).at(-1)).toBe(
      '1 piece of T-07 Tool tether is still out with First outing (revision 2), not counted in yet.',
    );
  });

  it('keeps a piece that is elsewhere from being counted', () => {
    const before = known([...home, left, lost], [discrepancy()]);
    expect(before.away).toEqual(new Map([['T-07', 3]]));
    const asked = { item: 'T-07', onHand: 9, counted: 4 };
    expect(countFault(before, { ...asked, pieces: 2 }, twoPlan)).toBeNull();
    expect(countFault(before, { ...asked, pieces: 3 }, twoPlan)).toMatch(
      /^7 of T-07 cannot be here: the stock has 9, and 3 are elsewhere\. 1 piece of T-07 Tool tether is missing/,
    );
    expect(countFault(before, { ...asked, pieces: 1, label: '100000700128' }, twoPlan)).toMatch(
      /^The piece with label 100000700128 went out and was not counted in since\./,
    );
    expect(countFault(before, { item: 'R-38', onHand: 1, counted: 0, pieces: 1 }, twoPlan)).toBeNull();
  });

  it('counts what was miscounted as never gone, and what is lost as away', () => {
    const closed = (how: 'miscounted' | 'lost') =>
      discrepancy({ closed: { at: '2026-11-27T08:00:00+01:00', by: { name: 'A', role: 'b' }, how, words: 'x' } });
    expect(known([...home, left, lost], [closed('miscounted')]).away.get('T-07')).toBe(2);
    expect(known([...home, left, lost], [closed('lost')]).away.get('T-07')).toBe(3);
    expect(knownWords(known([...home, left, lost], [closed('lost')]), twoPlan)[0]).toContain('is given up as lost');
    expect(knownWords(known([...home, left, lost], [closed('miscounted')]), twoPlan)[0]).not.toContain('D-1');
  });

  it('does not ask the outing that is being packed about itself, but an earlier revision of it', () => {
    const events = eventsOf([...wentOut, ...home]);
    const request = { plan: twoPlan, outing: 'o', revisions: [twoRevision], events, discrepancies: [] };
    expect(knownBefore({ ...request, revision: 'rev-2' }).out).toEqual([]);
    expect(knownBefore({ ...request, revision: 'rev-3' }).out).toMatchObject([{ item: 'T-07', pieces: 3 }]);
  });
});

import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../shared-types/records/revision.ts';
import {
  amountText,
  discrepanciesOf,
  noMoreLeft,
  openLines,
  returnFault,
  returnState,
} from '../../../renderer/engine/return/index.ts';
import type { ReturnState } from '../../../renderer/engine/return/index.ts';
import { standingEvents } from '../../../renderer/engine/record/standing.ts';
import { dice } from '../../reference/dice.ts';
import { discrepancy, eventsOf, twoRevision, wentOut } from '../../support/outAndBack.ts';

const after = (...deeds: Deed[]): ReturnState => returnState(twoRevision, eventsOf([...wentOut, ...deeds]), 'o');
const lineOf = (state: ReturnState, item: string) => {
  const line = state.lines.find((one) => one.item === item);
  if (line === undefined) throw new Error(`no line ${item}`);
  return line;
};
const tether = { bag: 'C', item: 'T-07' };
const back = (pieces: number, parts: number, place = 'shop'): Deed => ({
  kind: 'back',
  ...tether,
  pieces,
  parts,
  place,
});
const left = (pieces: number, parts: number, place = 'foot'): Deed => ({
  kind: 'left',
  ...tether,
  pieces,
  parts,
  place,
});
const atOf = (state: ReturnState, item = 'T-07') =>
  lineOf(state, item).at.map(({ how, place, pieces, parts }) => [how, place, pieces, parts]);

describe('what went out', () => {
  it('is what was counted in, not what was planned', () => {
    const deeds = wentOut.filter((deed) => !(deed.kind === 'counted' && deed.item === 'S-13'));
    const state = returnState(twoRevision, eventsOf(deeds), 'o');
    expect(state.lines.map(({ item, out }) => [item, out.pieces, out.parts])).toEqual([
      ['R-38', 1, 3],
      ['T-07', 3, 6],
      ['W-10', 2, 2],
    ]);
  });

  it('counts one label once, and nothing before the bags have left', () => {
    const twice = wentOut.flatMap((deed) =>
      deed.kind === 'counted' && deed.label !== undefined ? [deed, deed] : [deed],
    );
    expect(lineOf(returnState(twoRevision, eventsOf(twice), 'o'), 'T-07').out).toEqual({ pieces: 3, parts: 6 });
    expect(returnState(twoRevision, eventsOf(wentOut.slice(0, -1)), 'o')).toMatchObject({ issued: null, lines: [] });
  });

  it('is of its own outing alone, and what a later event takes back did not go', () => {
    const events = eventsOf([...wentOut.slice(0, -1), { kind: 'taken-back', of: 4 }, { kind: 'issued' }]);
    expect(lineOf(returnState(twoRevision, events, 'o'), 'T-07').out).toEqual({ pieces: 1, parts: 2 });
    expect(returnState(twoRevision, events, 'p').issued).toBeNull();
  });
});

describe('what comes back', () => {
  it('leaves open what no event accounts for, a part by itself too', () => {
    const state = after(
      back(2, 4),
      { kind: 'back', bag: 'L', item: 'R-38', pieces: 1, parts: 2, place: 'shop' },
      { kind: 'used', bag: 'Z', item: 'W-10', pieces: 1, parts: 1 },
    );
    expect(openLines(state).map(({ item, open }) => [item, open.pieces, open.parts])).toEqual([
      ['R-38', 0, 1],
      ['S-13', 1, 1],
      ['T-07', 1, 2],
      ['W-10', 1, 1],
    ]);
    const later = after(
      { kind: 'back', bag: 'L', item: 'R-38', pieces: 1, parts: 2, place: 'shop' },
      { kind: 'back', bag: 'L', item: 'R-38', pieces: 0, parts: 1, place: 'shop' },
    );
    expect(lineOf(later, 'R-38').open).toEqual({ pieces: 0, parts: 0 });
  });

  it('is not counted twice where it is counted on the way and in the shop', () => {
    expect(atOf(after(back(2, 4, 'boat'), back(2, 4)))).toEqual([['back', 'shop', 2, 4]]);
    expect(lineOf(after(back(2, 4, 'boat'), back(2, 4)), 'T-07').open.pieces).toBe(1);
    // From the shop nothing goes back to the landing.
    expect(atOf(after(back(2, 4), back(1, 2, 'boat')))).toEqual([
      ['back', 'shop', 2, 4],
      ['back', 'boat', 1, 2],
    ]);
  });

  it('leaves what lies somewhere on purpose where it lies', () => {
    const state = after(left(2, 4), back(1, 2));
    expect(atOf(state)).toEqual([
      ['left', 'foot', 2, 4],
      ['back', 'shop', 1, 2],
    ]);
    expect(returnFault(state, back(1, 2))).toBe('1 piece of T-07 is more than went out: all of it is accounted for');
  });

  it('refuses what cannot be, with the number, and a kept event that cannot be counts for nothing', () => {
    const state = after(back(2, 4));
    expect(returnFault(state, back(2, 4))).toBe('2 pieces of T-07 are more than the 1 piece still to be accounted for');
    expect(returnFault(state, back(1, 3))).toBe('1 piece of T-07 cannot have 3 parts');
    expect(returnFault(state, { ...back(1, 2), item: 'X-150' } as Deed)).toBe('nothing of X-150 went out in C');
    expect(returnFault(state, { kind: 'used', ...tether, pieces: 1, parts: 2 })).toContain(
      'is nothing that is used up',
    );
    expect(returnFault(state, back(0, 0))).toBe('it counts nothing');
    expect(returnFault(returnState(twoRevision, [], 'o'), back(1, 2))).toBe('nothing has gone out yet');
    const kept = after(back(2, 4), back(2, 4));
    expect(kept.faults).toEqual([{ no: 8, reason: expect.stringContaining('2 pieces of T-07 are more') }]);
    expect(lineOf(kept, 'T-07').open.pieces).toBe(1);
    expect(after(wentOut[0] ?? back(1, 2)).faults[0]?.reason).toBe('the bags had left when it was packed');
  });

  it('knows a piece by its label, and takes it in once', () => {
    const labelled: Deed = { kind: 'back', ...tether, pieces: 1, parts: 2, place: 'shop', label: '100000700128' };
    expect(lineOf(after(labelled), 'T-07').labelsBack.get('100000700128')).toBe('shop');
    expect(returnFault(after(labelled), labelled)).toBe('label 100000700128 is counted in there already');
  });

  it('takes what is used at a place from what was left there', () => {
    const wipes = { bag: 'Z', item: 'W-10', place: 'foot' };
    const state = after(
      { kind: 'left', ...wipes, pieces: 2, parts: 2 },
      { kind: 'used', ...wipes, pieces: 1, parts: 1 },
    );
    expect(atOf(state, 'W-10')).toEqual([['left', 'foot', 1, 1]]);
    expect(lineOf(state, 'W-10').used.pieces).toBe(1);
  });

  it('says where the hand was, and where a line was seen last', () => {
    expect(after().lastLine).toBeNull();
    const state = after({ kind: 'seen', ...tether, place: 'foot' }, back(1, 2));
    expect(state.lastLine).toEqual(tether);
    expect(lineOf(state, 'T-07').lastSeen).toMatchObject({ place: 'foot', event: 7, by: { name: 'R. Rigger' } });
    expect(lineOf(state, 'R-38').lastSeen).toMatchObject({ place: 'in Lead’s bag, as it left', event: 6 });
  });
});

describe('what lay somewhere and does so no more', () => {
  const moved = (deeds: Deed[], amount: { pieces: number; parts: number }): ReturnState => {
    const events = eventsOf([...wentOut, ...deeds]);
    const line = lineOf(returnState(twoRevision, events, 'o'), 'T-07');
    const more = noMoreLeft(line, events, { place: 'foot', amount, reason: 'brought home with Second outing' });
    return after(...deeds, ...more, back(amount.pieces, amount.parts));
  };

  it('comes home, and the rest stays', () => {
    expect(atOf(moved([left(1, 2), left(2, 4)], { pieces: 1, parts: 2 }))).toEqual([
      ['left', 'foot', 2, 4],
      ['back', 'shop', 1, 2],
    ]);
    expect(atOf(moved([left(1, 2), left(2, 4)], { pieces: 3, parts: 6 }))).toEqual([['back', 'shop', 3, 6]]);
  });

  it('is nothing where not so much lies there', () => {
    const events = eventsOf([...wentOut, left(1, 2)]);
    const line = lineOf(returnState(twoRevision, events, 'o'), 'T-07');
    expect(noMoreLeft(line, events, { place: 'foot', amount: { pieces: 2, parts: 4 }, reason: 'x' })).toEqual([]);
    expect(noMoreLeft(line, events, { place: 'boat', amount: { pieces: 1, parts: 2 }, reason: 'x' })).toEqual([]);
  });
});

describe('what a return is closed with', () => {
  it('has a discrepancy for each open line, with where it was seen last, by whom', () => {
    const drafts = discrepanciesOf(after(back(2, 4), { kind: 'seen', ...tether, place: 'under the grating' }), []);
    expect(drafts.map(({ item, pieces, parts }) => [item, pieces, parts])).toEqual([
      ['R-38', 1, 3],
      ['S-13', 1, 1],
      ['T-07', 1, 2],
      ['W-10', 2, 2],
    ]);
    expect(drafts[2]).toMatchObject({
      lastSeen: { place: 'under the grating', event: 8 },
      seenBy: { name: 'R. Rigger' },
      name: 'Tool tether',
    });
  });

  it('opens none twice, and one for what a found one no longer covers', () => {
    const state = after(back(1, 2));
    const tethers = (existing: Parameters<typeof discrepanciesOf>[1]) =>
      discrepanciesOf(state, existing).filter(({ item }) => item === 'T-07');
    expect(tethers([discrepancy()])).toMatchObject([{ pieces: 1, parts: 2 }]);
    expect(tethers([discrepancy({ pieces: 2, parts: 4 })])).toEqual([]);
    const closed = (how: 'found' | 'lost') => ({
      closed: { at: '2026-11-27T08:00:00+01:00', by: { name: 'A', role: 'b' }, how, words: 'x' },
    });
    expect(tethers([discrepancy({ ...closed('lost'), pieces: 2, parts: 4 })])).toEqual([]);
    expect(tethers([discrepancy({ ...closed('found'), pieces: 2, parts: 4 })])).toMatchObject([
      { pieces: 2, parts: 4 },
    ]);
  });
});

/** Some deed of a return, right or wrong. */
function someDeed({ pick, whole }: ReturnType<typeof dice>): Deed {
  const { bag, item, of } = pick([
    { bag: 'L', item: 'R-38', of: 3 },
    { bag: 'L', item: 'S-13', of: 1 },
    { bag: 'C', item: 'T-07', of: 2 },
    { bag: 'Z', item: 'W-10', of: 1 },
    { bag: 'C', item: 'nothing', of: 1 },
  ]);
  const pieces = whole(0, 3);
  const count = { bag, item, pieces, parts: whole(0, 1) === 0 ? pieces * of : whole(0, 4) };
  const place = pick(['shop', 'foot', 'boat']);
  return pick<Deed>([
    { kind: 'back', ...count, place },
    { kind: 'back', ...count, place: 'shop' },
    { kind: 'left', ...count, place },
    { kind: 'used', ...count },
    { kind: 'seen', bag, item, place },
    { kind: 'taken-back', of: whole(7, 30) },
    { kind: 'remark', words: 'wind rises' },
  ]);
}

describe('any events at all', () => {
  it('account for every piece and part exactly once, whatever was said', () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const chance = dice(seed);
      const state = after(...Array.from({ length: chance.whole(0, 30) }, () => someDeed(chance)));
      for (const { out, open, used, at } of state.lines) {
        for (const unit of ['pieces', 'parts'] as const) {
          expect(at.reduce((sum, one) => sum + one[unit], open[unit] + used[unit])).toBe(out[unit]);
          expect(Math.min(open[unit], used[unit], ...at.map((one) => one[unit]))).toBeGreaterThanOrEqual(0);
        }
      }
    }
  });

  it('are the same folded in any order of reading, and taking one back is as if it had not been', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const chance = dice(seed);
      const deeds = Array.from({ length: chance.whole(1, 20) }, () => someDeed(chance)).filter(
        ({ kind }) => kind !== 'taken-back',
      );
      const events = eventsOf([...wentOut, ...deeds]);
      const state = returnState(twoRevision, events, 'o');
      expect(returnState(twoRevision, events.toReversed(), 'o')).toEqual(state);
      const last = events.at(-1);
      if (last === undefined || deeds.length === 0) continue;
      const takenBack = [...events, ...eventsOf([{ kind: 'taken-back', of: last.no }], { from: last.no + 1 })];
      expect(returnState(twoRevision, takenBack, 'o')).toEqual(returnState(twoRevision, events.slice(0, -1), 'o'));
      // Twice is the same as once.
      const twice = [...takenBack, ...eventsOf([{ kind: 'taken-back', of: last.no }], { from: last.no + 2 })];
      expect(standingEvents(twice, 'o')).toEqual(standingEvents(takenBack, 'o'));
    }
  });

  it('never turn what the fold refuses into anything: asked before, it is refused with the same words', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const chance = dice(seed);
      const deeds: Deed[] = [];
      for (let at = 0; at < 15; at += 1) {
        const deed = someDeed(chance);
        if (deed.kind === 'taken-back') continue;
        const before = after(...deeds);
        deeds.push(deed);
        const fresh = after(...deeds).faults.find(({ no }) => no === wentOut.length + deeds.length);
        expect(fresh?.reason ?? null).toBe(returnFault(before, deed));
      }
    }
  });
});

describe('an amount in words', () => {
  it('says parts only where they are not whole', () => {
    expect(amountText({ pieces: 2, parts: 6 }, 3)).toBe('2 pieces');
    expect(amountText({ pieces: 1, parts: 2 }, 3)).toBe('1 piece with 2 of 3 parts');
    expect(amountText({ pieces: 0, parts: 1 }, 3)).toBe('1 part');
  });
});

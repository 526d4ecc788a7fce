import { describe, expect, it } from 'vitest';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { PastAnswer } from '../../../shared-types/records/window.ts';
import { pastMost, resultRecord } from '../../../shared-types/records/window.ts';
import { compareAnswers } from '../../../renderer/features/bagCompare/compareAnswers.ts';
import { answerText, outcomeText, signedText } from '../../../renderer/features/bagCompare/compareWords.ts';
import { pastOf, withAnswer } from '../../../renderer/store/pastAnswers.ts';
import { mapOuting, mapPlan, mapResult } from '../../support/bagMapPlan.ts';

const hash = 'a'.repeat(64);
const kept = (result: BagResult, at = '2026-11-25T10:00:00.000Z') =>
  ({ minimised: 'mass', timeLimitS: null, plannedAt: at, result }) as const;
const answer = (items: BagResult['outings'][number]['items'], massKg = mapOuting.massKg): PastAnswer =>
  pastOf(mapPlan, hash, kept({ ...mapResult, outings: [{ ...mapOuting, items, massKg }] }));

describe('two answers side by side', () => {
  const { items } = mapOuting;
  const [ratchet, socket, tether, wipes] = items;
  if (ratchet === undefined || socket === undefined || tether === undefined || wipes === undefined)
    throw new Error('the fixture has four lines');
  const one = answer(items);

  it('that are the same differ in nothing', () => {
    const { lines, same } = compareAnswers(one, answer(items));
    expect([lines, same]).toEqual([[], 4]);
  });

  it('name what only one packs, another quantity, and another bag', () => {
    const other = answer(
      [
        ratchet,
        { ...tether, quantity: 5 },
        { ...wipes, bag: 'C' },
        { id: 'X-150', quantity: 1, bag: 'L', because: [] },
      ],
      1.2,
    );
    const { lines, same, massKg, pieces } = compareAnswers(one, other);
    expect(
      lines.map(({ id, kind, pieces: more, massKg: kg }) => [id, kind, more, Math.round(kg * 1000) / 1000]),
    ).toEqual([
      ['S-13', 'only-one', -1, -0.15],
      ['T-07', 'quantity', 2, 0.096],
      ['W-10', 'bag', 0, 0],
      ['X-150', 'only-other', 1, 0.26],
    ]);
    expect(same).toBe(1);
    expect(massKg.other - massKg.one).toBeCloseTo(1.2 - mapOuting.massKg);
    expect(pieces).toEqual({ one: 7, other: 9 });
  });

  it('add up what each bag holds, and know a bag that one does not take', () => {
    const other = answer([ratchet, socket, { ...tether, bag: 'L' }, wipes]);
    const bags = compareAnswers(one, other).bags;
    expect(bags.map(({ id, one: a, other: b }) => [id, a?.pieces ?? null, b?.pieces ?? null])).toEqual([
      ['L', 2, 5],
      ['C', 3, null],
      ['Z', 2, 2],
    ]);
    expect(bags[0]?.other?.contentsKg).toBeCloseTo(0.3 + 0.15 + 0.144);
  });

  it('a line split between two bags is the same however it is ordered', () => {
    const split = [socket, { ...socket, bag: 'C' }];
    expect(compareAnswers(answer(split), answer(split.toReversed())).lines).toEqual([]);
  });
});

describe('differences in words', () => {
  it.each([
    [0.3104, '+0.310 kg'],
    [-0.3104, '−0.310 kg'],
    [0.0001, 'the same'],
  ])('%f kg is said as %s', (kg, words) => {
    expect(signedText(kg, 'kg', 'si')).toBe(words);
  });

  it('an answer says what was asked of it, and that it is of an earlier task', () => {
    const past = { ...answer(mapOuting.items), tolerance: 'piece' as const };
    expect(answerText(past, 'b'.repeat(64))).toMatch(/least mass, any one piece lost, earlier state of the task$/);
    expect(answerText(past, hash)).toMatch(/least mass, any one piece lost$/);
    expect(outcomeText(past, 'si')).toBe('0.834 kg, proved least');
    expect(outcomeText({ ...past, status: 'infeasible', objective: null }, 'si')).toBe('no bag does it');
  });
});

describe('the answers that are kept', () => {
  const past = (change: Partial<PastAnswer>): PastAnswer => ({ ...answer(mapOuting.items), ...change });

  it('are the last few, the newest first', () => {
    let all: PastAnswer[] = [];
    for (let index = 1; index <= pastMost + 3; index += 1) all = withAnswer(all, past({ timeLimitS: index }));
    expect(all.map(({ timeLimitS }) => timeLimitS)).toEqual([9, 8, 7, 6, 5, 4]);
  });

  it('hold one for each question: asked again of the same task it replaces the one before', () => {
    const first = withAnswer([], past({ plannedAt: '2026-11-25T10:00:00.000Z' }));
    const again = withAnswer(first, past({ plannedAt: '2026-11-25T11:00:00.000Z', tolerance: 'nothing' }));
    expect(again.map(({ plannedAt }) => plannedAt)).toEqual(['2026-11-25T11:00:00.000Z']);
    expect(withAnswer(again, past({ planHash: 'b'.repeat(64) }))).toHaveLength(2);
    expect(withAnswer(again, past({ tolerance: 'piece' }))).toHaveLength(2);
  });

  it('pass the schema of their record, as does a record from before they were kept', () => {
    const record = { ...kept(mapResult), id: 'task', rev: 1, planHash: hash };
    expect(resultRecord.safeParse(record).success).toBe(true);
    const { success, error } = resultRecord.safeParse({ ...record, past: [answer(mapOuting.items)] });
    expect([success, error?.issues]).toEqual([true, undefined]);
    expect(resultRecord.safeParse({ ...record, wishes: { keep: [{ id: 'x', quantity: 0 }] } }).success).toBe(false);
  });
});

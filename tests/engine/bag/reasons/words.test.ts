/** Reasons as they are read: sentences, lines of text, rows of CSV. */
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { bagCsv } from '../../../../renderer/engine/bag/bagCsv.ts';
import { bagText } from '../../../../renderer/engine/bag/bagText.ts';
import { reasonLines } from '../../../../renderer/engine/bag/reasons/reasonLines.ts';
import {
  limitReasonText,
  limitsTogetherText,
  toleranceText,
  withoutText,
} from '../../../../renderer/engine/bag/reasons/reasonText.ts';
import type { LimitReason, TolerancePoint, WithoutItem } from '../../../../shared-types/bagReasons.ts';
import { all, keep, put } from '../../../support/editJson.ts';
import { reasonsOf } from './asked.ts';

const without: WithoutItem = {
  outing: 'O1',
  id: 'X-3',
  packed: 2,
  left: 1,
  unit: 'kg',
  againstWish: false,
  outcome: 'proven',
  cost: { value: 0.09, bound: 0.09 },
  comesIn: [{ id: 'X-6', quantity: 1 }],
  goesOut: [{ id: 'X-3', quantity: 1 }],
  changed: [],
  fails: [],
  conflicts: [],
};
const fault = { reason: 'step a: no stack', step: 'a', closest: [] };

describe('without an item', () => {
  it.each<[Partial<WithoutItem>, string]>([
    [{}, 'without one of 2 × X-3: 0.09 kg more; in: 1 × X-6; out: 1 × X-3'],
    [{ left: 0 }, 'without all 2 × X-3: 0.09 kg more; in: 1 × X-6; out: 1 × X-3'],
    [{ packed: 1, left: 0, comesIn: [] }, 'without X-3: 0.09 kg more; out: 1 × X-3'],
    [{ cost: { value: 0, bound: 0 }, goesOut: [] }, 'without one of 2 × X-3: costs the same; in: 1 × X-6'],
    [
      { againstWish: true, cost: { value: -2, bound: -2 }, unit: 'pieces', comesIn: [] },
      'without one of 2 × X-3 (against the wish to keep it): 2 pieces less; out: 1 × X-3',
    ],
    [
      { outcome: 'stopped', cost: { value: 0.09, bound: -0.01 }, comesIn: [], goesOut: [] },
      'without one of 2 × X-3: 0.09 kg more (not proved, not below -0.01 kg)',
    ],
    [{ outcome: 'infeasible', cost: null, fails: [fault] }, 'without one of 2 × X-3: fails; step a: no stack'],
    [{ outcome: 'open', cost: null }, 'without one of 2 × X-3: not known: out of time'],
  ])('%#', (bend, said) => {
    expect(withoutText({ ...without, ...bend })).toBe(said);
  });
});

describe('what tolerance costs', () => {
  const point: TolerancePoint = {
    tolerance: 'piece',
    outcome: 'proven',
    unit: 'kg',
    total: { value: 4.2, bound: 4.2 },
    outings: [],
    stoppedBy: [],
    conflicts: [],
    losses: [],
  };
  it.each<[Partial<TolerancePoint>, string]>([
    [{}, 'any one piece may be lost: 4.2 kg (proved)'],
    [
      { tolerance: 'bag', outcome: 'stopped', total: { value: 4.2, bound: 4 } },
      'any one bag may be lost: 4.2 kg (nothing below 4 kg)',
    ],
    [
      { tolerance: 'nothing', outcome: 'infeasible', total: null, stoppedBy: [fault] },
      'nothing may be lost: not possible; step a: no stack',
    ],
    [
      {
        outcome: 'infeasible',
        total: null,
        stoppedBy: [fault],
        losses: [{ outing: 'O1', step: 'a', lost: { piece: 'p' }, closest: [], reason: 'one p is all there is' }],
      },
      'any one piece may be lost: not possible; one p is all there is',
    ],
    [
      {
        outcome: 'infeasible',
        total: null,
        stoppedBy: [
          fault,
          { reason: 'step b: too long', step: 'b', closest: [] },
          { reason: 'O1', outing: 'O1', closest: [] },
        ],
        losses: [{ outing: 'O1', step: 'a', lost: { piece: 'p' }, closest: [], reason: 'one p is all there is' }],
      },
      'any one piece may be lost: not possible; one p is all there is; step b: too long',
    ],
    [{ outcome: 'open', total: null }, 'any one piece may be lost: not known: out of time'],
  ])('%#', (bend, said) => {
    expect(toleranceText({ ...point, ...bend })).toBe(said);
  });
});

describe('a limit', () => {
  const mass: LimitReason = {
    outing: 'O1',
    limit: { kind: 'massMax', bag: 'B' },
    allowed: 4,
    used: 3.5,
    unit: 'kg',
    binds: false,
    objectiveUnit: 'kg',
    relaxed: { value: 5, bound: 5 },
  };
  it.each<[Partial<LimitReason>, string]>([
    [{}, 'bag B: mass 4 kg does not bind; 0.5 kg to spare'],
    [{ used: 4 }, 'bag B: mass 4 kg does not bind; all of it is used'],
    [{ binds: true, relaxed: { value: 4.9, bound: 4.9 } }, 'bag B: mass 4 kg binds: without it 4.9 kg, 0.1 kg less'],
    [
      { binds: true, relaxed: { value: 4.9, bound: 4.5 } },
      'bag B: mass 4 kg binds: without it 4.9 kg, 0.1 kg less (perhaps down to 4.5 kg)',
    ],
    [{ binds: null }, 'bag B: mass 4 kg: not known whether it binds: out of time'],
    [
      { limit: { kind: 'stock', id: 'X' }, unit: 'pieces', allowed: 2, used: 1 },
      'stock of X 2 pieces does not bind; 1 piece to spare',
    ],
    [
      {
        limit: { kind: 'keep', id: 'X' },
        unit: 'pieces',
        allowed: 1,
        used: 1,
        binds: true,
        relaxed: { value: 4, bound: 4 },
      },
      'wish to keep X 1 piece binds: without it 4 kg, 1 kg less',
    ],
    [
      { limit: { kind: 'slot', slot: 's' }, unit: null, allowed: null, used: null },
      'slot s: its steps at the same time does not bind',
    ],
  ])('%#', (bend, said) => {
    expect(limitReasonText({ ...mass, ...bend }, 5)).toBe(said);
  });

  it('with another', () => {
    const limits = [mass, { ...mass, limit: { kind: 'sizeMax' as const, bag: 'B' }, unit: 'mm' as const }];
    expect(limitsTogetherText({ outing: 'O1', limits, objectiveUnit: 'kg', relaxed: { value: 4, bound: 4 } }, 5)).toBe(
      'bind only together: bag B: mass, bag B: longest piece: without them 4 kg, 1 kg less',
    );
  });
});

describe('a whole answer', () => {
  it('has its reasons under headings in the text, and as rows in the CSV, each once', async () => {
    const { plan, result, reasons } = await reasonsOf(() => undefined);
    const text = bagText(plan, result, reasons).replaceAll(/\n +/g, ' ');
    const rows = Papa.parse<Record<string, string>>(bagCsv(plan, result, reasons), { header: true }).data;
    const lines = reasonLines(reasons, result.objective?.value ?? null);
    expect(lines.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['without', 'tolerance', 'limit']));
    for (const { kind, outing, item, says } of lines) {
      expect(text).toContain(says);
      expect(
        rows.filter(
          (row) =>
            row['kind'] === kind &&
            row['says'] === says &&
            row['outing'] === (outing ?? '') &&
            row['item'] === (item ?? ''),
        ),
      ).toHaveLength(1);
    }
    expect(text).toMatch(/What happens without each item outing O1: without R-38: fails/);
    expect(text).toMatch(/Which limits bind outing O1: bag B-1: mass 4 kg does not bind/);
  });

  it('says why there is none', async () => {
    const { plan, result, reasons } = await reasonsOf(
      all(put('catalog.bags[0].itemsMax', 3), keep('catalog.sockets', 1)),
    );
    const text = bagText(plan, result, reasons).replaceAll(/\n +/g, ' ');
    expect(text).toMatch(/Steps that do not go together outing O1: step loosen .* cannot be packed together/);
    expect(text).toMatch(/bag B-1: number of pieces: 3 pieces, 4 pieces needed/);
    expect(text).not.toMatch(/Which limits bind/);
  });

  it('has none where none are asked for', async () => {
    const { plan, result } = await reasonsOf(() => undefined, []);
    expect(bagText(plan, result)).not.toMatch(/without each item/);
    expect(bagCsv(plan, result)).not.toMatch(/\nwithout,/);
  });
});

import { describe, expect, it } from 'vitest';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { recheckOuting } from '../../../renderer/engine/bag/recheck.ts';
import { arrangedOuting, arrangedResult } from '../../../renderer/engine/bagMap/arrangedOuting.ts';
import { bagRefusal } from '../../../renderer/engine/bagMap/bagCheck.ts';
import { standingOf } from '../../../renderer/engine/bagMap/standing.ts';
import { withBag } from '../../../renderer/engine/bagMap/withBag.ts';
import { mapOuting, mapPlan, mapResult } from '../../support/bagMapPlan.ts';

const [outing] = mapPlan.outings;
const standing = standingOf(mapResult);
const line = (item: string, bag: string, to: string): LaidLine => ({
  ...{ item, bag, to },
  ...{ xMm: 10, yMm: 10, turned: false },
});
const where = (answer: typeof mapOuting): string[] =>
  answer.items.map(({ id, quantity, bag }) => `${bag} ${quantity} ${id}`);

describe('whether a bag takes a line', () => {
  it.each([
    ['R-38', 'L', 'C', { kind: 'limit', unit: 'tether points', would: 4, limit: 3 }],
    ['T-07', 'C', 'Z', { kind: 'role', role: 'Second' }],
    ['S-13', 'L', 'C', null],
    ['T-07', 'C', 'L', null],
    ['W-10', 'Z', 'C', null],
    ['W-10', 'Z', 'L', { kind: 'role', role: 'Lead' }],
  ])('%s from %s into %s', (item, from, to, refusal) => {
    expect(bagRefusal(mapPlan, mapOuting, { item, from, to, standing })).toEqual(refusal);
  });

  it('says by how much a limit of mass, volume, pieces or length would be passed', () => {
    const limited = (change: object) => ({
      ...mapPlan,
      bags: new Map([...mapPlan.bags].map(([id, bag]) => [id, id === 'C' ? { ...bag, ...change } : bag])),
    });
    const asked = (change: object) =>
      bagRefusal(limited(change), mapOuting, { item: 'S-13', from: 'L', to: 'C', standing });
    expect(asked({ massMaxKg: 0.2 })).toEqual({ kind: 'limit', unit: 'kg', would: expect.closeTo(0.294), limit: 0.2 });
    expect(asked({ volumeMaxL: 0.16 })).toEqual({ kind: 'limit', unit: 'L', would: expect.closeTo(0.17), limit: 0.16 });
    expect(asked({ itemsMax: 3 })).toEqual({ kind: 'limit', unit: 'pieces', would: 4, limit: 3 });
    expect(asked({ sizeMaxMm: 50 })).toEqual({ kind: 'limit', unit: 'mm', would: 53, limit: 50 });
    expect(asked({ massMaxKg: 0.294 })).toBeNull();
  });

  it('finds that another role would be short of a piece it draws from a common bag', () => {
    const items = mapOuting.items.map((item) => (item.id === 'S-13' ? { ...item, bag: 'C' } : item));
    const steps = mapOuting.steps.map((step) => (step.id === 'wipe' ? { ...step, stack: ['S-13'] } : step));
    const answer = { ...mapOuting, items, steps };
    expect(bagRefusal(mapPlan, answer, { item: 'S-13', from: 'C', to: 'L', standing })).toEqual({
      kind: 'short',
      faults: ['step wipe needs 1 × S-13, its bags hold fewer'],
    });
  });
});

describe('an answer that stands the loss of any one bag', () => {
  it('is not laid so that a bag holds all there is of a piece', () => {
    const items = [...mapOuting.items, { id: 'R-38', quantity: 1, bag: 'C', because: [] }];
    const both = [...items, { id: 'S-13', quantity: 1, bag: 'C', because: [] }];
    const steps = [{ id: 'turn', stack: ['R-38', 'S-13'], hold: null, setting: null }];
    const answer = { ...mapOuting, items: both, steps };
    const asked = { item: 'S-13', from: 'L', to: 'C' };
    const bags = new Map([...mapPlan.bags].map(([id, bag]) => [id, { ...bag, tetherPoints: null, massMaxKg: null }]));
    const plan = { ...mapPlan, bags };
    expect(bagRefusal(plan, answer, { ...asked, standing })).toBeNull();
    const refusal = bagRefusal(plan, answer, { ...asked, standing: { ...standing, tolerance: 'bag' } });
    expect(refusal).toEqual({ kind: 'short', faults: [expect.stringMatching(/turn/)] });
  });

  it('kept before it could be asked for stands what its one field says', () => {
    expect(standingOf({}).tolerance).toBe('nothing');
    expect(standingOf({ singleLoss: true }).tolerance).toBe('piece');
  });
});

describe('an outing as it was laid', () => {
  it('is the planner’s own where nothing lies in another bag', () => {
    const arranged = arrangedOuting(mapPlan, mapOuting, [line('S-13', 'L', 'L')], standing);
    expect(arranged.outing).toBe(mapOuting);
    expect(arrangedResult(mapPlan, mapResult, () => [line('S-13', 'L', 'L')])).toBe(mapResult);
  });

  it('has its lines where they lie, in the order of bags and catalog, and stands up to the second count', () => {
    const {
      outing: answer,
      laid,
      gone,
      refused,
    } = arrangedOuting(mapPlan, mapOuting, [line('S-13', 'L', 'C')], standing);
    expect(where(answer)).toEqual(['L 1 R-38', 'C 1 S-13', 'C 3 T-07', 'Z 2 W-10']);
    expect([laid.length, gone, refused]).toEqual([1, [], []]);
    if (outing === undefined) throw new Error('no outing');
    expect(recheckOuting(mapPlan, outing, answer)).toEqual([]);
  });

  it('counts no bag that is left empty', () => {
    const bags = new Map([...mapPlan.bags].map(([id, bag]) => [id, { ...bag, massKg: 0.5 }]));
    const plan = { ...mapPlan, bags };
    const planned = { ...mapOuting, massKg: mapOuting.massKg + 1.5 };
    const answer = arrangedOuting(plan, planned, [line('T-07', 'C', 'L')], standing).outing;
    expect(answer.massKg).toBeCloseTo(mapOuting.massKg + 1, 9);
  });

  it('leaves out what the answer no longer packs, and what its bag no longer takes, and names both', () => {
    const lines = [line('X-150', 'L', 'L'), line('T-07', 'C', 'Z'), line('S-13', 'L', 'C')];
    const arranged = arrangedOuting(mapPlan, mapOuting, lines, standing);
    expect(arranged.gone).toEqual([lines[0]]);
    expect(arranged.refused).toEqual([lines[1]]);
    expect(arranged.laid).toEqual([lines[2]]);
    expect(where(arranged.outing)).toEqual(['L 1 R-38', 'C 1 S-13', 'C 3 T-07', 'Z 2 W-10']);
  });

  it('adds up masses of no whole milligram, as those of a pound are, so that the second count finds nothing', () => {
    // 0.33 lb is 149.685… g: rounded piece by piece the sum would be another one than the planner’s.
    const masses: Record<string, number> = { 'S-13': 0.33 * 0.45359237, 'T-07': 0.107 * 0.45359237 };
    const carried = new Map(
      [...mapPlan.carried].map(([id, item]) => [id, { ...item, massKg: masses[id] ?? item.massKg }]),
    );
    const plan = { ...mapPlan, carried };
    const kg = mapOuting.items.reduce((sum, { id, quantity }) => sum + (carried.get(id)?.massKg ?? NaN) * quantity, 0);
    const planned = { ...mapOuting, massKg: kg };
    expect(bagRefusal(plan, planned, { item: 'S-13', from: 'L', to: 'C', standing })).toBeNull();
    expect(arrangedOuting(plan, planned, [line('S-13', 'L', 'C')], standing).refused).toEqual([]);
  });

  it('joins two lines of one item that meet in a bag', () => {
    const items = [...mapOuting.items, { id: 'S-13', quantity: 2, bag: 'C', because: ['other'] }];
    const answer = withBag(mapPlan, { ...mapOuting, items }, { item: 'S-13', from: 'L' }, 'C');
    expect(answer.items.filter(({ id }) => id === 'S-13')).toEqual([
      { id: 'S-13', quantity: 3, bag: 'C', because: ['turn', 'other'] },
    ]);
  });
});

describe('single pieces of a line', () => {
  const apart = (to: string, part: number, pieces: number): LaidLine => ({
    ...line('T-07', 'C', to),
    apart: { part, pieces },
  });

  it('lie in another bag with the rest left where it was, and stand up to the second count', () => {
    const { outing: answer, gone, refused } = arrangedOuting(mapPlan, mapOuting, [apart('L', 1, 1)], standing);
    expect(where(answer)).toEqual(['L 1 R-38', 'L 1 S-13', 'L 1 T-07', 'C 2 T-07', 'Z 2 W-10']);
    expect([gone, refused]).toEqual([[], []]);
    expect(answer.massKg).toBeCloseTo(mapOuting.massKg, 9);
    if (outing === undefined) throw new Error('no outing');
    expect(recheckOuting(mapPlan, outing, answer)).toEqual([]);
  });

  it('and the rest may change places', () => {
    const lines = [apart('C', 1, 1), line('T-07', 'C', 'L')];
    const { outing: answer } = arrangedOuting(mapPlan, mapOuting, lines, standing);
    expect(where(answer)).toEqual(['L 1 R-38', 'L 1 S-13', 'L 2 T-07', 'C 1 T-07', 'Z 2 W-10']);
  });

  it('are gone where they would leave nothing of their line', () => {
    const { gone, laid } = arrangedOuting(mapPlan, mapOuting, [apart('L', 1, 2), apart('L', 2, 1)], standing);
    expect(laid).toEqual([apart('L', 1, 2)]);
    expect(gone).toEqual([apart('L', 2, 1)]);
  });

  it('are refused a bag whose limit they pass, by their number alone', () => {
    const bags = new Map(mapPlan.bags);
    const lead = bags.get('L');
    if (lead === undefined) throw new Error('no bag');
    const plan = { ...mapPlan, bags: bags.set('L', { ...lead, tetherPoints: 2 }) };
    const move = { item: 'T-07', from: 'C', to: 'L', standing };
    expect(bagRefusal(plan, mapOuting, { ...move, pieces: 1 })).toBeNull();
    expect(bagRefusal(plan, mapOuting, { ...move, pieces: 2 })).toEqual({
      ...{ kind: 'limit', unit: 'tether points', would: 3, limit: 2 },
    });
  });
});

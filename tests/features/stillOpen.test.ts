import { describe, expect, it } from 'vitest';
import type { BagOuting, BagResult } from '../../shared-types/bag.ts';
import type { ItemOf } from '../../shared-types/records/item.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { judgeStep } from '../../renderer/engine/stack/judgeStep.ts';
import { carriedBy, sharesOf } from '../../renderer/features/overview/shares.ts';
import { stillOpen, type Situation } from '../../renderer/features/overview/stillOpen.ts';
import type { KeptResult } from '../../renderer/store/session.ts';
import { smallPlan } from '../support/smallPlan.ts';

const small = smallPlan();
/** The small plan with a time for each step, a bag for Lead, one bolt out of reach and a case nobody fetches. */
const plan = planFrom({
  ...small,
  catalog: { ...small.catalog, bags: [...small.catalog.bags, { id: 'B-L', role: 'Lead', mass: '400 g' }] },
  outings: [{ id: 'O1', name: 'Strip', roles: ['Lead', 'Second', 'Winch'], bags: ['B-1', 'B-L'], minutesMax: 25 }],
  places: [{ id: 'ledge', name: 'Ledge' }],
  steps: [
    { ...small.steps[0], minutes: 10 },
    { ...small.steps[1], minutes: 12, contingency: true },
    { ...small.steps[2], minutes: 20, moves: [{ id: 'C-1', quantity: 2, from: 'bag', to: 'ledge' }] },
    { ...small.steps[1], id: 'deep', name: 'Deep bolt', minutes: 0, access: { depth: '12 in' } },
  ],
});

const kept = (change: Partial<BagResult>): KeptResult => ({
  minimised: 'mass',
  timeLimitS: null,
  plannedAt: '2026-01-02T10:42:00Z',
  result: {
    status: 'optimal',
    objective: null,
    outings: [],
    singleLoss: false,
    tolerance: 'nothing',
    wishes: { keep: [], forbid: [], spares: [] },
    unchecked: [],
    problems: [],
    infeasible: [],
    ignoredFields: [],
    ...change,
  },
});
const packed: BagOuting = {
  id: 'O1',
  massKg: 3,
  items: [
    { id: 'TT-2', quantity: 1, bag: 'B-L', because: [] },
    { id: 'S-9/16', quantity: 1, bag: 'B-L', because: [] },
    { id: 'C-1', quantity: 2, bag: 'B-1', because: [] },
  ],
  steps: [],
};

const judgements = new Map(plan.steps.map((step) => [step.id, judgeStep(plan, step)]));
const situation = (change: Partial<Situation> = {}): Situation => ({
  ...{ plan, missing: [], judgements, result: null, former: null, items: [], today: '2026-11-25' },
  ...change,
});
const points = (change: Partial<Situation> = {}) => stillOpen(situation(change));

const wrench = (code: string, calibrationDue?: string, retired = false): ItemOf<'torque-tool'> => ({
  ...{ id: `k-${code}`, rev: 1, shelf: 'shop', code, kind: 'torque-tool', retired, parts: 1, kit: 'field' },
  ...{ mass: '1 kg', onHand: 1, drive: '3/8 in', min: '5 N·m', max: '25 N·m', accuracyOfReading: 0.04 },
  ...(calibrationDue === undefined ? {} : { calibrationDue }),
});

describe('what is still open', () => {
  it('goes in the order of the job: steps, outings, bag', () => {
    expect(points().map(({ mark, what, to }) => [mark, what, to.at])).toEqual([
      ['not-reached', 'Step 4, Deep bolt', 'steps'],
      ['left-behind', '2 × gear C-1 at Ledge', 'outings'],
      ['over-time', 'Strip', 'outings'],
      ['not-proved', 'Bag', 'bag'],
    ]);
  });

  it('says by how much: what the closest stack has and what is needed, minutes over', () => {
    const [deep, , over] = points();
    expect(deep?.detail).toMatch(/^closest: 10\.25 in.*, needed 12 in/);
    expect(over?.detail).toBe('5 min longer than it may last');
  });

  it('tells no bag from one of an earlier state, from one that cannot be, from one to pack', () => {
    const bagOf = (change: Partial<Situation>) => points(change).filter(({ to }) => to.at === 'bag');
    expect(bagOf({})[0]?.detail).toBe('no bag has been planned');
    expect(bagOf({ former: kept({}) })[0]?.detail).toBe('the planned bag is of an earlier state of this task');
    const fault = { step: 'deep', reason: '', closest: [] };
    expect(bagOf({ result: kept({ status: 'infeasible', infeasible: [fault] }) })[0]).toMatchObject({
      mark: 'infeasible',
      detail: 'no bag does it: 1 fault',
    });
    expect(bagOf({ result: kept({ outings: [packed] }) })).toMatchObject([
      { mark: 'to-pack', what: 'Strip', detail: '4 pieces planned', to: { at: 'bag', outing: 'O1' } },
    ]);
    expect(bagOf({ result: kept({ status: 'stopped', outings: [packed] }) })[0]?.detail).toBe(
      '4 pieces planned, not proved least',
    );
  });

  it('names each record that cannot be read, and leads to where it is mended', () => {
    const item = wrench('TW-1');
    const of = (table: 'items' | 'outings' | 'steps' | 'tasks', id: string, code: string) => ({
      ...{ table, id, code, path: '', reason: `${code} is not whole` },
    });
    const missing = [
      of('steps', 's', 'open'),
      of('items', item.id, 'TW-1'),
      of('items', 'gone', 'X'),
      of('tasks', 't', 'T'),
    ];
    expect(points({ missing, items: [item] }).slice(0, 4)).toMatchObject([
      { word: 'Not complete', what: 'Step open', detail: 'open is not whole', to: { at: 'steps', step: 'open' } },
      { to: { at: 'catalog', shelf: 'shop', item: 'k-TW-1' } },
      { to: { at: 'catalog' } },
      { to: { at: 'front' } },
    ]);
  });

  it('names torque tools whose calibration is over or nearly, and no others', () => {
    const items = [
      wrench('over', '2026-11-24'),
      wrench('today', '2026-11-25'),
      wrench('month', '2026-12-25'),
      wrench('later', '2026-12-26'),
      wrench('unsaid'),
      wrench('retired', '2026-01-01', true),
    ];
    const found = points({ items }).filter(({ to }) => to.at === 'catalog');
    expect(found.map(({ what, word }) => [what, word])).toEqual([
      ['over', 'Calibration overdue'],
      ['today', 'Calibration due'],
      ['month', 'Calibration due'],
    ]);
  });

  it('says nothing of the bag of a task without steps', () => {
    expect(stillOpen(situation({ plan: planFrom({ ...small, steps: [] }) }))).toEqual([]);
  });
});

describe('who has what', () => {
  it('gives each role its steps and the minutes that are sure, by outing', () => {
    expect(sharesOf(plan)).toEqual([
      { role: 'Lead', outings: [{ id: 'O1', steps: [1, 2, 4], minutes: 10 }] },
      { role: 'Second', outings: [{ id: 'O1', steps: [3], minutes: 20 }] },
      { role: 'Winch', outings: [{ id: 'O1', steps: [], minutes: 0 }] },
    ]);
  });

  it('weighs what lies in the role’s own bags', () => {
    const result = kept({ outings: [packed] });
    // Torque tool 0.9 kg and socket 0.06 kg; the bag's own 0.4 kg is not carried in it.
    expect(carriedBy(plan, 'Lead', result)).toBeCloseTo(0.96, 12);
    expect(carriedBy(plan, 'Second', result)).toBeNull();
  });
});

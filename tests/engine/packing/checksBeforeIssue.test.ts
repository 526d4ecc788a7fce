import { describe, expect, it } from 'vitest';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { Deed, FrozenThing, RevisionContent } from '../../../shared-types/records/revision.ts';
import { readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { checksBeforeIssue, packState } from '../../../renderer/engine/packing/index.ts';
import type { IssueCheck } from '../../../renderer/engine/packing/index.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { again, ben, counted, eventsOf } from './packingEvents.ts';

const thing = (id: string, kind: FrozenThing['kind'], more: Partial<FrozenThing> = {}): FrozenThing => ({
  ...{ id, name: id, kind, parts: 1 },
  ...more,
});
const plan = smallPlan();
const setting = { value: 32.5, unit: 'lbf·ft' };
const result: BagResult = {
  status: 'optimal',
  objective: { minimised: 'mass', value: 2.1, unit: 'kg', bound: 2.1, gap: 0 },
  outings: [
    {
      id: 'O1',
      massKg: 2.1,
      items: [],
      steps: [
        { id: 'loosen', stack: ['R-38', 'X-3', 'S-9/16'], hold: null, setting: null },
        { id: 'tighten', stack: ['TT-2', 'X-3', 'S-9/16'], hold: null, setting },
        { id: 'cap', stack: [], hold: null, setting: null },
      ],
    },
  ],
  singleLoss: false,
  ...{ tolerance: 'nothing', wishes: { keep: [], forbid: [], spares: [] } },
  ...{ unchecked: [], problems: [], infeasible: [], ignoredFields: [] },
};
const quantities = { 'R-38': 1, 'S-9/16': 1, 'TT-2': 1, 'X-3': 1, 'C-1': 3 };
const lines = Object.entries(quantities).map(([item, quantity]) => ({
  ...{ outing: 'O1', bag: 'B-1', item, quantity, because: ['cap'] },
}));

function content(change: { planText?: string; tool?: Partial<FrozenThing>; result?: BagResult } = {}): RevisionContent {
  return {
    planText: change.planText ?? JSON.stringify(plan),
    result: change.result ?? result,
    things: [
      ...[
        thing('B-1', 'bag'),
        thing('R-38', 'driver', { parts: 3 }),
        thing('S-9/16', 'socket'),
        thing('X-3', 'extension'),
      ],
      thing('TT-2', 'torque-tool', { serial: 'A 17', calibrationDue: '2026-12-01', ...change.tool }),
      thing('C-1', 'gear'),
    ],
    lines,
    facts: [],
  };
}

const whole: Deed[] = lines.map(({ item, quantity }) => counted('B-1', item, quantity, item === 'R-38' ? 3 : quantity));
const close: Deed = { kind: 'bag-closed', bag: 'B-1' };
const counts = (change: Partial<Record<keyof typeof quantities, number>> = {}) => ({
  by: ben,
  deed: again(
    'B-1',
    lines.map(({ item, quantity }) => {
      const pieces = change[item as keyof typeof quantities] ?? quantity;
      return [item, pieces, item === 'R-38' ? pieces * 3 : pieces];
    }),
  ),
});

function checked(
  deeds: Parameters<typeof eventsOf>[0],
  x: {
    content?: RevisionContent;
    day?: string;
    catalog?: [string, { serial?: string; calibrationDue?: string }][];
    foundOut?: { serial: string; foundOut: string; due?: string }[];
  } = {},
): IssueCheck[] {
  const revision = { number: 1, content: x.content ?? content() };
  const { day = '2026-11-26', catalog = [], foundOut = [] } = x;
  return checksBeforeIssue(
    readFrozen(revision),
    packState(
      revision,
      eventsOf(
        deeds.map((one) => one),
        1,
      ).map((event) => ({ ...event, outing: 'O1' })),
      'O1',
    ),
    {
      ...{ day, catalog: new Map(catalog), foundOut },
    },
  );
}
const notHeld = (checks: readonly IssueCheck[]) =>
  checks.filter(({ state }) => state !== 'holds').map(({ state, what, have, need }) => [state, what, have, need]);

const closedShort: Deed = { kind: 'bag-closed', bag: 'B-1', reason: 'one is lent out', second: ben };
const ready = [...whole, close, counts()];

describe('before an outing’s bags leave', () => {
  it('a bag packed whole, closed, and counted again to the same holds in every check', () => {
    const checks = checked(ready);
    expect(notHeld(checks)).toEqual([]);
    expect(checks.map(({ about }) => about)).toEqual([
      'counting',
      'counting',
      'pieces',
      'limits',
      'calibration',
      'setting',
    ]);
  });

  it('says of each setting its share of the tool’s maximum, and where the least share is from', () => {
    // 32.5 of 75 lbf·ft is 43.3 %, reckoned by hand.
    expect(checked(ready).at(-1)).toMatchObject({
      ...{
        have: '32.5 lbf·ft, 43.3 % of its maximum',
        need: '20 to 100 % of its maximum',
        source: 'common practice, no source',
      },
    });
    const own = checked(ready, { content: content({ planText: JSON.stringify({ ...plan, rangeShareMin: 0.5 }) }) });
    expect(own.at(-1)).toMatchObject({
      state: 'blocks',
      need: '50 to 100 % of its maximum',
      source: 'the task’s own limit',
    });
  });

  it.each<[string, string, Parameters<typeof checked>[1], unknown[]]>([
    ['on the day it is due', '', { day: '2026-12-01' }, []],
    [
      'a day later',
      '',
      { day: '2026-12-02' },
      [['blocks', 'TT-2: calibration of A 17', 'due on 2026-12-01', 'in date on 2026-12-02']],
    ],
    [
      'with a later day in the catalog',
      '',
      { day: '2026-12-02', catalog: [['TT-2', { serial: 'A 17', calibrationDue: '2027-12-01' }]] },
      [],
    ],
    [
      'with an earlier day in the catalog',
      '',
      { catalog: [['TT-2', { serial: 'A 17', calibrationDue: '2026-11-01' }]] },
      [['blocks', 'TT-2: calibration of A 17', 'due on 2026-11-01', 'in date on 2026-11-26']],
    ],
    [
      'of which the catalog has no day any more',
      '',
      { catalog: [['TT-2', { serial: 'A 17' }]] },
      [['blocks', 'TT-2: calibration of A 17', 'no day said', 'in date on 2026-11-26']],
    ],
    [
      'that is another one by now',
      '',
      { catalog: [['TT-2', { serial: 'B 4', calibrationDue: '2027-12-01' }]] },
      [['blocks', 'TT-2: which tool it is', 'serial B 4 in the catalog', 'serial A 17, as it was frozen']],
    ],
    [
      'found out of calibration',
      '',
      {
        foundOut: [
          { serial: ' A 17', foundOut: '2026-05-02' },
          { serial: 'A 1', foundOut: '2026-06-02' },
        ],
      },
      [
        [
          'blocks',
          'TT-2: serial A 17 was found out of calibration',
          'found out on 2026-05-02',
          'calibrated since: due later than 2026-12-01',
        ],
      ],
    ],
    [
      'found out, and not calibrated since by the day it had then',
      '',
      { foundOut: [{ serial: 'A 17', foundOut: '2026-05-02', due: '2027-01-31' }] },
      [
        [
          'blocks',
          'TT-2: serial A 17 was found out of calibration',
          'found out on 2026-05-02',
          'calibrated since: due later than 2027-01-31',
        ],
      ],
    ],
    [
      'found out, and calibrated since: frozen with its new day, or with that of before',
      '',
      {
        catalog: [['TT-2', { serial: 'A 17', calibrationDue: '2027-06-30' }]],
        foundOut: [{ serial: 'A 17', foundOut: '2026-05-02', due: '2026-10-31' }],
      },
      [],
    ],
  ])('a torque tool %s', (_, _note, given, expected) => {
    expect(notHeld(checked(ready, given))).toEqual(expected);
  });

  it('says of every tool that keeps it back what lets it go, and never that words do', () => {
    const own = content({ planText: JSON.stringify({ ...plan, rangeShareMin: 0.5 }) });
    const foundOut = [{ serial: 'A 17', foundOut: '2026-05-02' }];
    const blocking = checked(ready, { content: own, day: '2027-01-01', foundOut }).filter(
      ({ state }) => state === 'blocks',
    );
    expect(blocking.map(({ about }) => about)).toEqual(['calibration', 'calibration', 'setting']);
    for (const { mend } of blocking) expect(mend).toMatch(/name TT-2 missing in its bag and plan without it$/);
    expect(blocking.slice(0, 2).every(({ mend }) => mend?.includes('catalog'))).toBe(true);
  });

  it('blocks while anything is open, not closed, not counted again', () => {
    expect(notHeld(checked([]))).toEqual([
      ['blocks', 'Bag B-1: closed', 'open, 0 of 7 packed, 7 to pack', 'closed'],
      ['blocks', 'Bag B-1: counted again', 'by nobody', 'every line, by another person, to the same number'],
      [
        ...['blocks', 'Every step’s stack and gear', 'not known before every bag is closed'],
        'whole, in bags within its reach',
      ],
    ]);
    const named: Deed = { kind: 'missing', bag: 'B-1', item: 'X-3', pieces: 1, parts: 1, reason: 'lent out' };
    expect(notHeld(checked([named]))).toContainEqual(['blocks', 'X-3 in B-1', '0 pieces', '1 piece']);
    expect(notHeld(checked([closedShort]))).toEqual([
      ['blocks', 'Bag B-1: counted again', 'by nobody', 'every line, by another person, to the same number'],
      ...lines.map(({ item, quantity }) => [
        ...['noted', `${item} in B-1`, '0 pieces; closed so: one is lent out, with Ben Example'],
        quantity === 1 ? '1 piece' : `${quantity} pieces`,
      ]),
      ['blocks', 'Step loosen loses R-38', '0 whole within its reach', '1'],
      ['blocks', 'Step tighten loses TT-2', '0 whole within its reach', '1'],
      ['blocks', 'Step cap loses C-1', '0 whole within its reach', '2'],
    ]);
  });

  const without = (item: string, pieces: number): Deed[] =>
    whole.map((deed) => (deed.kind === 'counted' && deed.item === item ? counted('B-1', item, pieces) : deed));

  it('notes what was closed short with reason and second name, where every step keeps what it needs', () => {
    const checks = checked([...without('C-1', 2), closedShort, counts({ 'C-1': 2 })]);
    expect(notHeld(checks)).toEqual([
      ['noted', 'C-1 in B-1', '2 pieces; closed so: one is lent out, with Ben Example', '3 pieces'],
    ]);
  });

  it('and blocks where a step loses its gear, or a part of its tool', () => {
    const gear = checked([...without('C-1', 1), closedShort, counts({ 'C-1': 1 })]);
    expect(notHeld(gear).at(-1)).toEqual(['blocks', 'Step cap loses C-1', '1 whole within its reach', '2']);
    const ratchet = whole.map((deed) =>
      deed.kind === 'counted' && deed.item === 'R-38' ? counted('B-1', 'R-38', 1, 2) : deed,
    );
    const second = {
      by: ben,
      deed: again(
        'B-1',
        lines.map(({ item, quantity }) => [item, quantity, item === 'R-38' ? 2 : quantity]),
      ),
    };
    expect(notHeld(checked([...ratchet, closedShort, second]))).toEqual([
      ['noted', 'R-38 in B-1', '1 piece with 2 of 3 parts; closed so: one is lent out, with Ben Example', '1 piece'],
      ['blocks', 'Step loosen loses R-38', '0 whole within its reach', '1'],
    ]);
  });

  it('counts a bag’s limits from what lies in it, not from what was planned', () => {
    // 300 + 60 + 900 + 110 + 3 · 20 g is 1.43 kg; two pieces of gear less are 1.39 kg.
    const tight = (massMax: string) =>
      content({
        planText: JSON.stringify({
          ...plan,
          catalog: { ...plan.catalog, bags: [{ id: 'B-1', mass: '500 g', massMax, tetherPoints: 0, itemsMax: 6 }] },
        }),
      });
    const limits = (deeds: Parameters<typeof checked>[0], massMax: string) =>
      checked(deeds, { content: tight(massMax) })
        .filter(({ about }) => about === 'limits')
        .map(({ state, have }) => [state, have]);
    expect(limits(ready, '1.43 kg')).toEqual([
      ['holds', '1.43 kg'],
      ['blocks', '7 pieces'],
      ['holds', '0 points'],
    ]);
    expect(limits(without('C-1', 1), '1.4 kg')).toEqual([
      ['holds', '1.39 kg'],
      ['holds', '5 pieces'],
      ['holds', '0 points'],
    ]);
    expect(limits(ready, '1.42 kg')[0]).toEqual(['blocks', '1.43 kg']);
  });
});

/** The answer of a bag as text: whole lines, by name, none too wide. */
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { BagResult } from '../../../shared-types/bag.ts';
import { bagCsv } from '../../../renderer/engine/bag/bagCsv.ts';
import { bagText, headingText, problemText } from '../../../renderer/engine/bag/bagText.ts';
import { figuresBasis } from '../../../renderer/engine/bag/figuresBasis.ts';
import { uncheckedRules } from '../../../renderer/engine/bag/unchecked.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, append, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const planned = (edit: Edit) => {
  const source = smallPlan();
  edit(source);
  return planFrom(source);
};

const nothing: BagResult = {
  status: 'infeasible',
  objective: null,
  outings: [],
  singleLoss: false,
  tolerance: 'nothing',
  wishes: { keep: [], forbid: [], spares: [] },
  unchecked: [],
  problems: [],
  infeasible: [],
  ignoredFields: [],
};

const linesOf = (edit: Edit, result: Partial<BagResult>) =>
  bagText(planned(edit), { ...nothing, ...result }).split('\n');

/** From one line to the next that is empty. */
const section = (lines: readonly string[], title: string) => {
  const from = lines.indexOf(title);
  return from < 0 ? null : lines.slice(from + 1, lines.indexOf('', from));
};

describe('an outing as text', () => {
  const two = all(
    append('outings', { id: 'O2', name: 'To the mast', roles: ['Lead', 'Second'], bags: ['B-1', 'B-2'] }),
    append('catalog.bags', { id: 'B-2', name: 'Belt pouch', mass: '100 g' }),
    put('catalog.sockets[0].name', 'Socket, deep'),
    put('steps[0].outing', 'O2'),
    put('steps[2].outing', 'O2'),
  );
  const lines = () =>
    linesOf(two, {
      outings: [
        {
          id: 'O2',
          massKg: 1.25,
          items: [
            { id: 'S-9/16', quantity: 2, bag: 'B-2', because: ['loosen', 'more'] },
            { id: 'C-1', quantity: 3, bag: 'B-1', because: ['cap'] },
          ],
          steps: [
            { id: 'loosen', stack: ['R-38', 'S-9/16'], hold: ['R-38', 'X-3'], setting: null },
            { id: 'cap', stack: [], hold: null, setting: null },
          ],
        },
      ],
    });

  it('has its own name, all its pieces, and each bag with what lies in it', () => {
    expect(section(lines(), 'Outing To the mast: 5 pieces, 1.25 kg with the bags')).toEqual([
      '  Bag Belt pouch',
      '    2 × S-9/16  Socket, deep  for loosen, more',
      '  Bag B-1',
      '    3 × C-1  C-1  for cap',
      '  Stacks',
      '    loosen: R-38 + S-9/16; hold with R-38 + X-3',
      '      must bear 42 lbf·ft',
    ]);
  });
});

describe('the parts of the text', () => {
  it('are left out where they have nothing to say', () => {
    const lines = linesOf(() => undefined, {});
    for (const title of ['Cannot be done', 'Problems of the plan', 'Not checked, because the plan does not give it'])
      expect(lines).not.toContain(title);
    expect(lines[0]).toBe('No bag: the plan cannot be done as it stands.');
  });

  it('say what cannot be done, what is wrong, and what was not checked', () => {
    const lines = linesOf(() => undefined, {
      infeasible: [
        {
          step: 'loosen',
          reason: 'why',
          closest: [
            { stack: ['R-38', 'X-3'], fails: [{ check: 'reach', have: '1 in', need: '2 in' }] },
            { stack: [], fails: [{ check: 'stock', have: '0 pieces', need: '1 piece' }] },
          ],
        },
      ],
      problems: [{ rule: 'not-there', outing: 'O1', step: 'cap', id: 'C-1', quantity: 2, place: 'foot' }],
      unchecked: [
        { rule: 'handleRadius', steps: ['loosen'], items: ['R-38'] },
        { rule: 'swingDeg', steps: ['a', 'b'] },
      ],
    });
    expect(section(lines, 'Cannot be done')).toEqual([
      '  why',
      '    R-38 + X-3: reach: has 1 in, needs 2 in',
      '    stock: has 0 pieces, needs 1 piece',
    ]);
    expect(section(lines, 'Problems of the plan')).toEqual(['  not-there: 2 × C-1 (outing O1, step cap, at foot)']);
    expect(section(lines, 'Not checked, because the plan does not give it')).toEqual([
      '  handleRadius: loosen, R-38',
      '  swingDeg: a, b',
    ]);
  });

  it('say of a problem what it is counted in', () => {
    expect(problemText({ rule: 'over-time', outing: 'O1', id: 'O1', quantity: 3 })).toBe(
      'over-time: 3 min (outing O1)',
    );
  });

  it('say how far an answer is from its proof', () => {
    const objective = { minimised: 'mass', unit: 'kg', value: 2, bound: 1.5, gap: 0.25 } as const;
    expect(headingText({ ...nothing, status: 'stopped', objective })).toBe(
      'Not proved: 2 kg, nothing below 1.5 kg (within 25 %).',
    );
    expect(headingText({ ...nothing, status: 'optimal', objective })).toBe('Proved least: 2 kg.');
  });
});

describe('what was asked of a bag', () => {
  const objective = { minimised: 'mass', unit: 'kg', value: 2, bound: 2, gap: 0 } as const;
  const wishes = {
    keep: [
      { id: 'X-3', quantity: 2, outing: 'O1' },
      { id: 'R-38', quantity: 1 },
    ],
    forbid: [{ id: 'X-6' }, { id: 'TT-2', outing: 'O1' }],
    spares: [{ id: 'C-1', quantity: 1 }],
  };
  const unchanged: Edit = () => undefined;

  it.each([
    ['nothing', 'Stands no loss: one lost tool piece may stop a step.'],
    ['piece', 'Stands the loss of any one tool piece: every step still has a stack among what is left.'],
    ['bag', 'Stands the loss of any one bag with all it holds: every step still has a stack in the others.'],
  ] as const)('is said below its proof: the loss of %s', (tolerance, says) => {
    const bag = { ...nothing, status: 'optimal', objective, tolerance } as const;
    expect(linesOf(unchanged, bag).slice(0, 3)).toEqual(['Proved least: 2 kg.', says, '']);
    expect(bagCsv(planned(unchanged), bag).split('\r\n')[2]).toContain(`asked,,,,,,,,,${says}`);
  });

  it('is said of no bag as asked alone', () => {
    expect(linesOf(unchanged, { tolerance: 'bag' })[1]).toBe(
      'Asked to stand the loss of any one bag with all it holds.',
    );
    expect(linesOf(unchanged, {})[1]).toBe('');
  });

  it('is what is kept, forbidden and spare, on which outing', () => {
    const said = [
      'Kept, at least: 2 × X-3 on O1, 1 × R-38.',
      'Forbidden: X-6, TT-2 on O1.',
      'Spare, beyond the need: 1 × C-1.',
    ];
    expect(linesOf(unchanged, { wishes }).slice(1, 4)).toEqual(said);
    const csv = Papa.parse<Record<string, string>>(bagCsv(planned(unchanged), { ...nothing, wishes }), {
      header: true,
    });
    expect(csv.data.filter(({ kind }) => kind === 'asked').map(({ says }) => says)).toEqual(said);
  });
});

describe('long sentences', () => {
  const basis = (edit: Edit) => section(linesOf(edit, {}), 'What the figures rest on') ?? [];
  const unchanged: Edit = () => undefined;

  it('are set in lines of at most 112 characters, each as full as it can be', () => {
    const lines = basis(unchanged);
    expect(lines.map((line) => line.trim()).join(' ')).toBe(figuresBasis(planFrom(smallPlan())).join(' '));
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(112);
    const starts = figuresBasis(planFrom(smallPlan())).map((sentence) => sentence.split(' ').slice(0, 3).join(' '));
    for (const [n, line] of lines.entries()) {
      const next = lines[n + 1]?.trim() ?? '';
      const [word = ''] = next.split(' ');
      if (word !== '' && !starts.some((start) => next.startsWith(start)))
        expect(`${line} ${word}`.length).toBeGreaterThan(112);
    }
    expect(lines.every((line) => /^ {2}\S/.test(line))).toBe(true);
  });

  /** The lines in which a step's torque and its source are set, six blanks in. */
  const sourceLines = (source: string) => {
    const outings = [
      {
        id: 'O1',
        massKg: 1,
        items: [],
        steps: [{ id: 'tighten', stack: ['TT-2'], hold: null, setting: { value: 32.5, unit: 'lbf·ft' } }],
      },
    ];
    const lines = linesOf(put('steps[1].calloutSource', source), { outings });
    const from = lines.indexOf('    tighten: TT-2; set 32.5 lbf·ft');
    return lines.slice(from + 1, lines.indexOf('', from));
  };
  const word = (length: number) => 'w'.repeat(length);

  it('fill a line to its last character and go no further', () => {
    const before = sourceLines('x')[0]?.length ?? 0;
    expect(before).toBeGreaterThan(40);
    const [only, ...more] = sourceLines(word(1 + 112 - before));
    expect([only?.length, more]).toEqual([112, []]);
    const [first, second, ...rest] = sourceLines(word(2 + 112 - before));
    expect([first?.length, second, rest]).toEqual([before - 2, `      ${word(2 + 112 - before)}`, []]);
  });
});

describe('the least share of a tool’s range', () => {
  it('is said where the plan sets one, and that it sets none', () => {
    const says = (share: number) =>
      figuresBasis(planned(put('rangeShareMin', share))).filter((s) => /share of|below/.test(s));
    expect(says(0)).toContain('The plan sets no least share of a torque tool’s range.');
    expect(says(0).join(' ')).not.toMatch(/No setting lies below/);
    expect(says(0.2).join(' ')).toMatch(/No setting lies below 20 % of its tool’s maximum/);
    expect(figuresBasis(planFrom(smallPlan()))).toContain('The plan sets no least share of a torque tool’s range.');
  });
});

describe('what was not checked', () => {
  it('is a clear diameter only where something is deep', () => {
    const clear = (access: object | undefined) =>
      uncheckedRules(planned(put('steps[0].access', access)), []).filter(({ rule }) => rule === 'clearDiameter');
    expect(clear(undefined)).toEqual([]);
    expect(clear({ depth: '0 in' })).toEqual([]);
    expect(clear({ depth: '0.5 mm' })).toEqual([{ rule: 'clearDiameter', steps: ['loosen'] }]);
    expect(clear({ depth: '2 in', clearDiameter: '1 in' })).toEqual([]);
  });

  it('is no rule for which everything was given', () => {
    expect(uncheckedRules(planned(put('steps[0].access.swingDeg', 60)), [])).toEqual([]);
    expect(
      uncheckedRules(
        planned(() => undefined),
        [],
      ),
    ).toEqual([{ rule: 'swingDeg', steps: ['loosen'] }]);
  });

  it('is a lever and a size once for each item', () => {
    const plan = planned(
      all(
        put('catalog.bags[0].sizeMax', '20 in'),
        put('catalog.drivers[0].lever', undefined),
        put('steps[0].access', { depth: '2 in', clearDiameter: '1 in', swingDeg: 60, handleRadius: '9 in' }),
      ),
    );
    const step = { id: 'loosen', stack: ['R-38', 'X-3', 'S-9/16'], hold: null, setting: null };
    const items = [{ id: 'R-38', quantity: 1, bag: 'B-1', because: ['loosen'] }];
    const outing = { id: 'O1', massKg: 1, items: [...items, ...items], steps: [step] };
    expect(uncheckedRules(plan, [outing])).toEqual([
      { rule: 'handleRadius', steps: ['loosen'], items: ['R-38'] },
      { rule: 'sizeMax', items: ['R-38'] },
    ]);
  });
});

import { describe, expect, it } from 'vitest';
import Papa from 'papaparse';
import { harmless } from '../../../renderer/engine/sheet/cellText.ts';
import { bagCsv } from '../../../renderer/engine/bag/bagCsv.ts';
import { bagText } from '../../../renderer/engine/bag/bagText.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

async function answer(edit: Edit) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  return { plan, result: await planBag(plan, { minimise: 'mass' }) };
}

const faultsOf = async (edit: Edit) => (await answer(edit)).result.infeasible;
/** One way to loosen, so that one thing is lacking. */
const oneWay = all(keep('catalog.sockets', 1), keep('catalog.extensions', 1), keep('steps', 1));

describe('what is lacking is said so that it can be mended', () => {
  it.each<[string, Edit, string, string]>([
    ['reach', put('steps[0].access.depth', '4.250001 in'), '4.25 in', '4.250001 in'],
    ['clearance', put('steps[0].access.clearDiameter', '0.799999 in'), '⌀ 0.8 in', 'at most ⌀ 0.799999 in'],
    ['strength', put('steps[0].demand', '75.00001 lbf·ft'), '75 lbf·ft', '75.00001 lbf·ft'],
    ['swing', put('steps[0].access.swingDeg', 4.99999), 'steps of 5 deg', 'at most 4.99999 deg'],
    ['protrusion', put('steps[0].access.protrusion', '0.6000001 in'), '0.6 in deep', '0.6000001 in deep'],
  ])('with digits enough to tell %s apart', async (check, edit, have, need) => {
    const fits = (await faultsOf(all(oneWay, edit)))[0]?.closest ?? [];
    expect(fits.flatMap(({ fails }) => fails)).toContainEqual({ check, have, need });
  });

  it('down to a bag that is a hair over its limit', async () => {
    // 300 + 110 + 60 g; one part in 10⁸ over is past the tolerance of one in 10⁹.
    const [fault] = await faultsOf(all(oneWay, put('catalog.bags[0].massMax', '469.999995 g')));
    expect(fault?.closest[0]?.fails).toEqual([{ check: 'bag', have: 'bag B-1 takes 0.469999995 kg', need: '0.47 kg' }]);
    expect(await faultsOf(all(oneWay, put('catalog.bags[0].massMax', '469.9999999 g')))).toEqual([]);
  });

  it('every missing piece of a stack, the stack with fewest missing first', async () => {
    const none = all(put('catalog.drivers[0].onHand', 0), put('catalog.sockets[0].onHand', 0));
    const [fault] = await faultsOf(all(oneWay, none));
    expect(fault?.closest[0]?.fails.map(({ have }) => have)).toEqual([
      '0 pieces of R-38 on hand',
      '0 pieces of S-9/16 on hand',
    ]);
    const [either] = await faultsOf(
      all(none, keep('steps', 1), put('catalog.sockets[1].onHand', 0), put('catalog.drivers[0].onHand', 1)),
    );
    expect(either?.closest[0]?.fails).toHaveLength(1);
  });

  it('the bags that a thing may lie in, not those of another role', async () => {
    const bags = [
      { id: 'B-L', role: 'Lead', sizeMax: '20 in' },
      { id: 'B-S', role: 'Second', sizeMax: '8 in' },
    ];
    const two = all(
      put('catalog.bags', bags),
      put('outings[0].bags', ['B-L', 'B-S']),
      put('catalog.carryGear[0].size', '12 in'),
    );
    const [long] = await faultsOf(two);
    expect(long?.closest[0]?.fails).toEqual([{ check: 'bag', have: 'room for 203.2 mm', need: '304.8 mm for C-1' }]);
    const [none] = await faultsOf(all(two, put('outings[0].bags', ['B-L'])));
    expect(none?.closest[0]?.fails[0]).toMatchObject({ check: 'bag', have: '0 bags' });
  });

  it('what a hold leaves unchecked', async () => {
    const { result } = await answer(
      all(
        keep('steps', 2),
        put('catalog.sockets[0].onHand', 2),
        put('catalog.drivers[0].lever', undefined),
        put('steps[1].hold', { fastener: 'F1', access: { depth: '1 in', handleRadius: '9 in' } }),
      ),
    );
    expect(result.unchecked).toContainEqual({ rule: 'clearDiameter', steps: ['tighten'] });
    expect(result.unchecked).toContainEqual({ rule: 'handleRadius', steps: ['tighten'], items: ['R-38'] });
  });
});

describe('the answer as CSV', () => {
  const rowsOf = async (edit: Edit) => {
    const { plan, result } = await answer(edit);
    return Papa.parse<Record<string, string>>(bagCsv(plan, result), { header: true, skipEmptyLines: true }).data;
  };

  it('begins with what it is worth and ends with what cannot be done', async () => {
    const done = await rowsOf(all());
    expect(done[0]).toMatchObject({ kind: 'result', says: 'Proved least: 1.91 kg.' });
    expect(done.at(-1)).toMatchObject({ kind: 'unchecked', says: 'swingDeg: loosen' });
    const far = await rowsOf(put('steps[0].access.depth', '30 in'));
    expect(far[0]).toMatchObject({ kind: 'result', says: 'No bag: the plan cannot be done as it stands.' });
    expect(far[1]).toMatchObject({ kind: 'infeasible', step: 'loosen' });
    const late = await rowsOf(all(put('outings[0].minutesMax', 5), put('steps[0].minutes', 9)));
    expect(late.find(({ kind }) => kind === 'problem')?.['says']).toBe('over-time: 4 min (outing O1)');
  });

  it.each(['=1+1', '+1', '-2+3', '@SUM(A1)', ' =2+2', '=1+1\nx', '＝1', '\t=1', '\r=1'])(
    'runs nothing: %j',
    async (name) => {
      const rows = await rowsOf(put('catalog.sockets[0].name', name));
      expect(rows.find(({ item }) => item === 'S-9/16')?.['name']).toBe(harmless(name));
      expect(harmless(name)).toMatch(/^'/);
    },
  );

  it('leaves numbers and ordinary texts as they are', async () => {
    const rows = await rowsOf(put('catalog.sockets[0].name', '9/16 in - deep'));
    expect(rows.find(({ item }) => item === 'S-9/16')).toMatchObject({
      name: '9/16 in - deep',
      massEachKg: '0.06',
      pieces: '1',
    });
  });
});

describe('what a reader holds without the program says what its figures rest on', () => {
  const running = (included: boolean) =>
    all(
      put('steps[1].running', { min: '10 lbf·in', max: '24 lbf·in' }),
      put('steps[1].runningIncluded', included),
      put('steps[1].calloutSource', 'Drawing 7, sheet 2'),
    );
  const basis = [
    /ISO 14253-1/,
    /ISO 262, selected sizes table \(edition: .*\); ASME B1\.1, UNC and UNF series \(edition: /,
    /half to even.*limits inward/,
  ];

  it.each<[boolean, string]>([
    [true, 'callout 30–35 lbf·ft; of it running 10–24 lbf·in; left for seating 28–34 lbf·ft'],
    [
      false,
      'callout 30–35 lbf·ft; running 10–24 lbf·in, to be added; callout + running, on the wrench 32.0–35.8 lbf·ft',
    ],
  ])('running torque apart and the sum with its parts, included: %s', async (included, words) => {
    const { plan, result } = await answer(running(included));
    const text = bagText(plan, result).replaceAll(/\n +/g, ' ');
    const rows = Papa.parse<Record<string, string>>(bagCsv(plan, result), { header: true, skipEmptyLines: true }).data;
    const said = `${words}; source of the callout: Drawing 7, sheet 2`;
    expect(text).toContain(said);
    expect(rows.find(({ kind, step }) => kind === 'torque' && step === 'tighten')?.['says']).toMatch(
      new RegExp(`^set [\\d.]+ lbf·ft; ${said.replaceAll(/[.+]/g, String.raw`\$&`)}$`),
    );
    const rest = rows.filter(({ kind }) => kind === 'basis').map(({ says }) => says);
    for (const sentence of basis) {
      expect(text).toMatch(sentence);
      expect(rest).toContainEqual(expect.stringMatching(sentence));
    }
  });
});

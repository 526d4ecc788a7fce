import { describe, expect, it } from 'vitest';
import {
  compareKits,
  compareSteps,
  kitOfAnswer,
  readWithKit,
  stackChange,
} from '../../../renderer/engine/kits/index.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';
import type { Item, ItemOf } from '../../../shared-types/records/item.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const socket = (code: string, more: Partial<ItemOf<'socket'>> = {}): Item => ({
  ...{ id: `id-${code}`, rev: 1, shelf: 'a', code, retired: false, parts: 1, kit: 'field', kind: 'socket' },
  ...{ drive: '1/2 in', opening: { form: 'hex6', size: '9/16 in' }, length: '1.5 in', outsideDiameter: '0.8 in' },
  ...{ ratedTorque: '100 lbf·ft', mass: '90 g', onHand: 1 },
  ...more,
});

describe('two kits', () => {
  const mine = [socket('S-1'), socket('S-2'), socket('S-3', { length: '3 in' }), socket('S-4')];
  const theirs = [
    socket('S-1', { kit: 'training', keptAt: 'Bin 7', id: 'other' }),
    socket('S-2', { length: '38.1 mm', onHand: 2 }),
    socket('T-3', { length: '3 in', name: 'long one', onHand: 4 }),
    socket('S-9', { opening: { form: 'hex12', size: '5/8 in' } }),
  ];
  const compared = compareKits(mine, theirs);
  const codes = (items: readonly Item[]) => items.map(({ code }) => code);

  it('are the same where only the kit, the place and the record’s own fields differ', () => {
    expect(compared.same).toBe(1);
  });

  it('differ field by field, and say where two texts are one quantity', () => {
    expect(compared.differ.map(({ mine: { code }, fields }) => [code, fields])).toEqual([
      [
        'S-2',
        [
          { path: 'length', here: '1.5 in', file: '38.1 mm', same: true },
          { path: 'onHand', here: '1', file: '2', same: false },
        ],
      ],
    ]);
  });

  it('lack what the other has, but not what it has under another code', () => {
    expect(codes(compared.onlyMine)).toEqual(['S-4']);
    expect(codes(compared.onlyTheirs)).toEqual(['S-9']);
    expect(compared.renamed.map(({ mine: a, theirs: b }) => [a.code, b.code])).toEqual([['S-3', 'T-3']]);
  });

  it('turned round give the same turned round', () => {
    const round = compareKits(theirs, mine);
    expect([codes(round.onlyMine), codes(round.onlyTheirs), round.same]).toEqual([['S-9'], ['S-4'], 1]);
    expect(round.differ.map(({ fields }) => fields.map(({ here, file }) => [file, here]))).toEqual(
      compared.differ.map(({ fields }) => fields.map(({ here, file }) => [here, file])),
    );
  });
});

function smallRecords() {
  let next = 0;
  const { source } = planFrom(smallPlan());
  const made = recordsOfPlan(source, { shelfName: 'Crew', taskNamed: 'T', newId: () => `k${(next += 1)}` });
  return { ...made, interfaces: [], sites: [], shelves: [made.shelf] };
}

describe('the steps of a task with one kit and with another', () => {
  const records = smallRecords();
  const whole = records.items;
  const tighten = records.steps[1]?.code ?? '';
  const change = (kit: readonly Item[], code = tighten) =>
    stackChange(code, readWithKit(records, whole), readWithKit(records, kit));
  const best = change(whole).mine;
  const without = (code: string) => whole.filter((item) => item.code !== code);

  it('are the same with the same kit', () => {
    expect(change(whole)).toMatchObject({ effect: 'same', mine: { state: 'reached' } });
    expect(best.stack.length).toBeGreaterThan(1);
  });

  it('get another stack without their socket, and lose it without any that fits, with the closest fit', () => {
    const socketOf = best.stack.at(-1) ?? '';
    const other = change(without(socketOf));
    expect(other.effect).toBe('other-stack');
    const lost = change(without(socketOf).filter(({ code }) => code !== other.theirs.stack.at(-1)));
    expect(lost).toMatchObject({ effect: 'loses', theirs: { state: 'not-reached', stack: [] } });
    const gained = stackChange(tighten, readWithKit(records, []), readWithKit(records, whole));
    expect(gained.effect).toBe('gains');
  });

  it('get another stack or another reach where a piece is another one', () => {
    const longer = whole.map((item) =>
      item.code === best.stack.at(-1) && item.kind === 'socket' ? { ...item, length: '2.2 in' } : item,
    );
    const changed = change(longer);
    expect(['other-reach', 'other-stack']).toContain(changed.effect);
    expect(changed.theirs.reach).not.toBe(best.reach);
  });

  it('keep their fasteners from the task, and cannot be read without gear they name', () => {
    const fasteners = new Set(whole.filter(({ kind }) => kind === 'fastener').map(({ code }) => code));
    expect(change(whole.filter(({ code }) => !fasteners.has(code))).effect).toBe('same');
    const withGear = records.steps.find(({ gear = [] }) => gear.length > 0);
    const lost = change(without(withGear?.gear?.[0]?.id ?? ''), withGear?.code);
    expect(lost).toMatchObject({ effect: 'loses', theirs: { state: 'not-read' } });
    expect(lost.theirs.reasons.join()).toContain(withGear?.gear?.[0]?.id);
  });

  it('an answer is a kit of the most that one outing takes, and says what is not kept any more', () => {
    const first = whole.find(({ kind }) => kind === 'socket');
    const id = first?.code ?? '';
    const lines = (quantity: number) => ({
      lines: [
        { id, quantity },
        { id: 'GONE', quantity: 1 },
      ],
    });
    const { kit, gone } = kitOfAnswer(whole, [lines(1), lines(3)]);
    expect(kit.map((item) => [item.code, item.kind === 'bag' ? 0 : item.onHand])).toEqual([[id, 3]]);
    expect(gone).toEqual(['GONE']);
  });
});

it('the steps of two tasks differ field by field', () => {
  const { steps } = smallRecords();
  const [first, second, ...rest] = steps;
  if (first === undefined || second === undefined) throw new Error('no steps');
  const theirs = [{ ...first, code: 'new' }, { ...second, role: 'Second' }, ...rest];
  const compared = compareSteps(steps, theirs, new Map());
  expect(compared.onlyMine.map(({ code }) => code)).toEqual([first.code]);
  expect(compared.onlyTheirs.map(({ code }) => code)).toEqual(['new']);
  expect(compared.differ.map(({ mine, fields }) => [mine.code, fields])).toEqual([
    [second.code, [{ path: 'role', here: second.role, file: 'Second' }]],
  ]);
  expect(compared.same).toBe(rest.length);
});

/** A torque on its way into steps: from a callout or a row of the handbook, what it changes, one act for several; which steps are offered. */
import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { stepRecord } from '../../../shared-types/records/task.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { choicesOf, filteredSteps, offeredSteps } from '../../../renderer/features/callouts/stepsToSend.ts';
import { bandsToTake, calloutToTake, takeTorque, withTorque } from '../../../renderer/features/steps/takenTorque.ts';
import { torqueChanges } from '../../../renderer/features/steps/TorqueChange.tsx';

const step = (code: string, more: Partial<TaskStep> = {}): TaskStep => ({
  ...{ id: `key-${code}`, rev: 3, task: 't', position: 0, code, outing: 'o', role: 'r', action: 'tighten' },
  ...more,
});
const kept = (cells: Record<string, string>) => ({ id: 'key-c', rev: 1, list: 'l', position: 0, cells });
const cells = { id: 'C-7', thread: 'M12', torque: '70 lbf·ft', tolerance: '10 %', lubrication: 'clean dry' };

describe('a torque taken from a callout', () => {
  const torque = calloutToTake(kept(cells), 'Drawing');

  it('brings band, source and condition, and says where it is from', () => {
    const taken = withTorque(
      step('s', { callout: { min: '1 N·m', max: '2 N·m' }, running: { min: '1 N·m', max: '2 N·m' } }),
      torque,
    );
    expect(taken).toMatchObject({
      callout: { min: '63 lbf·ft', max: '77 lbf·ft' },
      calloutSource: 'Callout C-7 of “Drawing”: clean dry',
      calloutFrom: { kind: 'callout', callout: 'key-c', id: 'C-7', condition: 'clean dry' },
      running: { min: '1 N·m', max: '2 N·m' },
      rev: 3,
    });
    expect(stepRecord.safeParse(taken).success).toBe(true);
  });

  it('names the callout’s own source where it has one', () => {
    const own = calloutToTake(kept({ ...cells, source: 'Drawing 7, note 3' }), 'Drawing');
    expect(own.fields.calloutSource).toBe('Drawing 7, note 3');
  });

  it('tells what it changes, before and after, and that nothing is left to change', () => {
    const before = step('s', { callout: { min: '60 lbf·ft', max: '77 lbf·ft' } });
    expect(
      torqueChanges(before, torque, 'as-written').map(({ field, before: was, after }) => [field, was, after]),
    ).toEqual([
      ['torque', '60–77 lbf·ft', '63–77 lbf·ft'],
      ['condition', 'none', 'clean dry'],
      ['source', 'none', 'Callout C-7 of “Drawing”: clean dry'],
    ]);
    expect(torqueChanges(withTorque(before, torque), torque, 'both')).toEqual([]);
  });

  it('goes into several steps as one act', () => {
    const act = takeTorque(
      [
        { step: step('a'), number: 1 },
        { step: step('b'), number: 4 },
      ],
      torque,
    );
    expect(act.title).toBe('Take the torque of callout C-7 into 2 steps');
    expect(act.proposals).toHaveLength(2);
    expect(takeTorque([{ step: step('b'), number: 4 }], torque).title).toBe(
      'Take the torque of callout C-7 into step 4',
    );
  });

  it('is refused of a callout that cannot be read', () => {
    expect(() => calloutToTake(kept({ ...cells, tolerance: '10' }), 'Drawing')).toThrow(/unit/);
  });
});

describe('a torque taken from the handbook', () => {
  it('is any band of the thread that is printed with both ends, its stated tolerance in it', () => {
    const all = bandsToTake(readThread('M12'));
    expect(all.map(({ fields }) => [fields.callout, fields.calloutSource])).toEqual([
      [
        { min: '63 lbf·ft', max: '77 lbf·ft' },
        'TM 9-2320-362-14&P, Table F-1, M12: 70 lbf·ft with a tolerance of 10 %; millimetre size under the column of grade 5 (no ISO class), clean dry threads.',
      ],
      [expect.anything(), expect.stringContaining('column of grade 8')],
    ]);
    expect(all[0]?.fields.calloutFrom).toMatchObject({ kind: 'handbook', table: 'torque-army-table-f1', row: 'M12' });
    const fine = bandsToTake(readThread('1/4-28'));
    expect(fine[0]?.fields).toMatchObject({
      callout: { min: '50 lbf·in', max: '70 lbf·in' },
      calloutFrom: { table: 'torque-faa-ac-43.13-fine', row: '1/4-28' },
    });
    // Greatest allowable torques, printed alone, are no band.
    expect(fine.some(({ fields }) => fields.calloutFrom.condition?.includes('maximum allowable') === true)).toBe(false);
    for (const { fields } of fine) expect(stepRecord.safeParse(step('s', fields)).success).toBe(true);
  });
});

describe('the steps offered', () => {
  const at = (id: string, code: string, fastener: string): [string, Interface] => [
    id,
    { id, rev: 1, site: 'x', code, name: `Flange ${code}`, kind: 'fastener', fastener, count: 4 },
  ];
  const fastener = (code: string, thread: string): Item => ({
    ...{ retired: false, parts: 1, kit: 'field' },
    ...{ id: code, rev: 1, shelf: 'x', kind: 'fastener', code, thread, head: { form: 'hex', acrossFlats: '10 mm' } },
  });
  const known = {
    stock: [fastener('F-12', 'M12'), fastener('F-10', 'M10 x 1.5')],
    sites: { sites: new Map(), interfaces: new Map([at('i-1', 'A1', 'F-12'), at('i-2', 'A2', 'F-10')]) },
  };
  const steps = [
    step('a', { interface: 'i-1' }),
    step('b', { interface: 'i-2', name: 'Close the cover' }),
    step('c', { action: 'loosen', interface: 'i-1' }),
    step('d', { fastener: 'F-12' }),
    step('e'),
  ];
  const offered = offeredSteps(steps, known);
  const codes = (filter: Partial<Parameters<typeof filteredSteps>[1]>) =>
    filteredSteps(offered, { text: '', interface: '', thread: '', ...filter }).map((one) => one.step.code);

  it('are those that tighten, with their number in the task', () => {
    expect(offered.map((one) => [one.number, one.step.code, one.interfaceCode, one.thread])).toEqual([
      [1, 'a', 'A1', 'M12x1.75'],
      [2, 'b', 'A2', 'M10x1.5'],
      [4, 'd', '', 'M12x1.75'],
      [5, 'e', '', ''],
    ]);
  });

  it('are chosen by interface, thread, code and words', () => {
    expect(codes({})).toEqual(['a', 'b', 'd', 'e']);
    expect(codes({ interface: 'A1' })).toEqual(['a']);
    expect(codes({ thread: 'M12x1.75' })).toEqual(['a', 'd']);
    expect(codes({ text: 'cover' })).toEqual(['b']);
    expect(codes({ text: 'flange a2 m10' })).toEqual(['b']);
    expect(codes({ text: 'e', thread: 'M12x1.75' })).not.toContain('e');
    expect(choicesOf(offered, 'thread')).toEqual(['M10x1.5', 'M12x1.75']);
    expect(choicesOf(offered, 'interfaceCode')).toEqual(['A1', 'A2']);
  });
});

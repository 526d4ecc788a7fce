import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskRecords } from '../../../renderer/engine/records/planOfTask.ts';
import { planOfTask } from '../../../renderer/engine/records/planOfTask.ts';
import { readableTask } from '../../../renderer/engine/records/readableTask.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { keptTask } from './keptTask.ts';

const { records, shelf, task } = keptTask(smallPlan());

function changedItem(code: string, change: object): TaskRecords {
  return {
    ...records,
    items: records.items.map((item) => (item.code === code ? ({ ...item, ...change } as Item) : item)),
  };
}

function changedStep(code: string, change: object): TaskRecords {
  return { ...records, steps: records.steps.map((step) => (step.code === code ? { ...step, ...change } : step)) };
}

const missingOf = (of: TaskRecords) =>
  readableTask(of).missing.map(({ table, code, path, reason }) => `${table} ${code} ${path}: ${reason}`);
const stepsOf = (of: TaskRecords) => readableTask(of).resolved.steps.map(({ id }) => id);

describe('a task that can be read whole', () => {
  it('is complete', () => {
    expect(readableTask(records)).toMatchObject({ complete: true, missing: [], leftOut: [] });
  });

  it('leaves out of the plan what its rules cannot use, and says so without a fault', () => {
    const spare = {
      ...records.items.find(({ code }) => code === 'X-6'),
      id: 'spare',
      code: 'OH-1',
      form: 'offset-head',
    } as Item;
    const full = { ...records.items.find(({ code }) => code === 'TT-2'), id: 'full', code: 'TT-9' } as Item & {
      kind: 'torque-tool';
    };
    delete full.accuracyOfReading;
    const of = {
      ...changedItem('S-9/16-12', { retired: true }),
    };
    const read = readableTask({ ...of, items: [...of.items, spare, { ...full, accuracyOfFullScale: 0.01 }] });
    expect(read.complete).toBe(true);
    expect(read.leftOut.map(({ code, reason, isFault }) => [code, reason.split(':')[0], isFault])).toEqual([
      ['S-9/16-12', 'retired', false],
      ['OH-1', 'an offset head', false],
      ['TT-9', 'its accuracy is known of full scale only', false],
    ]);
    expect([...read.resolved.sockets.keys()]).toEqual(['S-9/16']);
  });
});

describe('a task with work in hand', () => {
  it('reads the other steps, and names the one that lacks something by its record', () => {
    const of = changedStep('tighten', { callout: undefined });
    expect(missingOf(of)).toEqual(['steps tighten callout: is missing: a step that tightens has a callout']);
    expect(stepsOf(of)).toEqual(['loosen', 'cap']);
    expect(readableTask(of).complete).toBe(false);
    expect(readableTask(of).plan.steps).toHaveLength(3);
  });

  it('says of a step why the fastener it names is not there', () => {
    const of = changedItem('F1', { retired: true });
    expect(missingOf(of)).toEqual([
      'steps loosen fastener: no fastener has the code "F1": it is left out (retired)',
      'steps tighten fastener: no fastener has the code "F1": it is left out (retired)',
    ]);
    expect(stepsOf(of)).toEqual(['cap']);
  });

  it('takes out an item that cannot be read, then what stood on it', () => {
    const of = changedItem('F1', { thread: 'bolt' });
    const [first, ...others] = missingOf(of);
    expect(first).toMatch(/^items F1 thread: /);
    expect(others).toHaveLength(2);
    for (const one of others)
      expect(one).toMatch(/no fastener has the code "F1": it is left out \(it cannot be read: /);
    expect(stepsOf(of)).toEqual(['cap']);
  });

  it('speaks of what is left out only where its name is asked for', () => {
    const of = changedItem('F1', { retired: true, code: '12' });
    const [socket] = missingOf({
      ...of,
      items: of.items.map((item) => (item.code === 'S-9/16' ? ({ ...item, length: '12' } as Item) : item)),
    });
    expect(socket).toMatch(/^items S-9\/16 length: .*no unit/);
    expect(socket).not.toContain('left out');
  });

  it('keeps its name in what is read, and loses it alone where that cannot be read', () => {
    expect(readableTask(records).resolved.source.task).toEqual({ id: task.code, name: task.name });
    const of = { ...records, task: { ...task, about: 'x'.repeat(3000) } };
    expect(missingOf(of)).toHaveLength(1);
    expect(missingOf(of)[0]).toMatch(/^tasks plan task\.about: .*at most 2000/);
    expect(readableTask(of).resolved.source).not.toHaveProperty('task');
    expect(stepsOf(of)).toEqual(['loosen', 'tighten', 'cap']);
  });

  it('takes out the steps of an outing that is not there, or has not their role', () => {
    const gone = { ...records, outings: [] };
    expect(missingOf(gone)).toEqual([
      'steps loosen outing: no outing has the code "O1"',
      'steps tighten outing: no outing has the code "O1"',
      'steps cap outing: no outing has the code "O1"',
    ]);
    const short = { ...records, outings: records.outings.map((outing) => ({ ...outing, roles: ['Lead'] })) };
    expect(missingOf(short)).toEqual(['steps cap role: outing "O1" has no role "Second", only Lead']);
    expect(stepsOf(short)).toEqual(['loosen', 'tighten']);
  });

  it('takes out an outing whose bag is not there, and then its steps', () => {
    const of = { ...records, items: records.items.filter(({ code }) => code !== 'B-1') };
    expect(missingOf(of)).toEqual([
      'outings O1 bags[0]: no bag has the code "B-1"',
      ...['loosen', 'tighten', 'cap'].map((code) => `steps ${code} outing: no outing has the code "O1"`),
    ]);
    expect(readableTask(of).resolved.outings).toEqual([]);
  });

  it('names a step’s second fault once the first is mended', () => {
    const of = changedStep('loosen', { demand: undefined, gear: [{ id: 'C-9', quantity: 1 }] });
    expect(missingOf(of).toSorted()).toEqual([
      'steps loosen demand: is missing: a step that loosens says the torque its parts must bear',
      'steps loosen gear[0].id: no carry gear has the code "C-9"',
    ]);
  });

  it('lays a fault of a place at the task', () => {
    const of = { ...records, task: { ...task, places: [{ id: 'a' }, { id: 'a' }] } };
    expect(missingOf(of)).toEqual(['tasks plan places[1].id: "a" is already an id in places']);
    expect(stepsOf(of)).toHaveLength(3);
  });

  it('reads a task without anything', () => {
    const of = { ...records, outings: [], steps: [], items: [] };
    expect(readableTask(of)).toMatchObject({ complete: true, missing: [] });
  });
});

describe('two shelves of one task', () => {
  const other = { id: 'other', rev: 0, name: 'Training kit' };
  const twin = { ...records.items.find(({ code }) => code === 'S-9/16'), id: 'twin', shelf: 'other' } as Item;
  const both = { ...task, shelves: [shelf.id, 'other'] };

  it('must not hold one code: neither is used, and both shelves are named', () => {
    const of = { ...records, task: both, shelves: [shelf, other], items: [...records.items, twin] };
    const read = readableTask(of);
    expect(read.complete).toBe(false);
    expect(missingOf(of)).toHaveLength(2);
    for (const one of missingOf(of)) expect(one).toMatch(/"S-9\/16" is on Field kit and on Training kit/);
    expect([...read.resolved.sockets.keys()]).toEqual(['S-9/16-12']);
  });

  it('may hold it where one of the two is retired', () => {
    const of = {
      ...records,
      task: both,
      shelves: [shelf, other],
      items: [...records.items, { ...twin, retired: true }],
    };
    expect(readableTask(of).complete).toBe(true);
  });

  it('are named where one is not kept any more', () => {
    expect(missingOf({ ...records, task: both })).toEqual([
      'tasks plan shelves[1]: a shelf it draws on is not kept any more: take it off the task',
    ]);
  });
});

describe('the site of a task', () => {
  const sites = [
    { id: 'a', rev: 0, code: 'A', name: 'Mast' },
    { id: 'b', rev: 0, code: 'B', name: 'Hill' },
    { id: 'c', rev: 0, code: 'C' },
  ] as TaskRecords['sites'];
  const siteOf = (change: object) => planOfTask({ ...records, sites, task: { ...task, ...change } }).plan.task?.site;

  it('is the kept site it names, by name or else by code, unless it has words of its own', () => {
    expect(siteOf({ site: 'b' })).toBe('Hill');
    expect(siteOf({ site: 'c' })).toBe('C');
    expect(siteOf({ site: 'b', siteText: 'A roof' })).toBe('A roof');
    expect(siteOf({})).toBeUndefined();
  });
});

describe('a step at an interface', () => {
  const at: Interface = {
    id: 'i',
    rev: 0,
    site: 's',
    code: 'A',
    kind: 'fastener',
    fastener: 'F1',
    count: 6,
    access: { depth: '2 in' },
    watchOuts: ['Sharp edge.', 'Ice.'],
  };
  const silent = {
    interface: 'i',
    fastener: undefined,
    count: undefined,
    access: undefined,
    watchOuts: ['Ice.', 'Slow.'],
  };
  const of = (change: object = {}) => ({ ...changedStep('loosen', { ...silent, ...change }), interfaces: [at] });
  const entry = (change: object = {}) => planOfTask(of(change)).plan.steps.find(({ id }) => id === 'loosen');

  it('takes from it what it does not say, and its watch-outs first', () => {
    expect(entry()).toMatchObject({
      fastener: 'F1',
      count: 6,
      access: { depth: '2 in' },
      watchOuts: ['Sharp edge.', 'Ice.', 'Slow.'],
    });
  });

  it.each([
    ['the interface', ['Ice.'], undefined],
    ['the step', undefined, ['Ice.']],
  ])('says a single watch-out, be it that of %s', (_, ofInterface, ofStep) => {
    const { watchOuts: _watchOuts, ...calm } = at;
    const one: Interface = { ...calm, ...(ofInterface === undefined ? {} : { watchOuts: ofInterface }) };
    const { plan } = planOfTask({ ...of({ watchOuts: ofStep }), interfaces: [one] });
    expect(plan.steps.find(({ id }) => id === 'loosen')?.watchOuts).toEqual(['Ice.']);
  });

  it('has its own word where it says it', () => {
    expect(entry({ count: 2, access: { depth: '1 in' } })).toMatchObject({ count: 2, access: { depth: '1 in' } });
  });

  it('does not count all positions where it names some', () => {
    expect(entry({ positions: '1 to 3' })).not.toHaveProperty('count');
  });

  it('is not judged once the interface is gone: what stood in the way is gone with it', () => {
    const gone = { ...of({ fastener: 'F1' }), interfaces: [] };
    expect(missingOf(gone)).toEqual([
      'steps loosen interface: the interface it names is not kept any more: name another, or none',
    ]);
    expect(stepsOf(gone)).toEqual(['tighten', 'cap']);
  });
});

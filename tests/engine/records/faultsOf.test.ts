import { describe, expect, it } from 'vitest';
import { itemKinds, type Item } from '../../../shared-types/records/item.ts';
import type { RecordOf, TableName } from '../../../shared-types/records/index.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';
import { incompletenessOf } from '../../../renderer/engine/records/incompletenessOf.ts';
import { newItem } from '../../../renderer/engine/records/newItem.ts';
import { planEntryOf } from '../../../renderer/engine/records/planEntries.ts';
import { recordSchemas } from '../../../shared-types/records/index.ts';
import { put } from '../../support/editJson.ts';
import { fullPlan } from './fullPlan.ts';
import { keptTask } from './keptTask.ts';

const { records } = keptTask(fullPlan());
const [step] = records.steps;
const item = (code: string): Item => {
  const found = records.items.find((one) => one.code === code);
  if (found === undefined) throw new Error(code);
  return structuredClone(found);
};

const samples: Record<string, () => { table: TableName; record: object }> = {
  fastener: () => ({ table: 'items', record: item('F-1') }),
  lobed: () => ({ table: 'items', record: item('F-2') }),
  socket: () => ({ table: 'items', record: item('S-16') }),
  extension: () => ({ table: 'items', record: item('X-1') }),
  driver: () => ({ table: 'items', record: item('R-1') }),
  tool: () => ({ table: 'items', record: item('TT-1') }),
  setTool: () => ({ table: 'items', record: item('TT-2') }),
  gear: () => ({ table: 'items', record: item('C-1') }),
  bag: () => ({ table: 'items', record: item('B-1') }),
  step: () => ({ table: 'steps', record: structuredClone(step ?? {}) }),
  task: () => ({ table: 'tasks', record: structuredClone(records.task) }),
  outing: () => ({ table: 'outings', record: structuredClone(records.outings[0] ?? {}) }),
  shelf: () => ({ table: 'shelves', record: { id: 's', rev: 0, name: 'Field kit' } }),
  site: () => ({ table: 'sites', record: { id: 's', rev: 0, code: 'M', name: 'Mast' } }),
  interface: () => ({
    table: 'interfaces',
    record: { id: 'i', rev: 0, site: 's', code: 'A', kind: 'fastener', count: 4, access: { depth: '20 mm' } },
  }),
};

function faultsWith(sample: string, path: string, value: unknown): { path: string; message: string }[] {
  const made = samples[sample]?.();
  if (made === undefined) throw new Error(sample);
  put(path, value)(made.record);
  return faultsOf(made.table, made.record);
}

describe('a sound record', () => {
  it.each(Object.keys(samples))('of %s has no fault', (name) => {
    const made = samples[name]?.();
    expect(made === undefined ? 'none' : faultsOf(made.table, made.record)).toEqual([]);
  });
});

/** Sample, field, entry, where the fault stands, what it says. */
const refused: [sample: string, path: string, value: unknown, at: string, says: RegExp][] = [
  ['socket', 'mass', '12', 'mass', /^"12" has no unit: write it with one, as "12 kg" or "12 lb"/],
  ['socket', 'mass', '12 mm', 'mass', /^"12 mm": "mm" is a unit of length.*write it as "350 g" or "12 oz"/],
  ['socket', 'length', '0 mm', 'length', /^"0 mm" must be more than 0: write it as "12 mm" or "7\/16 in"/],
  ['socket', 'length', '-1 mm', 'length', /^"-1 mm" must be 0 or more/],
  ['socket', 'length', 12, 'length', /bare number: write it as a text with its unit, as "12 mm"/],
  ['socket', 'length', '', 'length', /^is empty: write it as "12 mm" or "7\/16 in"/],
  ['socket', 'length', undefined, 'length', /^is missing: write it as "12 mm" or "7\/16 in"/],
  ['socket', 'drive', '11 mm', 'drive', /^"11 mm" is no square drive known here: 1\/4 in, 3\/8 in/],
  ['socket', 'ratedTorque', '45 foo', 'ratedTorque', /"foo" is no unit known here.*"60 N·m" or "45 lbf·ft"/],
  ['socket', 'ratedTorque', '1,200 lbf·in', 'ratedTorque', /"1,200 lbf·in"/],
  ['socket', 'opening.size', 'wide', 'opening.size', /^"wide".*"13 mm" or "1\/2 in"/],
  ['socket', 'volume', '3 g', 'volume', /"0.5 L" or "30 in3"/],
  ['socket', 'onHand', 1.5, 'onHand', /whole number/],
  ['socket', 'onHand', -1, 'onHand', /at least 0/],
  ['socket', 'parts', 0, 'parts', /at least 1/],
  ['socket', 'colour', 'red', 'colour', /is no field known here/],
  ['socket', 'code', ' S', 'code', /begins or ends with a space/],
  ['socket', 'code', '', 'code', /is empty/],
  ['socket', 'code', '  ', 'code', /is blank/],
  ['extension', 'driveIn', '7 mm', 'driveIn', /no square drive/],
  ['extension', 'driveOut', 'x', 'driveOut', /"3\/8 in" or "10 mm"/],
  ['extension', 'offset', '3 kg', 'offset', /unit of mass/],
  ['driver', 'lever', 'long', 'lever', /"long"/],
  ['driver', 'stepDeg', 400, 'stepDeg', /at most 360/],
  ['tool', 'min', '70 N·m', 'min', /^"70 N·m" is above this tool’s max, 60 N·m|above this tool's max, 60 N·m/],
  ['tool', 'max', 'x N·m', 'max', /"x N·m"/],
  ['tool', 'increment', undefined, 'increment', /neither/],
  ['tool', 'settings', ['20 N·m'], 'settings', /both/],
  ['tool', 'increment', '0 N·m', 'increment', /more than 0/],
  ['setTool', 'settings', ['20 N·m', '40'], 'settings[1]', /"40" has no unit/],
  ['tool', 'accuracyOfReading', undefined, 'accuracyOfReading', /is missing: .*as 0.04 for 4 %/],
  ['tool', 'accuracyOfFullScale', 0.02, 'accuracyOfFullScale', /both are given/],
  ['tool', 'accuracyOfReading', 4, 'accuracyOfReading', /less than 1/],
  ['tool', 'calibrationDue', '2027-02-30', 'calibrationDue', /"2027-02-30" is no day.*"2027-03-31" or/],
  ['tool', 'calibrationDue', '31.3.2027', 'calibrationDue', /no day of the calendar/],
  ['fastener', 'thread', 'M10x7', 'thread', /^Thread "M10x7"/],
  ['fastener', 'thread', 'bolt', 'thread', /bolt/],
  ['fastener', 'head.acrossFlats', '16', 'head.acrossFlats', /"16" has no unit/],
  ['fastener', 'length', '4 kg', 'length', /unit of mass/],
  ['fastener', 'mass', '4 mm', 'mass', /unit of length/],
  ['fastener', 'acrossFlatsLimits', { min: '17 mm', max: '16 mm' }, 'acrossFlatsLimits.min', /above max, "16 mm"/],
  ['fastener', 'acrossFlatsLimits', { min: '16 mm', max: 'x' }, 'acrossFlatsLimits.max', /"12 mm" or "7\/16 in"/],
  [
    'lobed',
    'head.acrossFlats',
    '7 mm',
    'head.acrossFlats',
    /^"7 mm" is no hexalobular size: write it as "T30" or "T25"/,
  ],
  ['lobed', 'head.acrossFlats', 'big', 'head.acrossFlats', /no hexalobular size/],
  ['gear', 'ratedMass', '3 N·m', 'ratedMass', /unit of torque/],
  ['bag', 'massMax', 'much', 'massMax', /"much"/],
  ['bag', 'sizeMax', '3 L', 'sizeMax', /unit of volume/],
  ['step', 'callout.min', '50 N·m', 'callout.min', /^"50 N·m" is above max, 40 N·m/],
  ['step', 'callout.max', '40', 'callout.max', /"40" has no unit/],
  ['step', 'running.min', '4 N·m', 'running.min', /above max, 3 N·m/],
  ['step', 'demand', '50 mm', 'demand', /unit of length/],
  ['step', 'access.depth', 'deep', 'access.depth', /"deep"/],
  ['step', 'hold.access.clearDiameter', '3', 'hold.access.clearDiameter', /"3" has no unit/],
  ['step', 'count', 0, 'count', /at least 1/],
  ['step', 'minutes', -1, 'minutes', /at least 0/],
  ['step', 'passes', ['50 %', '120 %'], 'passes[1]', /"120 %" is no pass.*"50 %" or "30 lbf·ft"/],
  ['step', 'passes', ['half'], 'passes[0]', /"half".*"50 %" or "30 lbf·ft"/],
  ['step', 'ifFails', { step: 'fit', how: 'stuck' }, 'ifFails.step', /"fit" is this step itself/],
  ['step', 'action', 'paint', 'action', /"tighten" or "loosen" or "use"/],
  ['interface', 'access.depth', '1 kg', 'access.depth', /unit of mass/],
  ['interface', 'count', 0, 'count', /at least 1/],
  ['task', 'name', ' ', 'name', /blank/],
  ['task', 'places', [{ id: 'bag' }], 'places[0].id', /"bag" is the word for not left anywhere/],
  ['task', 'places', [{ id: 'a' }, { id: 'a' }], 'places[1].id', /"a" is listed twice/],
  ['task', 'rangeShareMin', 2, 'rangeShareMin', /at most 1/],
  ['outing', 'bags', ['B-1', 'B-1'], 'bags[1]', /"B-1" is listed twice/],
  ['shelf', 'name', '  ', 'name', /blank/],
  ['site', 'code', 'M ', 'code', /space/],
];

describe('what must never be kept', () => {
  it.each(refused)('%s with %s %j: one fault at %s', (sample, path, value, at, says) => {
    const faults = faultsWith(sample, path, value);
    expect(faults.map((fault) => fault.path)).toEqual([at]);
    expect(faults[0]?.message).toMatch(says);
  });

  it('does not compare a limit with one that cannot be read', () => {
    const tool = item('TT-1');
    put('max', 'x')(tool);
    put('min', '15 N·m')(tool);
    expect(faultsOf('items', tool).map(({ path }) => path)).toEqual(['max']);
  });

  it('names both limits where neither can be read', () => {
    expect(faultsWith('step', 'callout', { min: 'few', max: 'x' }).map(({ path }) => path)).toEqual([
      'callout.min',
      'callout.max',
    ]);
  });

  it('says once how a field is written, and not at all where the writing is not what is wrong', () => {
    const waysToWrite = (...given: Parameters<typeof faultsWith>) =>
      faultsWith(...given).map(({ message }) => message.match(/write it/g)?.length ?? 0);
    expect(waysToWrite('socket', 'mass', '12')).toEqual([1]);
    expect(waysToWrite('socket', 'length', '0 mm')).toEqual([1]);
    expect(waysToWrite('step', 'callout.min', '50 N·m')).toEqual([0]);
    // All the sizes there are have been named.
    expect(waysToWrite('extension', 'driveIn', '7 mm')).toEqual([0]);
  });

  it('names every fault of a record at once', () => {
    const socket = item('S-16');
    put('mass', '1')(socket);
    put('length', 'x')(socket);
    put('drive', '1 kg')(socket);
    expect(faultsOf('items', socket).map(({ path }) => path)).toEqual(['mass', 'drive', 'length']);
  });
});

describe('what may be kept', () => {
  it('is what a tool known by full scale says, though no plan has it', () => {
    const { accuracyOfReading: _, ...tool } = item('TT-1') as RecordOf<'items'> & { accuracyOfReading?: number };
    const known = { ...tool, accuracyOfFullScale: 0.01 } as Item;
    expect(faultsOf('items', known)).toEqual([]);
    expect(planEntryOf(known)).toBeNull();
  });

  it('is a step that the planner cannot use yet', () => {
    const bare = { id: 'a', rev: 0, task: 't', position: 1, code: '1', outing: 'O', role: 'Lead' };
    const tighten = { ...bare, action: 'tighten' as const };
    expect(faultsOf('steps', tighten)).toEqual([]);
    expect(incompletenessOf(tighten, null).map(({ path }) => path)).toEqual(['fastener', 'callout']);
    const loosen = { ...bare, action: 'loosen' as const, runningIncluded: false };
    expect(incompletenessOf(loosen, null).map(({ path }) => path)).toEqual(['running', 'fastener', 'demand']);
    const at = { id: 'i', rev: 0, site: 's', code: 'A', kind: 'fastener' as const, fastener: 'F-1', count: 2 };
    expect(incompletenessOf({ ...loosen, runningIncluded: true, demand: '3 N·m' }, at)).toEqual([]);
    expect(incompletenessOf({ ...bare, action: 'use' }, null)).toEqual([]);
  });
});

describe('what the planner needs of a step', () => {
  const bare = { id: 'a', rev: 0, task: 't', position: 1, code: '1', outing: 'O', role: 'Lead' };
  it.each([
    ['tighten', 'a step that tightens names its fastener'],
    ['loosen', 'a step that loosens names its fastener'],
  ] as const)('is told in the words of what it does: %s', (action, says) => {
    const need = incompletenessOf({ ...bare, action }, null).find(({ path }) => path === 'fastener');
    expect(need?.message).toContain(says);
  });
});

describe('a new item', () => {
  it.each(itemKinds)('of kind %s asks for its figures and for nothing else', (kind) => {
    const draft = newItem(kind, { id: 'a', shelf: 's' });
    const faults = faultsOf('items', draft);
    expect(faults.map(({ path }) => path)).toContain('code');
    for (const { path, message } of faults) expect(`${path} ${message}`).toMatch(/is (?:empty|missing)/);
    expect(recordSchemas.items.safeParse(draft).success).toBe(false);
  });
});

/** A window with a task, sites, watch-outs and two shelves whose names no column was made for. All figures invented. */
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Proposal } from '../../../renderer/store/store.ts';
import { shownPlan } from '../fixtures/plans.ts';
import { byCode, openTask } from './openTask.tsx';

/** One long word, many words, from right to left, and both ways at once. */
const hardNames = {
  word: 'Flanschverschraubungsdrehmomentschlüsselverlängerungsaufnahme'.repeat(2),
  words: 'many words of a name that goes on '.repeat(5).trim(),
  rtl: 'مفتاح عزم الدوران للغطاء الخلفي',
  both: 'غطاء Deckel (M10) خلفي',
} as const;

const plan = () => {
  const source = shownPlan();
  const [loosen, tighten, cap, deep] = source.steps;
  return {
    ...source,
    task: { id: 'T-1', name: `Cover change ${hardNames.both}`, site: 'Test stand. Invented.' },
    places: [{ id: 'rock', name: hardNames.rtl }],
    outings: [{ id: 'O1', name: 'Off', roles: ['Lead', 'Second'], bags: ['B-1'], minutesMax: 60 }],
    steps: [
      { ...loosen, minutes: 10 },
      { ...tighten, minutes: 12 },
      { ...cap, minutes: 5 },
      { ...deep, minutes: 8 },
      { ...loosen, id: 'word', name: hardNames.word },
      { ...loosen, id: 'words', name: hardNames.words },
      { ...loosen, id: 'rtl', name: hardNames.rtl },
    ],
  };
};

const put = (table: TableName, record: AnyRecord): Proposal => ({ table, put: record }) as Proposal;

export async function openCrowded(address: string) {
  const opened = await openTask(plan(), address);
  const { store, taskId } = opened;
  const items = [...(await byCode(store, 'items')).values()];
  const steps = await byCode(store, 'steps');
  const shelf = items[0]?.shelf ?? '';
  const ofKind = (kind: Item['kind']): Item => {
    const found = items.find((item) => item.kind === kind);
    if (found === undefined) throw new Error(`no ${kind}`);
    return found;
  };
  const socket = ofKind('socket');
  const tool = ofKind('torque-tool');
  const copy = (one: Item, id: string, more: object): Proposal =>
    put('items', { ...one, id, rev: 0, code: id, ...more } as Item);
  const person = 'A. Tester';
  const learned = { in: 'task' as const, task: taskId, words: 'step tighten', on: '2026-11-20', person };
  const watchOut = { rev: 0, learned };
  await store.commit({
    action: 'add-site',
    title: 'Crowd',
    undoable: false,
    proposals: [
      put('shelves', { id: 'hall', rev: 0, name: `Training hall ${hardNames.words}` }),
      copy(socket, 'S-WORD', { name: hardNames.word, keptAt: hardNames.words, notes: hardNames.rtl, kit: 'both' }),
      copy(socket, 'S-RTL', { name: hardNames.rtl, retired: true }),
      copy(socket, 'S-10', { name: 'Socket', keptAt: 'tray 2' }),
      copy(socket, 'S-1O', { name: 'Socket', keptAt: 'tray 10' }),
      copy(socket, 'hall-socket', { code: socket.code, shelf: 'hall', length: '31.75 mm', name: hardNames.both }),
      copy(tool, 'TT-DUE', { name: 'Torque wrench', serial: 'SN-7', calibrationDue: '2026-01-31', kit: 'both' }),
      put('sites', { id: 'rock', rev: 0, code: 'SRL', name: `Sea rock ${hardNames.both}`, notes: hardNames.words }),
      put('sites', { id: 'bare', rev: 0, code: 'W'.repeat(60), name: hardNames.word }),
      put('interfaces', {
        ...{ id: 'b', rev: 0, site: 'rock', code: 'B', name: 'flange bolt', kind: 'fastener', count: 12 },
        ...{ fastener: 'F1', pattern: 'circle 240 mm', watchOuts: ['Wet.'] },
        order: ['1', '7', '4', '10', '2', '8', '5', '11', '3', '9', '6', '12'],
        access: { depth: '2 in', clearDiameter: '1 in', swingDeg: 60, handleRadius: '8 in' },
      }),
      put('interfaces', {
        ...{ id: 'c', rev: 0, site: 'rock', code: 'C', name: hardNames.rtl },
        kind: 'cover',
        count: 1,
      }),
      put('steps', {
        ...{ id: 'open', rev: 0, task: taskId, position: 9e6, code: 'open', outing: 'O1', role: 'Lead' },
        ...{ action: 'tighten', contingency: true, ifFails: { step: 'loosen', how: 'stuck' } },
      }),
      put('watchOuts', {
        ...{ ...watchOut, id: 'w1', text: `${hardNames.words}. The stud seizes on the last turn.` },
        ties: [{ to: 'interface', interface: 'b', called: 'B of SRL' }],
      }),
      put('watchOuts', {
        ...{ ...watchOut, id: 'w2', text: hardNames.rtl, learned: { ...learned, in: 'said', words: hardNames.word } },
        ties: [
          { to: 'item', shelf, code: socket.code, called: socket.code },
          { to: 'step', step: steps.get('tighten')?.id ?? '', called: 'step tighten' },
        ],
      }),
      put('watchOuts', {
        ...{ ...watchOut, id: 'w3', text: 'Sealed with wax: warm it.' },
        ties: [{ to: 'item', shelf, code: socket.code, called: socket.code }],
        retired: { reason: 'New seal', person, at: '2026-11-22T10:00:00Z' },
      }),
    ],
  });
  return { ...opened, shelf, socket, tool };
}

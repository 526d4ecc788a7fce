import { describe, expect, it } from 'vitest';
import {
  carriedToSteps,
  watchOutsOfInterface,
  watchOutsOfItem,
  watchOutsOfStep,
} from '../../../renderer/engine/watchOuts/index.ts';
import { watchOutRecord } from '../../../shared-types/records/watchOut.ts';
import type { WatchOut, WatchOutTie } from '../../../shared-types/records/watchOut.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';

const learned = (text: string, ties: WatchOutTie[], more: Partial<WatchOut> = {}): WatchOut => ({
  ...{ id: text.replace(/\W/g, '-'), rev: 1, text, ties },
  learned: { in: 'said', on: '2026-11-20', person: 'A. Tester' },
  ...more,
});
const toItem = (code: string, shelf = 'crew'): WatchOutTie => ({ to: 'item', shelf, code, called: code });
const toB: WatchOutTie = { to: 'interface', interface: 'b', called: 'B of SRL' };
const toStep = (step: string): WatchOutTie => ({ to: 'step', step, called: step });

const at: Interface = {
  ...{ id: 'b', rev: 1, site: 'rock', code: 'B', kind: 'fastener', fastener: 'F-1', count: 4 },
  watchOuts: ['Wet plinth.'],
};
const step: TaskStep = {
  ...{ id: 's-1', rev: 1, task: 'job', position: 1, code: '1', outing: 'o', role: 'Lead', action: 'tighten' },
  interface: 'b',
  watchOuts: ['Sharp edge.'],
  gear: [{ id: 'G-1', quantity: 1 }],
};
const task = { id: 'job', shelves: ['crew'] };
const texts = (said: readonly { text: string }[]) => said.map(({ text }) => text);

describe('the watch-outs of a step', () => {
  const records = [
    learned('Seizes.', [toB]),
    learned('Pawl slips.', [toItem('R-1')]),
    learned('Cap falls.', [toItem('G-1')]),
    learned('Head rounds.', [toItem('F-1')]),
    learned('Cold hands.', [toStep('s-1')], { learned: { in: 'as-run', on: '2026-11-25', person: 'Q.' } }),
    learned('Another shelf.', [toItem('F-1', 'other')]),
    learned('Another step.', [toStep('s-2')]),
    learned('Given up.', [toB], { retired: { reason: 'new stud', person: 'Q.', at: '2026-11-26T08:00:00Z' } }),
  ];

  it('are its interface’s and its own first, then each record tied to what it touches, the newest first', () => {
    const said = watchOutsOfStep({ step, at, task, parts: ['R-1', 'S-9'] }, records);
    expect(texts(said)).toEqual([
      ...['Wet plinth.', 'Sharp edge.', 'Cold hands.', 'Cap falls.', 'Head rounds.', 'Pawl slips.', 'Seizes.'],
    ]);
    expect(said[0]?.from).toEqual({ kind: 'interface', called: 'B' });
    expect(said[1]?.from).toEqual({ kind: 'step', called: '1' });
    expect(said.at(-1)?.from).toMatchObject({ kind: 'record', by: [toB] });
  });

  it('name a part of the stack only where it is planned', () => {
    expect(texts(watchOutsOfStep({ step, at, task }, records))).not.toContain('Pawl slips.');
  });

  it('take the step’s own fastener, not its interface’s, where it says one', () => {
    const own = { ...step, fastener: 'F-2' };
    expect(texts(watchOutsOfStep({ step: own, at, task }, records))).not.toContain('Head rounds.');
  });

  it('say the same words once', () => {
    const twice = [learned('Sharp edge.', [toB]), { ...learned('Seizes.', [toB]), id: 'x' }, learned('Seizes.', [toB])];
    expect(texts(watchOutsOfStep({ step, at, task }, twice))).toEqual(['Wet plinth.', 'Sharp edge.', 'Seizes.']);
  });

  it('are carried to every step of every task that touches the same thing, and to no other', () => {
    const steps = [
      step,
      { ...step, id: 's-2', code: '2', interface: 'c', gear: [] },
      { ...step, id: 's-3', code: '3', task: 'other' },
    ];
    const interfaces = new Map([['b', at]]);
    const carry = (id: string, shelves: string[]) =>
      Object.fromEntries(carriedToSteps({ task: { id, shelves }, steps, interfaces, records }));
    expect(carry('job', ['crew'])).toEqual({
      1: ['Cold hands.', 'Cap falls.', 'Head rounds.', 'Seizes.'],
      2: ['Another step.'],
    });
    expect(carry('other', ['other'])).toEqual({ 3: ['Another shelf.', 'Seizes.'] });
  });
});

it('an interface says its own, what is tied to it, to its fastener, and to steps that act on it', () => {
  const records = [
    learned('Seizes.', [toB]),
    learned('Head rounds.', [toItem('F-1')]),
    learned('Slow.', [toStep('s-1')]),
  ];
  const said = watchOutsOfInterface({ at, steps: [step, { ...step, id: 's-2', interface: 'c' }] }, records);
  expect(texts(said)).toEqual(['Wet plinth.', 'Head rounds.', 'Seizes.', 'Slow.']);
});

it('an item says what is tied to it, and what the interfaces and steps that name it say', () => {
  const records = [learned('Head rounds.', [toItem('F-1')]), learned('Elsewhere.', [toItem('F-1', 'other')])];
  const said = watchOutsOfItem({ item: { shelf: 'crew', code: 'F-1' }, interfaces: [at], steps: [step] }, records);
  expect(texts(said)).toEqual(['Head rounds.', 'Wet plinth.', 'Sharp edge.']);
});

it('a record without words, without a tie, without a day or a person is none; nor is one retired for no reason', () => {
  const whole = learned('Seizes.', [toB]);
  expect(watchOutRecord.safeParse(whole).success).toBe(true);
  for (const broken of [
    { ...whole, text: '' },
    { ...whole, ties: [] },
    { ...whole, ties: [{ to: 'interface', called: 'B' }] },
    { ...whole, learned: { ...whole.learned, on: 'Friday' } },
    { ...whole, learned: { ...whole.learned, person: '' } },
    { ...whole, retired: { reason: '', person: 'Q.', at: '2026-11-26T08:00:00Z' } },
    { ...whole, severity: 3 },
  ])
    expect(watchOutRecord.safeParse(broken).success).toBe(false);
});

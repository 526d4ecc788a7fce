import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readPlanFile } from '../../../renderer/engine/records/readPlanFile.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, put, remove } from '../../support/editJson.ts';
import { fullPlan } from './fullPlan.ts';

const textWith = (edit: Edit): string => {
  const plan = fullPlan();
  edit(plan);
  return JSON.stringify(plan, null, 2);
};

function refusals(text: string) {
  try {
    readPlanFile(text, 'mine.json');
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal.rows ?? [error.refusal];
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('a plan file that is refused', () => {
  it('names every fault with file, row, field, value and reason', () => {
    const text = textWith(
      all(
        put('catalog.sockets[0].length', '30'),
        put('catalog.fasteners[1].head.acrossFlats', '7 mm'),
        put('catalog.fasteners[0].mass', 'heavy'),
        put('steps[0].callout.min', '50 N·m'),
        put('outings[0].bags[0]', 'B-7'),
      ),
    );
    const found = refusals(text);
    expect(found.map(({ field }) => field).toSorted()).toEqual([
      'catalog.fasteners[0].mass',
      'catalog.fasteners[1].head.acrossFlats',
      'catalog.sockets[0].length',
      'outings[0].bags[0]',
      'steps[0].callout.min',
    ]);
    for (const { file, row, field, value, message } of found) {
      expect(file).toBe('mine.json');
      expect(row).toBeGreaterThan(1);
      expect(text.split('\n')[(row ?? 0) - 1]).toContain(String(value));
      expect(message.startsWith(`${field}: `)).toBe(true);
    }
  });

  it('tells one fault by itself', () => {
    const text = textWith(put('catalog.sockets[0].length', '30'));
    expect(() => readPlanFile(text, 'mine.json')).toThrow(RefusedError);
    try {
      readPlanFile(text, 'mine.json');
    } catch (error) {
      expect(error).toMatchObject({ refusal: { field: 'catalog.sockets[0].length', value: '30' } });
      expect(error).not.toHaveProperty('refusal.rows');
    }
  });

  it('names as a value only what stands there as one', () => {
    const both = refusals(textWith(put('catalog.torqueTools[0].settings', ['20 N·m'])));
    expect(both.map(({ field }) => field)).toContain('catalog.torqueTools[0].settings');
    for (const refusal of both) if ('value' in refusal) expect(refusal.value).toBeTypeOf('string');
    expect(refusals(textWith(put('catalog.drivers[0].id', 'R-1 '))).map(({ field, value }) => [field, value])).toEqual([
      ['catalog.drivers[0].id', 'R-1 '],
    ]);
  });

  it.each([
    ['not JSON', '{', /./],
    ['no plan', '[]', /./],
    ['a place called bag', textWith(put('places[0].id', 'bag')), /"bag" is the word/],
    ['a code with a space around it', textWith(put('catalog.drivers[0].id', 'R-1 ')), /space/],
    ['a task without a name', textWith(put('task.name', ' ')), /task.name: is blank/],
    ['a name longer than notes are', textWith(put('catalog.fasteners[0].locking', 'x'.repeat(3000))), /at most 2000/],
    ['two of one code', textWith(put('catalog.drivers[0].id', 'S-16')), /already the id/],
    ['an unknown fastener', textWith(put('steps[0].fastener', 'F-9')), /no fastener has the id "F-9"/],
  ])('says what is wrong: %s', (_, text, says) => {
    expect(
      refusals(text)
        .map(({ message }) => message)
        .join('\n'),
    ).toMatch(says);
  });
});

describe('a plan file whose steps are not finished', () => {
  it('is taken, and what they still need is told', () => {
    const text = textWith(all(remove('steps[0].callout'), remove('steps[0].running')));
    const { plan, unfinished } = readPlanFile(text, 'mine.json');
    // Where nothing is said, the row is that of the step it is missing from.
    const rowOfStep = text.split('\n').findIndex((line) => line.includes('"steps": [')) + 2;
    expect(unfinished.map(({ field, file, row }) => [field, file, row])).toEqual([
      ['steps[0].running', 'mine.json', rowOfStep],
      ['steps[0].callout', 'mine.json', rowOfStep],
    ]);
    expect(plan.steps).toHaveLength(1);
  });

  it('is still refused for what it does say wrongly', () => {
    const found = refusals(textWith(all(remove('steps[0].callout'), put('steps[0].demand', 'much'))));
    expect(found.map(({ field }) => field)).toEqual(['steps[0].demand']);
  });
});

/** What the strip says of saving: who writes, or why nobody does. */
import { expect, it } from 'vitest';
import { savingWords } from '../../../renderer/features/session/saving.ts';
import { hostEnded } from '../../../shared-types/journal.ts';

it('tells a program that has ended from another window that writes', () => {
  expect(savingWords({ kind: 'elsewhere', reason: hostEnded }).text).toBe('NOT SAVED: program has ended');
  expect(savingWords({ kind: 'elsewhere', reason: 'Another window took over saving.' }).text).toBe(
    'NOT SAVED here: other window',
  );
});

it('says NOT SAVED with its reason, and Saved of nothing that was not', () => {
  expect(savingWords({ kind: 'not-saved', reason: 'the disk is full' })).toEqual({
    ...{ state: 'not-saved', text: 'NOT SAVED', reason: 'the disk is full' },
  });
  expect(savingWords({ kind: 'nothing' }).text).toBe('Nothing to save');
  expect(savingWords({ kind: 'saving' }).state).toBe('saving');
  expect(savingWords({ kind: 'saved', at: new Date(2031, 3, 5, 10, 20) }).text).toMatch(/^Saved 10:20/);
});

/** The draws of the likeliest setting in their worker: the same as in the page, refused in the same words, ended at once. */
import { expect, it, vi } from 'vitest';
import { outcomeOf } from '../../renderer/features/bench/outcome.ts';
import { likeliestSheet } from '../../renderer/features/bench/sheets/likeliest.ts';
import { likeliestSetting } from '../../renderer/engine/torque/preloadChance.ts';
import { findLikeliest } from '../../renderer/workers/likeliest.ts';

const asked = () => {
  const draws = likeliestSheet.draws?.(likeliestSheet.first);
  if (draws === undefined) throw new Error('the sheet draws nothing');
  return draws;
};

it('gives what the same draws give in the page, with the same answer on the sheet', async () => {
  const { task, also } = asked();
  const found = await findLikeliest({ task, also }).found;
  expect(found).toEqual(likeliestSetting(task, also));
  expect(found.best?.probability).toBeGreaterThan(0.5);
  const here = outcomeOf(likeliestSheet, likeliestSheet.first, 'as-written');
  expect(outcomeOf(likeliestSheet, likeliestSheet.first, 'as-written', found)).toEqual(here);
  expect(here.is).toBe('answer');
});

it('refuses in the engine’s own words', async () => {
  const { task, also } = asked();
  const fine = {
    task: { ...task, scale: { ...task.scale, increment: { value: 1e-6, unit: 'N·m' as const, nm: 1e-6 } } },
    also,
  };
  let due = '';
  try {
    likeliestSetting(fine.task, also);
  } catch (error) {
    due = (error as Error).message;
  }
  expect(due).not.toBe('');
  await expect(findLikeliest(fine).found).rejects.toThrow(due);
});

it('is ended at once where it is not wanted any more, and answers nothing', async () => {
  const { task, also } = asked();
  const answered = vi.fn();
  const { found, cancel } = findLikeliest({ task: { ...task, samples: 300_000 }, also });
  found.then(answered, answered);
  cancel();
  await findLikeliest({ task: { ...task, samples: 300_000 }, also }).found;
  expect(answered).not.toHaveBeenCalled();
});

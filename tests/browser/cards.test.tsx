import { afterEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { BagResult } from '../../shared-types/bag.ts';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import { cardAnswer } from '../engine/cards/cardTask.ts';
import { shownPlan } from './fixtures/plans.ts';
import { pdfOfPages } from './pdfOfPages.ts';
import { button, byCode, chooseIn, field, heading, openTask, save } from './support/openTask.tsx';

afterEach(() => {
  window.location.hash = '#/';
});

/** An answer that has a stack for one step of the plan, and none for another. */
function answerOf(opened: Awaited<ReturnType<typeof openTask>>): BagResult {
  const plan = opened.session.state().atHand?.plan;
  const outing = plan?.outings[0]?.id ?? '';
  return {
    ...cardAnswer,
    outings: cardAnswer.outings.map((one) => ({ ...one, id: outing, steps: [] })),
    infeasible: [{ step: 'deep', reason: 'It lies too deep.', closest: [] }],
  };
}

async function openCards() {
  const opened = await openTask(shownPlan(), '#/cards');
  const made: DocumentToPrint[] = [];
  const bytes = pdfOfPages(2);
  opened.host.makePdf = (document) => {
    made.push(document);
    return Promise.resolve(bytes);
  };
  const keep = (): void => {
    const { planHash } = opened.session.state().atHand ?? { planHash: '' };
    const kept = { minimised: 'mass' as const, timeLimitS: null, plannedAt: new Date().toISOString() };
    opened.session.keepResult(planHash, { ...kept, result: answerOf(opened) });
  };
  return { ...opened, made, bytes, keep };
}

describe('the place of cards', () => {
  it('says that there are none before a bag is planned, and leads to it', async () => {
    await openCards();
    await expect.element(heading('No cards yet')).toBeVisible();
    await expect.element(page.getByRole('link', { name: 'Plan the bag' })).toHaveAttribute('href', '#/bag');
  });

  it('prints and saves the very pages it shows, of a role or of all', async () => {
    const { made, bytes, host, keep } = await openCards();
    keep();
    await expect.element(page.getByRole('group', { name: 'Page 1 of 2' })).toBeVisible();
    expect(made.map(({ title }) => title.split(':')[0])).toEqual(['Step cards']);
    expect(made[0]?.html).toContain('It lies too deep.');
    expect(made[0]?.html).not.toContain('class="set"');
    await expect.element(page.getByText('1 not reached').first()).toBeVisible();
    await userEvent.click(button('Save PDF…'));
    await expect.poll(() => host.saved.length).toBe(1);
    expect(host.saved[0]?.bytes).toBe(bytes);
    await chooseIn('Role', 'Lead');
    await expect.poll(() => made.at(-1)?.title).toMatch(/^Step cards, Lead:/);
    expect(window.location.hash).toMatch(/^#\/cards\/[^/]+\/Lead$/);
  });

  it('never shows or prints an answer to an earlier state of the task', async () => {
    const { made, keep, store, taskId } = await openCards();
    keep();
    await expect.element(page.getByRole('group', { name: 'Page 1 of 2' })).toBeVisible();
    const before = made.length;
    const step = (await byCode(store, 'steps')).get('tighten');
    if (step === undefined || step.task !== taskId) throw new Error('the task has lost its step');
    await store.commit({
      action: 'edit-step',
      title: 'Warn',
      proposals: [{ table: 'steps', put: { ...step, cautions: [{ word: 'DANGER', text: 'Live rail.' }] } }],
    });
    await expect.element(heading('No cards yet')).toBeVisible();
    await expect.element(page.getByText(/Cards of an earlier state are not shown or printed/)).toBeVisible();
    await expect.element(page.getByRole('button', { name: 'Print…' })).not.toBeInTheDocument();
    expect(made).toHaveLength(before);
    keep();
    await expect.poll(() => made.at(-1)?.html ?? '').toContain('Live rail.');
  });
});

it('a step’s cautions are typed with their signal word, and said before the step', async () => {
  const { store } = await openTask(shownPlan(), '#/steps/tighten');
  await userEvent.click(button('Edit step'));
  await userEvent.click(button('Add a caution'));
  await userEvent.selectOptions(field('Caution 1, signal word'), 'WARNING');
  await save();
  await expect.element(page.getByRole('button', { name: /^Caution 1/ })).toBeVisible();
  await userEvent.fill(field('Caution 1'), 'The arm swings: stand clear.');
  await save();
  await expect
    .poll(async () => (await byCode(store, 'steps')).get('tighten')?.cautions)
    .toEqual([{ word: 'WARNING', text: 'The arm swings: stand clear.' }]);
  await expect
    .element(page.getByRole('region', { name: 'Before this step' }))
    .toHaveTextContent(/^Before this stepWARNING/);
});

import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { cap, coursePlan, openOrderPlan, tighten } from './fixtures/courses.ts';
import { axeFaults } from './support/axe.ts';
import { button, byCode, expectOneAct, field, heading, openTask, save, stepCodes } from './support/openTask.tsx';

const region = (name: string) => page.getByRole('region', { name, exact: true });

describe('how an outing runs', () => {
  it('draws where things lie, marks a problem where it arises, and leads from the mark to what would mend it', async () => {
    await openTask(coursePlan, '#/outings/O1');
    const problems = region('Problems');
    await expect.element(problems).toHaveTextContent(/Left behind.*1 × gear C-1: left at Landing rock/);
    await expect.element(problems).toHaveTextContent(/Loose.*neither held, tethered, bagged, fixed nor set down/);
    await expect.poll(() => document.querySelectorAll('.bw-timeline-way[data-item="C-1"]').length).toBeGreaterThan(0);
    await expect.element(page.getByText('turn back by 0:34', { exact: true })).toBeVisible();
    const marks = [...document.querySelectorAll<HTMLElement>('.bw-timeline-mark')];
    expect(marks.length).toBeGreaterThan(1);
    for (const mark of marks) {
      const { width, height } = mark.getBoundingClientRect();
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(24);
    }
    const [first] = marks;
    first?.focus();
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => document.activeElement?.closest('section')?.textContent).toContain('Problems');
    const mend = document.activeElement?.querySelector<HTMLAnchorElement>('.bw-course-mends a');
    expect(mend?.getAttribute('href')).toMatch(/^#\/steps\//);
    expect(document.documentElement.scrollHeight).toBeLessThanOrEqual(window.innerHeight);
    expect(await axeFaults()).toEqual([]);
  });

  it('takes a proposed order only when told, in one act, and shows its figures before and after', async () => {
    const { store } = await openTask(openOrderPlan, '#/outings/O1');
    const proposal = page.getByRole('article', { name: 'An order with fewer loose pieces at once' });
    await expect.element(proposal).toHaveTextContent(/Loose pieces at once, most21/);
    expect(await stepCodes(store)).toEqual(['a', 'b', 'c', 'd']);
    expect(await axeFaults()).toEqual([]);
    await expectOneAct(store, 'Take the proposed order of outing “Strip”', ['steps'], () =>
      userEvent.click(proposal.getByRole('button', { name: 'Take this order' })),
    );
    const order = (await stepCodes(store)).join('');
    expect(['acbd', 'bdac']).toContain(order);
    await expect.element(region('Proposals')).toHaveTextContent(/No order that the steps leave room for/);
  });
});

describe('what a plan may say of it', () => {
  it('is typed in a section of the step, refused where it says half, and kept whole', async () => {
    const { store } = await openTask({ ...coursePlan, steps: [tighten, cap] }, '#/steps/tighten');
    await userEvent.click(button('Edit step'));
    await userEvent.click(page.getByText(/^How it runs: minutes/));
    await userEvent.fill(field('Least (min), optional'), '5');
    await userEvent.selectOptions(field('When it is done'), 'The work may be left as it is');
    await userEvent.click(button('Add fasteners taken out or put in'));
    await userEvent.selectOptions(field('Fastener 1, laid, optional'), 'Landing rock');
    await save();
    await expect.element(page.getByRole('heading', { name: /to mend$/ })).toHaveFocus();
    await expect.element(button(/^Most likely \(min\)/)).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.fill(field('Most likely (min), optional'), '7');
    await userEvent.fill(field('Most (min), optional'), '6');
    await save();
    await expect.element(button(/^Most \(min\) is below likely, 7/)).toBeVisible();
    await userEvent.fill(field('Most (min), optional'), '12');
    await save();
    await expect.element(heading(/^1 · /)).toBeVisible();
    expect((await byCode(store, 'steps')).get('tighten')).toMatchObject({
      spread: { least: 5, likely: 7, most: 12 },
      safeToLeave: true,
      fastenerMoves: [{ id: 'F1', from: 'site', to: 'rock' }],
    });
  });

  it('keeps the way home of an outing', async () => {
    const { store } = await openTask(coursePlan, '#/outings/O1');
    await userEvent.click(button('Edit outing'));
    await userEvent.fill(field('Way home (min), optional'), '12');
    await expectOneAct(store, 'Edit outing “Strip”', ['outings'], save);
    expect((await byCode(store, 'outings')).get('O1')).toMatchObject({ turnBack: 12 });
  });
});

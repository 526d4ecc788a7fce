import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { mapResult, mapSource } from '../support/bagMapPlan.ts';
import { coursePlan, openOrderPlan } from './fixtures/courses.ts';
import { axeFaults } from './support/axe.ts';
import { openTask } from './support/openTask.tsx';

const region = (name: string) => page.getByRole('region', { name, exact: true });

describe('how an outing runs', () => {
  it('says the clock, the chance with its seed, and what is not known without a planned bag', async () => {
    await openTask(coursePlan, '#/outings/O1');
    await expect.element(region('The clock')).toHaveTextContent(/by 0:34 at the latest, for a way home of 6 min/);
    await expect.element(region('The clock')).toHaveTextContent(/Safe to leaveafter step 1, Loosen the cover, at 0:10/);
    const chance = region('Chance of finishing in time');
    await expect.element(chance).toHaveTextContent(/% of the outings drawn.*between .* with 95 % confidence.*seed 1/);
    await expect.element(chance).toHaveTextContent(/Assumed:.*triangular/);
    const loose = region('Loose pieces');
    await expect.element(loose).toHaveTextContent(/No bag is planned for this outing/);
    await expect.element(loose).toHaveTextContent(/nowhere that is said/);
    await expect.element(loose).toHaveTextContent(/not known yet there/);
    await userEvent.click(page.getByText(/^As table, and what is drawn/));
    const drawn = document.querySelectorAll('.bw-timeline-way').length;
    await userEvent.click(page.getByRole('checkbox', { name: 'Draw 1 × gear C-1' }));
    await expect.poll(() => document.querySelectorAll('.bw-timeline-way').length).toBe(drawn - 1);
    expect(await axeFaults()).toEqual([]);
  });

  it('says why there is no chance where no step has a spread', async () => {
    await openTask(openOrderPlan, '#/outings/O1');
    await expect
      .element(region('Chance of finishing in time'))
      .toHaveTextContent(/Not known: no step of this outing says the least, likely and most minutes/);
  });

  it('follows the pieces of a planned bag', async () => {
    const opened = await openTask(mapSource, '#/outings/o');
    const { planHash } = opened.session.state().atHand ?? { planHash: '' };
    const plannedAt = new Date().toISOString();
    opened.session.keepResult(planHash, { minimised: 'mass', timeLimitS: null, plannedAt, result: mapResult });
    await expect.element(page.getByText(/No bag is planned for this outing/)).not.toBeInTheDocument();
    await expect.element(region('Loose pieces')).toHaveTextContent(/After step/);
    await expect.element(region('Proposals')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
  });
});

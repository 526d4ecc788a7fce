import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { startPlanning } from '../../renderer/workers/planner.ts';
import { mapResult, mapSource } from '../support/bagMapPlan.ts';
import { axeFaults } from './support/axe.ts';
import { button, openTask } from './support/openTask.tsx';

const course = () => page.getByRole('figure', { name: 'Course of the search' });
const drawn = (what: 'best' | 'bound' | 'gap'): number => document.querySelectorAll(`[data-plot="${what}"]`).length;

describe('a running search', () => {
  it('draws best and bound as they come, in both units, with the table beside', async () => {
    const { planner } = await openTask(mapSource, '#/bag');
    await userEvent.click(button('Plan the bag'));
    const [run] = planner.runs;
    run?.progress({ outing: 'o', best: null, bound: 0.4, elapsedS: 0.2 });
    await expect.element(course()).toBeVisible();
    await expect.poll(() => [drawn('best'), drawn('bound'), drawn('gap')]).toEqual([0, 1, 0]);
    run?.progress({ outing: 'o', best: 1.2, bound: 0.4, elapsedS: 0.6 });
    run?.progress({ outing: 'o', best: 1, bound: 0.8, elapsedS: 1.4 });
    await expect.poll(() => [drawn('best'), drawn('bound'), drawn('gap')]).toEqual([1, 1, 1]);
    const axes = [...document.querySelectorAll('figure svg text')].map((text) => text.textContent);
    for (const name of ['mass / kg', 'mass / lb', 'time / s']) expect(axes).toContain(name);
    await expect
      .element(course().getByRole('img'))
      .toHaveAccessibleName(/Only outing after 1\.40 s: best 1\.000 kg .*nothing below 0\.800 kg .*open 20\.0 %/);
    await expect.element(page.getByText('20 % still open')).toBeVisible();
    await userEvent.click(course().getByText('As table'));
    await expect
      .element(course().getByRole('row', { name: /^1\.40 s/ }))
      .toHaveTextContent(/1\.000 kg.*0\.800 kg.*20\.0 %/);
    expect(await axeFaults()).toEqual([]);
  });

  it('leaves its course with the proof, over a reload of the store', async () => {
    const { planner, session } = await openTask(mapSource, '#/bag');
    await userEvent.click(button('Plan the bag'));
    planner.runs[0]?.progress({ outing: 'o', best: 1.2, bound: 0.4, elapsedS: 0.1 });
    planner.runs[0]?.answer(mapResult);
    const proof = page.getByRole('region', { name: 'Proof' });
    await expect.element(proof.getByRole('figure', { name: 'Course of the search' })).toBeVisible();
    const kept = session.state().planned?.course ?? [];
    expect(kept[0]).toEqual({ outing: 'o', atS: 0.1, best: 1.2, bound: 0.4 });
    expect(kept.at(-1)).toMatchObject({ best: mapResult.objective?.value, bound: mapResult.objective?.value });
  });

  it('says not proved, with the bound, where it was stopped; the gap stays open on the drawing', async () => {
    const { planner } = await openTask(mapSource, '#/bag');
    await userEvent.click(button('Plan the bag'));
    planner.runs[0]?.progress({ outing: 'o', best: 0.834, bound: 0.7, elapsedS: 0.1 });
    const objective = { minimised: 'mass' as const, value: 0.834, unit: 'kg' as const, bound: 0.75, gap: 0.1007 };
    planner.runs[0]?.answer({ ...mapResult, status: 'stopped', objective });
    await expect
      .element(page.getByRole('heading', { name: /^Not proved \(bound 10\.07 %\)|^Not proved \(bound 10 %\)/ }))
      .toBeVisible();
    expect(document.body.textContent).not.toContain('Proved least:');
    await expect.poll(() => drawn('gap')).toBe(1);
  });
});

describe('the planner’s worker', () => {
  it('is called off within 200 ms, changes nothing, and leaves the page its frames', async () => {
    const { default: demo } = await import('../../data/demo/skua-rock-light.json');
    const { session, planning } = await openTask(demo, '#/bag', { startPlanning });
    await expect.element(button('Plan the bag')).toBeVisible();
    const idle = await framesMs(20);
    await userEvent.click(button('Plan the bag'));
    await expect.element(button('Cancel planning')).toBeVisible();
    const busy = await framesMs(8);
    const cancel = button('Cancel planning').element() as HTMLButtonElement | null;
    if (cancel === null) throw new Error('planned before it could be called off');
    cancel.click();
    // At once: nobody waits for the solver.
    expect(planning.state()).toMatchObject({ kind: 'idle', cancelled: true });
    let frames = 0;
    while (document.querySelector('.bw-planning') !== null && frames < 300) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
      frames += 1;
    }
    // Drawn within 200 ms, which are twelve frames; a busy machine draws later, but no more often.
    expect(frames).toBeLessThanOrEqual(12);
    await expect.element(page.getByText('Planning was cancelled. Nothing was changed.')).toBeVisible();
    expect(session.state().result).toBeNull();
    // The worker searches; the page draws as it did, but for what the machine's cores are shared with.
    expect(median(busy)).toBeLessThan(4 * median(idle) + 100);
  });
});

async function framesMs(count: number): Promise<number[]> {
  const times: number[] = [];
  for (let index = 0; index <= count; index += 1)
    times.push(await new Promise<number>((resolve) => requestAnimationFrame(resolve)));
  return times.slice(1).map((time, index) => time - (times[index] ?? time));
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

import { afterEach, describe, expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import { asText, refusedPlan, shownPlan } from './fixtures/plans.ts';
import { until } from './support/openSession.ts';
import { openWindow } from './support/openWindow.tsx';

const plan = asText(shownPlan());
const file = (name: string, text: string) => ({ name, text });

afterEach(() => {
  window.location.hash = '#/';
});

describe('a refused file', () => {
  const drop = (files: File[]): void => {
    const transfer = new DataTransfer();
    for (const one of files) transfer.items.add(one);
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
  };

  it('is said with file, row, field, value and reason, takes the focus, and nothing of it is kept', async () => {
    const { screen, session, store, bringIn } = await openWindow({ files: [file('bad.json', asText(refusedPlan(3)))] });
    const { id } = await bringIn(plan);
    // The task taken in hand is kept too.
    await until('all of it saved', () => store.history().recent.length === 2);
    const before = store.history().recent[0]?.seq;
    await userEvent.keyboard('o');
    const heading = screen.getByRole('heading', { name: /^bad\.json .*: 3 faults/ });
    await expect.element(heading).toHaveFocus();
    const faults = screen.getByRole('list', { name: 'Faults' }).getByRole('listitem');
    expect(faults.elements()).toHaveLength(3);
    const text = faults.elements()[1]?.textContent ?? '';
    expect(text).toContain('bad.json');
    expect(text).toMatch(/row \d+/);
    expect(text).toContain('steps[1].demand');
    expect(text).toContain('"2 furlong"');
    expect(text).toContain('no unit known here');
    await userEvent.keyboard('{Escape}');
    expect(store.history().recent[0]?.seq).toBe(before);
    expect(session.state().atHand?.id).toBe(id);
  });

  it('may be dropped anywhere, one at a time', async () => {
    const { screen } = await openWindow();
    // It listens once it is there.
    await expect.element(screen.getByRole('heading', { level: 1 })).toBeVisible();
    drop([new File([plan], 'a.json'), new File([plan], 'b.json')]);
    await expect.element(screen.getByText(/one plan file is brought in at a time/)).toBeVisible();
    drop([new File(['{'], 'broken.json')]);
    await expect.element(screen.getByRole('heading', { name: /^broken\.json .*: 1 fault/ })).toHaveFocus();
    await userEvent.keyboard('{Escape}');
    drop([new File([plan], 'a.json')]);
    await expect.element(screen.getByRole('dialog', { name: 'Bring in a.json' })).toBeVisible();
  });
});

describe('a file brought in', () => {
  it('is kept as one act, becomes the task at hand, and goes as a whole when undone', async () => {
    const { screen, session, store } = await openWindow({ files: [file('a.json', plan)] });
    await userEvent.click(screen.getByRole('button', { name: 'Bring a plan file in…' }));
    await userEvent.click(screen.getByRole('button', { name: /^Add 1 shelf, 9 items, 1 task, 1 outing and 4 steps/ }));
    await userEvent.click(screen.getByRole('button', { name: 'Open the task' }));
    await expect.element(screen.getByRole('heading', { level: 1, name: 'Cover change' })).toBeVisible();
    await userEvent.keyboard('gs');
    await expect.element(screen.getByRole('grid', { name: 'Steps' })).toBeVisible();
    expect(session.state().atHand?.plan.steps).toHaveLength(4);
    await userEvent.keyboard('{Control>}z{/Control}');
    await until('the task gone', () => session.state().atHand === null);
    for (const name of ['tasks', 'steps', 'outings', 'items', 'shelves'] as const)
      expect(store.table(name).state().rows.size).toBe(0);
    await expect.element(screen.getByRole('heading', { name: 'What do you have in front of you?' })).toBeVisible();
    await userEvent.keyboard('{Control>}y{/Control}');
    await until('the task back', () => session.state().atHand?.plan.steps.length === 4);
  });
});

/** Steps ordered by pointer, by keys and by number; several at once; the usual steps, and what is done if one fails: shown, left out, changed, one act. */
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import {
  button,
  byCode,
  chooseIn,
  expectOneAct,
  field,
  heading,
  openTask,
  row,
  save,
  stepCodes,
} from './support/openTask.tsx';
import { put } from './support/keptStore.ts';

function plan() {
  const small = smallPlan();
  const use = { outing: 'O1', role: 'Lead', action: 'use' };
  return {
    ...small,
    outings: [...small.outings, { id: 'O2', roles: ['Lead'], bags: ['B-1'] }],
    steps: [
      { ...use, id: 'a', name: 'Wipe', minutes: 3 },
      { ...small.steps[0], id: 'b', name: 'Loosen the cover' },
      { ...use, id: 'c', name: 'Lift' },
      { ...use, id: 'd', name: 'Cap' },
      { ...use, id: 'x', name: 'Come home', outing: 'O2' },
    ],
  };
}

const center = (name: RegExp): { x: number; y: number } => {
  const box = row(name).element().getBoundingClientRect();
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
};

/** A mouse that goes from one row to the upper or lower half of another. */
function drag(from: RegExp, to: RegExp, half: 'upper' | 'lower'): void {
  const start = center(from);
  const end = center(to);
  const y = end.y + (half === 'upper' ? -6 : 6);
  const at = (type: string, clientY: number, buttons: number): void => {
    const target = document.elementFromPoint(start.x, clientY) ?? document.body;
    target.dispatchEvent(
      new PointerEvent(type, { bubbles: true, clientX: start.x, clientY, buttons, button: 0, pointerType: 'mouse' }),
    );
  };
  at('pointerdown', start.y, 1);
  at('pointermove', (start.y + y) / 2, 1);
  at('pointermove', y, 1);
  at('pointerup', y, 0);
}

describe('the order of steps', () => {
  it('is changed by a drag, by keys and by a number, alone or together; each is one act and one undo', async () => {
    const { store } = await openTask(plan(), '#/steps/a');
    await expect.element(row(/Come home/)).toBeVisible();
    await expectOneAct(store, 'Move step 1 after step 3', ['steps'], async () => drag(/Wipe/, /Lift/, 'lower'));
    expect(await stepCodes(store)).toEqual(['b', 'c', 'a', 'd', 'x']);
    // On to another outing.
    await expectOneAct(store, 'Move step 4 before step 5', ['steps'], async () => drag(/Cap/, /Come home/, 'upper'));
    expect((await byCode(store, 'steps')).get('d')?.outing).toBe('O2');

    await userEvent.click(row(/Loosen the cover/));
    await userEvent.keyboard('{Shift>}{ArrowDown}{/Shift}');
    await expect.element(page.getByText(/2 chosen together/)).toBeVisible();
    await expectOneAct(store, 'Move 2 steps down', ['steps'], () => userEvent.keyboard('{Alt>}{ArrowDown}{/Alt}'));
    expect(await stepCodes(store)).toEqual(['a', 'b', 'c', 'd', 'x']);

    await userEvent.click(button('Move to number…'));
    await expect.element(field('New number')).toHaveFocus();
    await userEvent.keyboard('9{Enter}');
    await expect.element(page.getByText('New number: "9" is no step; the task has 1 to 5.')).toBeVisible();
    await userEvent.clear(field('New number'));
    await expectOneAct(store, 'Move 2 steps to number 1', ['steps'], () => userEvent.keyboard('1{Enter}'));
    expect(await stepCodes(store)).toEqual(['b', 'c', 'a', 'd', 'x']);
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await userEvent.click(row(/Wipe/));
    await expect.element(page.getByText(/chosen together/)).not.toBeInTheDocument();
  });
});

describe('the usual steps', () => {
  it('are asked for, shown, left out, changed and added by keys alone, after the step in hand', async () => {
    const { store } = await openTask(plan(), '#/steps/b');
    await expect.element(heading('2 · Loosen the cover')).toBeVisible();
    await userEvent.keyboard('au');
    const fastener = page.getByRole('combobox', { name: 'Fastener' });
    await expect.element(fastener).toHaveFocus();
    // As the step in hand has it.
    await expect.element(fastener).toHaveValue('F1');
    await userEvent.fill(field('How many of them, optional'), '6');
    await chooseIn('Work', 'Putting it on');
    await userEvent.fill(field('Callout, from, optional (with unit)'), '30 lbf·ft');
    await userEvent.fill(field('Callout, to, optional (with unit)'), '40 lbf·ft');
    await userEvent.fill(field('Passes, shares of the callout, optional'), '75, 50');
    await save();
    await expect
      .element(page.getByRole('region', { name: '1 field to mend' }))
      .toHaveTextContent(/"50" is not more than the 75 %/);
    await userEvent.fill(field('Passes, shares of the callout, optional'), '50, 100 %');
    await expect
      .element(
        page.getByText(/^Before: 5 steps\. After: 9, the new ones with numbers 3 to 6\. Step 3, Lift, then is 7\./),
      )
      .toBeVisible();
    await expect.element(page.getByText(/common practice, no source/).first()).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    // Left out, and changed, by keys.
    page
      .getByRole('checkbox', { name: /Mark F1.*with a witness stripe/ })
      .element()
      .focus();
    await userEvent.keyboard(' ');
    await expect.element(page.getByText(/After: 8, the new ones/)).toBeVisible();
    const change = button(/^Change new step \d+: Torque F1, all 6, final$/);
    change.element().focus();
    await userEvent.keyboard('{Enter}');
    await userEvent.fill(field(/^Time of new step \d+ \(min\), optional$/), '12');
    await expectOneAct(store, 'Add 3 usual steps for F1', ['steps'], save);
    expect(await stepCodes(store)).toEqual(['a', 'b', 'b-2', 'b-3', 'b-4', 'c', 'd', 'x']);
    const steps = await byCode(store, 'steps');
    expect(steps.get('b-2')).toMatchObject({ action: 'use', name: 'Start F1, all 6 by hand, two turns each' });
    expect(steps.get('b-3')).toMatchObject({
      callout: { min: '15 lbf·ft', max: '20 lbf·ft' },
      fastener: 'F1',
      count: 6,
    });
    expect(steps.get('b-4')).toMatchObject({ callout: { min: '30 lbf·ft', max: '40 lbf·ft' }, minutes: 12 });
    expect(steps.get('b-4')?.notes).toMatch(/^Common practice, no source/);
    await expect.element(row(/Torque F1, all 6, final/)).toHaveTextContent(/30–40 lbf·ft.*12/);
  });

  it('are made for the interfaces chosen, part by part over all of them', async () => {
    const { store, taskId } = await openTask(plan(), '#/steps/a');
    const task = [...(await byCode(store, 'tasks')).values()].find(({ id }) => id === taskId);
    if (task === undefined) throw new Error('no task');
    const { siteText: _siteText, ...rest } = task;
    const at = { rev: 0, site: 'site', kind: 'fastener', fastener: 'F1' } as const;
    await store.commit({
      ...{ action: 'add', title: 'Add' },
      proposals: [
        put('sites', { id: 'site', rev: 0, code: 'ROCK' }),
        put('interfaces', { ...at, id: 'if-a', code: 'A', name: 'Flange', count: 12 }),
        put('interfaces', { ...at, id: 'if-b', code: 'B', count: 1 }),
        put('tasks', { ...rest, site: 'site' }),
      ],
    });
    await userEvent.click(button('Add usual steps…'));
    await userEvent.click(page.getByRole('checkbox', { name: 'Flange (A), 12 ×' }));
    await userEvent.click(page.getByRole('checkbox', { name: 'B, 1 ×' }));
    await chooseIn('Work', 'Taking it off');
    await chooseIn('Order', 'Each part of the work over all of them');
    await userEvent.fill(field('Torque to bear when loosening, optional (with unit)'), '60 lbf·ft');
    await expectOneAct(store, 'Add 6 usual steps for Flange (A), B', ['steps'], save);
    const added = [...(await byCode(store, 'steps')).values()].filter(({ interface: of }) => of !== undefined);
    const inOrder = added.toSorted((one, other) => one.position - other.position);
    expect(inOrder.map(({ interface: of, action, demand }) => [of, action, demand])).toEqual([
      ['if-a', 'loosen', '60 lbf·ft'],
      ['if-b', 'loosen', '60 lbf·ft'],
      ...[['if-a'], ['if-b'], ['if-a'], ['if-b']].map(([of]) => [of, 'use', undefined]),
    ]);
    // Fastener, count and access come from the interface, which the step names.
    await expect.element(row(/Loosen Flange \(A\), all 12/)).toHaveTextContent(/F1|3\/8-24/);
    expect(inOrder[0]).not.toHaveProperty('fastener');
  });

  it('stand under the step that may fail, with what was typed and nothing else', async () => {
    const { store } = await openTask(plan(), '#/steps/b');
    await userEvent.click(button('If it fails…'));
    await expect.element(heading('What is done if step 2 fails')).toBeVisible();
    const lost = page.getByRole('checkbox', { name: /^Lost/ });
    await userEvent.click(lost);
    await userEvent.click(page.getByRole('checkbox', { name: /with an extractor/ }));
    await userEvent.fill(page.getByRole('combobox', { name: 'Gear of new step 1' }), 'C-1');
    await userEvent.fill(field('Time of new step 2 (min), optional'), '20');
    await userEvent.fill(field('Torque to bear, new step 3 (with unit)'), '60 bananas');
    await save();
    await expect
      .element(page.getByRole('region', { name: '1 field to mend' }))
      .toHaveTextContent(/Torque to bear, new step 3/);
    await userEvent.fill(field('Torque to bear, new step 3 (with unit)'), '60 lbf·ft');
    await expectOneAct(store, 'Add 4 steps done if step 2 fails', ['steps'], save);
    const added = [...(await byCode(store, 'steps')).values()].filter(({ contingency }) => contingency === true);
    expect(added.map(({ ifFails }) => ifFails)).toEqual([
      ...['stuck', 'stuck', 'stuck', 'lost'].map((how) => ({ step: 'b', how })),
    ]);
    expect(added[0]?.gear).toEqual([{ id: 'C-1', quantity: 1 }]);
    expect(added.map(({ minutes }) => minutes)).toEqual([undefined, 20, undefined, undefined]);
    await expect.element(row(/if stuck: Loosen one of F1 with a breaker bar/)).toHaveTextContent(/60 lbf·ft/);
    expect(await stepCodes(store)).toEqual(['a', 'b', 'b-2', 'b-3', 'b-4', 'b-5', 'c', 'd', 'x']);
  });
});

describe('steps as a table', () => {
  const fed = (text: string) => {
    const data = new DataTransfer();
    data.setData('text/plain', text);
    row(/Wipe/)
      .element()
      .dispatchEvent(new ClipboardEvent('paste', { bubbles: true, clipboardData: data }));
  };

  it('come in by a paste: tried out whole, counted, then one act; nothing is written while a cell is wrong', async () => {
    const { store } = await openTask(plan(), '#/steps/a');
    await expect.element(row(/Wipe/)).toBeVisible();
    const head = 'code\touting\trole\taction\tname\tminutes\tgear\tcontingency\tifFails\tfailure';
    const lines = [
      'a\tO1\tLead\tuse\tWipe\t5\t\t\t\t',
      'c\tO1\tLead\tuse\tLift\t\t\t\t\t',
      'n1\tO1\tSecond\tuse\tHold the line\t2\tC-1 × 2\t\t\t',
      'n2\tO1\tLead\tuse\tPenetrant\t\t\tyes\tb\tstuck',
    ];
    fed([head, ...lines, 'n3\tO9\tLead\tuse\tLost\t\t\t\t\t'].join('\n'));
    await expect.element(heading('Bring steps in')).toBeVisible();
    await userEvent.click(button('Try all rows'));
    const counts = page.getByRole('table', { name: 'What the rows would do' });
    await expect.element(counts).toHaveTextContent(/2 ?1 ?1 ?1$/);
    await expect.element(page.getByText(/"O9" is no outing of this task: there are O1, O2/).first()).toBeVisible();
    await expect.element(button('Add 2 steps, change 1')).toBeDisabled();
    await userEvent.click(page.getByRole('checkbox', { name: /Leave out the 1 row/ }));
    await expectOneAct(store, 'Bring 3 steps in from pasted rows', ['steps'], () =>
      userEvent.click(button('Add 2 steps, change 1')),
    );
    // The new one at the end of its outing, what is done if a step fails under that step.
    expect(await stepCodes(store)).toEqual(['a', 'b', 'n2', 'c', 'd', 'n1', 'x']);
    const steps = await byCode(store, 'steps');
    expect(steps.get('a')?.minutes).toBe(5);
    expect(steps.get('n1')?.gear).toEqual([{ id: 'C-1', quantity: 2 }]);
  });

  it('are refused whole where one names a step that is nowhere', async () => {
    const { store } = await openTask(plan(), '#/steps/a');
    await expect.element(row(/Wipe/)).toBeVisible();
    fed('code\touting\trole\taction\tafter\nn1\tO1\tLead\tuse\tnobody\nn2\tO1\tLead\tuse\t');
    await userEvent.click(button('Try all rows'));
    await userEvent.click(button('Add 2 steps'));
    await expect.element(page.getByRole('alert')).toHaveTextContent(/Row 2, after.*"nobody" is no step of this outing/);
    expect(await stepCodes(store)).toEqual(['a', 'b', 'c', 'd', 'x']);
  });
});

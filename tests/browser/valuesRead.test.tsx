/** The torques that were read at the work site, typed on the way back: by fields, by keys alone, refused where they are none. */
import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Deed } from '../../shared-types/records/revision.ts';
import { chained } from '../../renderer/engine/record/chain.ts';
import { sha256 } from '../../renderer/store/sha256.ts';
import { revisionOf, stateOfPlan } from '../support/frozenTask.ts';
import { eventsOf } from '../support/outAndBack.ts';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaultsInEveryLook } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { button, field, heading, openTask } from './support/openTask.tsx';

/** The small task, its bag frozen, packed and gone. */
async function openOut() {
  const opened = await openTask(smallPlan(), '#/front');
  const { store, taskId } = opened;
  const revision = await revisionOf(await stateOfPlan(smallPlan()), { id: 'rev-2', task: taskId });
  const { lines, things } = revision.content;
  const partsOf = (item: string): number => things.find(({ id }) => id === item)?.parts ?? 1;
  const deeds: Deed[] = lines
    .filter(({ outing }) => outing === 'O1')
    .map(({ bag, item, quantity }) => ({
      ...{ kind: 'counted', bag, item, pieces: quantity, parts: quantity * partsOf(item) },
    }));
  const events = await chained(revision, null, eventsOf([...deeds, { kind: 'issued' }], { outing: 'O1' }), sha256);
  await store.commit({
    ...{ action: 'freeze', title: 'Freeze', undoable: false },
    proposals: [
      { table: 'revisions', put: revision },
      ...events.map((put) => ({ table: 'events' as const, put: { ...put, rev: 0 } })),
    ],
  });
  window.location.hash = '#/return/O1';
  await expect.element(heading(/^Return of /)).toBeVisible();
  await userEvent.click(button('Type the values read…'));
  await expect.element(page.getByRole('dialog')).toBeVisible();
  return store;
}

const torque = (name: string) => page.getByLabelText(new RegExp(`^${name} torque, tighten, position 1$`));

it('are kept as records of the task, once each of them is a torque', async () => {
  const store = await openOut();
  expect(await axeFaultsInEveryLook()).toEqual([]);
  await userEvent.fill(torque('Breakaway'), '40 lbf·ft');
  await userEvent.fill(torque('Final'), '33');
  await userEvent.click(button('Keep the values'));
  await expect.element(page.getByRole('alert').first()).toHaveTextContent('1 position cannot be kept so');
  expect((await rowsOf(store, 'asRuns')).size, 'nothing of it is written').toBe(0);
  expect(await axeFaultsInEveryLook()).toEqual([]);

  await expect.element(page.getByRole('dialog')).toHaveTextContent(/has no unit: write it with one[^.]*\.(?!\.)/);

  // By the keys alone: the value, Enter.
  expect(document.activeElement, 'the first field that is wrong').toBe(torque('Final').element());
  await userEvent.keyboard('{Control>}a{/Control}33 lbf·ft{Enter}');
  await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
  const rows = [...(await rowsOf(store, 'asRuns')).values()];
  expect(rows.map(({ cells }) => [cells['callout'], cells['breakaway'], cells['final'], cells['outing']])).toEqual([
    ['tighten', '40 lbf·ft', '33 lbf·ft', 'O1, revision 1'],
  ]);

  // Typed again, the dialog says what is kept already; left by Esc, it keeps nothing.
  await userEvent.click(button('Type the values read…'));
  await expect.element(page.getByRole('dialog')).toHaveTextContent('1 value of this outing is kept already');
  await userEvent.fill(field(/^Final torque, tighten, position 1$/), '34 lbf·ft');
  await userEvent.keyboard('{Escape}');
  await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
  expect((await rowsOf(store, 'asRuns')).size).toBe(1);
});

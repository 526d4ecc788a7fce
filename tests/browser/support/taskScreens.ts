/** The screens of catalog, sites, steps, watch-outs and kits, and the sheets over them: how each is come to from the crowded task. */
import { expect } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { openCrowded } from './crowdedTask.ts';
import { button, field, heading } from './openTask.tsx';

export type Crowded = Awaited<ReturnType<typeof openCrowded>>;

export interface Screen {
  name: string;
  /** Looked at by axe here; the others are by the tests of the catalog, of a task, or of the whole window. */
  axe?: true;
  /** From wherever the last one left the window. */
  show: (at: Crowded) => Promise<void>;
}

const press = (name: string | RegExp): Promise<void> => userEvent.click(button(name).first());
const shown = async (name: string | RegExp): Promise<void> => {
  await expect.element(heading(name)).toBeVisible();
};

/** The pasted stock of the bring-in: one row to add, one to change, one that cannot be read. */
export const pastedItems = [
  'kind\tcode\tname\tdrive\topening\topeningSize\tlength\tmass\tonHand\toutsideDiameter\tratedTorque',
  'socket\tS-NEW\tNew one\t3/8 in\thex6\t9/16 in\t2 in\t70 g\t1\t0.8 in\t75 lbf·ft',
  'socket\tS-10\tAnother name\t3/8 in\thex6\t9/16 in\t1.25 in\t60 g\t1\t0.8 in\t75 lbf·ft',
  'socket\tS-BAD\tBad one\t3/8 in\thex6\t8-Mar\t45\t60 g\t1\t0.8 in\t75 lbf·ft',
].join('\n');

/** Leaves a sheet over the sheet, or a form, whatever it asks. */
async function leave(): Promise<void> {
  for (let turn = 0; turn < 4; turn += 1) {
    const leaving = [...document.querySelectorAll<HTMLElement>('dialog[open] button')].find(
      (one) => one.textContent === 'Leave without saving',
    );
    if (leaving !== undefined) leaving.click();
    else if (document.querySelector('dialog[open], form.bw-form') !== null) await userEvent.keyboard('{Escape}');
    else return;
    await new Promise((resolve) => setTimeout(resolve, 60));
  }
}

async function go(address: string): Promise<void> {
  await leave();
  window.location.hash = address;
}

async function overCatalog(name: string, title: string | RegExp): Promise<void> {
  await go('#/catalog');
  await expect.element(page.getByRole('grid', { name: 'Items' })).toBeVisible();
  // In a narrow window the tools are folded.
  const folded = button(/^Show kinds/).elements()[0];
  if (folded?.checkVisibility() === true) await press(/^Show kinds/);
  await press(name);
  await expect.element(page.getByRole('dialog', { name: title })).toBeVisible();
}

async function overSteps(name: string, address = '#/steps/tighten'): Promise<void> {
  await go(address);
  await expect.element(button(name)).toBeVisible();
  await press(name);
}

export const screens: readonly Screen[] = [
  {
    name: 'catalog, an item',
    show: async ({ shelf }) => {
      await go(`#/catalog/${shelf}/S-WORD`);
      await expect.element(heading(/^S-WORD/)).toBeVisible();
    },
  },
  {
    name: 'catalog, an item’s form',
    show: async ({ shelf }) => {
      await go(`#/catalog/${shelf}/S-WORD`);
      await press('Edit');
      await expect.element(button('Save S-WORD')).toBeVisible();
    },
  },
  {
    name: 'catalog, several chosen',
    show: async ({ shelf }) => {
      await go(`#/catalog/${shelf}/S-10`);
      await expect.element(heading(/^S-10/)).toBeVisible();
      document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
      await userEvent.keyboard('{Control>}a{/Control}');
      await expect.element(heading(/items chosen$/)).toBeVisible();
      await press('Set the kit…');
      await expect.element(page.getByRole('dialog', { name: /^Change \d+ items/ })).toBeVisible();
    },
  },
  {
    name: 'catalog, columns and filters',
    axe: true,
    show: async () => {
      await leave();
      if (button('Choose none').elements().length > 0) await press('Choose none');
      await overCatalog('Columns and filters…', /^Columns/);
    },
  },
  { name: 'catalog, views', axe: true, show: () => overCatalog('Views…', 'Views') },
  {
    name: 'catalog, bring in: where from',
    axe: true,
    show: async () => {
      await overCatalog('Bring in…', 'Bring items in');
      await expect.element(page.getByText(/pasted here/)).toBeVisible();
    },
  },
  {
    name: 'catalog, bring in: columns and what rows would do',
    axe: true,
    show: async () => {
      await overCatalog('Bring in…', 'Bring items in');
      await userEvent.fill(field(/pasted here/), pastedItems);
      await press('Take the pasted rows');
      await press('Try all rows');
      await expect.element(page.getByRole('table', { name: 'What the rows would do' })).toBeVisible();
    },
  },
  { name: 'catalog, save as a file', axe: true, show: () => overCatalog('Save as a file…', /^Save/) },
  {
    name: 'catalog, kept twice',
    axe: true,
    show: async () => {
      await overCatalog('Kept twice…', /twice/i);
      await expect.element(page.getByText(/^Same thing/)).toBeVisible();
    },
  },
  {
    name: 'catalog, stock by place',
    axe: true,
    show: async () => {
      await overCatalog('Stock by place…', /^Stock by place/);
      await userEvent.click(page.getByRole('grid', { name: 'Places' }).getByRole('row', { name: /^many words/ }));
    },
  },
  { name: 'catalog, calibrations due', axe: true, show: () => overCatalog('Calibrations due…', /^Calibrations/) },
  {
    name: 'sites, a site',
    show: async () => {
      await go('#/sites/rock');
      await expect.element(heading(/^Sea rock/)).toBeVisible();
    },
  },
  {
    name: 'sites, an interface',
    show: async () => {
      await go('#/sites/rock/b');
      await expect.element(page.getByRole('figure', { name: 'Access of interface B' })).toBeVisible();
    },
  },
  {
    name: 'sites, an interface’s form',
    axe: true,
    show: async () => {
      await go('#/sites/rock/b');
      await press('Edit interface');
      await expect.element(button('Save interface')).toBeVisible();
    },
  },
  {
    name: 'sites, what removing one would do',
    show: async () => {
      await go('#/sites/rock');
      await expect.element(heading(/^Sea rock/)).toBeVisible();
      await press('Remove…');
    },
  },
  {
    name: 'steps, one reached',
    show: async () => {
      await go('#/steps/tighten');
      await shown(/^2 ·/);
    },
  },
  {
    name: 'steps, one out of reach',
    show: async () => {
      await go('#/steps/deep');
      await shown(/^4 ·/);
    },
  },
  {
    name: 'steps, one of a long word',
    show: async () => {
      await go('#/steps/word');
      await shown(/^5 ·/);
    },
  },
  {
    name: 'steps, one not complete',
    show: async () => {
      await go('#/steps/open');
      await expect.element(page.getByText(/Not complete: needs a fastener/).first()).toBeVisible();
    },
  },
  {
    name: 'steps, a step’s form',
    show: async () => {
      await overSteps('Edit step');
      await expect.element(button('Save step')).toBeVisible();
    },
  },
  {
    name: 'steps, usual steps',
    axe: true,
    show: async () => {
      await overSteps('Add usual steps…');
      await expect.element(heading('Add usual steps')).toBeVisible();
    },
  },
  {
    name: 'steps, if it fails',
    axe: true,
    show: async () => {
      await overSteps('If it fails…');
      await expect.element(heading(/fail/i)).toBeVisible();
    },
  },
  {
    name: 'steps, bring in',
    axe: true,
    show: async () => {
      await overSteps('Bring in…');
      await expect.element(page.getByText(/pasted here/)).toBeVisible();
    },
  },
  { name: 'steps, save as a file', axe: true, show: () => overSteps('Save as a file…') },
  { name: 'steps, move to a number', axe: true, show: () => overSteps('Move to number…') },
  { name: 'steps, what removing one would do', show: () => overSteps('Remove…', '#/steps/loosen') },
  {
    name: 'watch-outs',
    axe: true,
    show: async () => {
      await go('#/watchouts/w1');
      await expect.element(page.getByRole('grid', { name: 'Watch-outs' })).toBeVisible();
    },
  },
  {
    name: 'watch-outs, one written',
    axe: true,
    show: async () => {
      await go('#/watchouts/w2');
      await press(/^Edit/);
      await expect.element(heading('Edit the watch-out')).toBeVisible();
    },
  },
  {
    name: 'watch-outs, one retired',
    axe: true,
    show: async () => {
      await go('#/watchouts/w1');
      await press('Retire…');
      await press('Retire watch-out');
      await expect.element(page.getByText('Reason is missing.')).toBeVisible();
    },
  },
  {
    name: 'kits compared',
    axe: true,
    show: async ({ shelf }) => {
      await go(`#/kits/field%3A${shelf}/training%3A${shelf}`);
      await expect.element(page.getByText(/^Of \d+ steps of T-1/)).toBeVisible();
    },
  },
  {
    name: 'no cards yet',
    axe: true,
    show: async () => {
      await go('#/cards');
      await shown('No cards yet');
    },
  },
];

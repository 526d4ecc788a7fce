/** What stands in the place of each list while it is read, where it cannot be, where nothing is kept, and where nothing kept is as asked for. */
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { TableName } from '../../shared-types/records/index.ts';
import type { Store } from '../../renderer/store/store.ts';
import { emptyPlan } from './fixtures/plans.ts';
import { openCrowded } from './support/crowdedTask.ts';
import { openTask } from './support/openTask.tsx';
import { openWindow } from './support/openWindow.tsx';

/** From now on every table of the store is still read, or cannot be. */
function standIn(store: Store, state: { ready: boolean; fault: string | null }): void {
  const tables = new Map<TableName, unknown>();
  const table = (name: TableName): unknown => {
    const kept = tables.get(name);
    if (kept !== undefined) return kept;
    const fixed = { ...state, rows: new Map() };
    const made = { state: () => fixed, subscribe: () => () => undefined, whileRead: () => () => undefined };
    tables.set(name, made);
    return made;
  };
  Object.assign(store, { table });
}

const places = [
  ['#/catalog', 'catalog'],
  ['#/sites', 'sites'],
  ['#/steps', 'steps'],
  ['#/watchouts', 'watch-outs'],
  ['#/kits', 'kits'],
] as const;

describe.each(places)('%s', (address, what) => {
  it('says that it is being read, and where it cannot be, that and why', async () => {
    const { store } = await openTask(emptyPlan(), '#/');
    standIn(store, { ready: false, fault: null });
    window.location.hash = address;
    await expect.element(page.getByText(`Reading the ${what}…`)).toHaveAttribute('role', 'status');
    window.location.hash = '#/';
    await expect.element(page.getByText(`Reading the ${what}…`)).not.toBeInTheDocument();
    standIn(store, { ready: false, fault: 'The disk does not answer.' });
    window.location.hash = address;
    await expect.element(page.getByRole('heading', { name: new RegExp(`${what} could not be read`) })).toBeVisible();
    await expect.element(page.getByText('The disk does not answer.')).toBeVisible();
  });
});

it('each says what it is, where nothing is kept, and what to begin with', async () => {
  const { bringIn } = await openWindow();
  const shown = async (address: string, words: string, next: RegExp): Promise<void> => {
    window.location.hash = address;
    await expect.element(page.getByText(words).first()).toBeVisible();
    const ways = page.getByRole('main').getByRole('button', { name: next });
    await expect.element(ways.or(page.getByRole('main').getByRole('link', { name: next })).first()).toBeVisible();
  };
  await shown('#/catalog', 'No shelf yet', /^Add shelf/);
  await shown('#/sites', 'No site is kept yet', /^Add the first site/);
  await shown('#/watchouts', 'No watch-out is kept yet', /^Write /);
  await shown('#/kits', 'There is no kit yet', /^catalog$/);
  await bringIn(JSON.stringify(emptyPlan()));
  await shown('#/steps', 'This task has no steps yet', /outing/i);
});

it('each says of what is asked for and not there that it is not, and how much there is', async () => {
  await openCrowded('#/sites');
  const asked = async (address: string, field: string, words: string | RegExp): Promise<void> => {
    window.location.hash = address;
    await userEvent.fill(page.getByLabelText(field), 'zzz');
    await expect.element(page.getByText(words).first()).toBeVisible();
  };
  await asked('#/sites', 'Find a site or interface', 'No site or interface holds “zzz”.');
  await expect.element(page.getByText('2 sites, 2 interfaces')).toBeVisible();
  await asked('#/watchouts', 'Find in watch-outs: words, what they touch, who, when', 'No watch-out is as asked for.');
  await expect.element(page.getByText('0 of 3 watch-outs')).toBeVisible();
  await asked('#/catalog', 'Find an item: number, name, size, place or notes', /^0 of \d+$/);
  await expect.element(page.getByText(/^Nothing is found for/)).toBeVisible();
});

/** Twelve tasks by the keyboard alone: nothing is clicked, and at every stop it is seen where the focus is, under nothing else. */
import '../../renderer/styles/fonts.css';
import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { cardAnswer } from '../engine/cards/cardTask.ts';
import { mapResult, mapSource } from '../support/bagMapPlan.ts';
import { pdfOfPages } from './pdfOfPages.ts';
import { fillIn, find, press, tabInto, tabTo, type } from './support/byKeys.ts';
import { openCrowded } from './support/crowdedTask.ts';
import { rowsOf } from './support/keptStore.ts';
import { byCode, heading, openTask, stepCodes } from './support/openTask.tsx';
import { pastedItems } from './support/taskScreens.ts';

vi.setConfig({ testTimeout: 90_000 });

const save = '{Control>}{Enter}{/Control}';

/** What a spreadsheet would leave there: by its own keys, in a field of the test's own. */
async function toClipboard(text: string): Promise<void> {
  const field = document.createElement('textarea');
  field.value = text;
  document.body.append(field);
  field.select();
  await press('{Control>}c{/Control}');
  field.remove();
}

describe('by the keyboard alone', () => {
  it('an item is added', async () => {
    const { store } = await openCrowded('#/catalog');
    await find('Add item');
    await expect.element(heading('Add item')).toBeVisible();
    await tabTo('Kind');
    await type('Carry');
    await fillIn(/^Code/, 'RAG-1');
    await fillIn(/^Name/, 'Rag');
    await fillIn(/^Mass/, '20 g');
    await press(save);
    await expect.poll(async () => (await byCode(store, 'items')).get('RAG-1')).toMatchObject({ mass: '20 g' });
  });

  it('many items are changed at once', async () => {
    const { store, shelf } = await openCrowded('#/catalog');
    window.location.hash = `#/catalog/${shelf}`;
    await press('g', 'c');
    await expect.element(page.getByRole('grid', { name: 'Items' })).toBeVisible();
    await tabInto('Items');
    await press('{Control>}a{/Control}');
    await expect.element(heading(/items chosen$/)).toBeVisible();
    await tabTo('Set the kit…');
    await press('{Enter}');
    await tabTo('Kit');
    await type('training');
    await tabTo(/^Set the kit of /);
    await press('{Enter}');
    await expect
      .poll(async () => [...(await byCode(store, 'items')).values()].filter(({ kit }) => kit === 'training').length)
      .toBeGreaterThan(10);
  });

  it('rows are pasted in from a spreadsheet, and taken back', async () => {
    const { store, shelf } = await openCrowded('#/catalog');
    window.location.hash = `#/catalog/${shelf}`;
    await expect.element(page.getByRole('grid', { name: 'Items' })).toBeVisible();
    await toClipboard(pastedItems.split('\n').slice(0, 3).join('\n'));
    await tabInto('Items');
    await press('{Control>}v{/Control}');
    await expect.element(page.getByRole('dialog', { name: 'Bring items in' })).toBeVisible();
    await tabTo('Try all rows');
    await press('{Enter}');
    // What came of it takes the focus when it is there.
    await expect.poll(() => document.activeElement?.textContent).toMatch(/^2 rows tried/);
    await tabTo(/^Add 1 item, change 1/);
    await press('{Enter}');
    await tabTo('Close');
    await press('{Enter}');
    const kept = async (): Promise<boolean> => (await byCode(store, 'items')).has('S-NEW');
    expect(await kept()).toBe(true);
    await press('{Control>}z{/Control}');
    await expect.poll(kept).toBe(false);
    await press('{Control>}y{/Control}');
    await expect.poll(kept).toBe(true);
  });

  it('a circle of twelve bolts is drawn with its order', async () => {
    const { store } = await openCrowded('#/sites/rock');
    await find('Add interface to the site in hand');
    await expect.element(heading(/^Add an interface/)).toBeVisible();
    await fillIn(/^Code/, 'R');
    await fillIn(/^Name/, 'ring bolt');
    await fillIn(/^Count/, '12');
    await fillIn(/^Fastener/, 'F1');
    await tabTo(/^Pattern/);
    await type('Circle');
    await fillIn(/^Diameter/, '240 mm');
    await tabTo('Propose a star');
    await press('{Enter}');
    await press(save);
    await expect
      .poll(async () => (await byCode(store, 'interfaces')).get('R'))
      .toMatchObject({ pattern: 'circle 240 mm', count: 12, fastener: 'F1' });
    expect((await byCode(store, 'interfaces')).get('R')?.order).toHaveLength(12);
    await expect.element(heading(/^R · ring bolt/)).toBeVisible();
  });

  it('steps are put in another order', async () => {
    const { store } = await openCrowded('#/catalog');
    const before = await stepCodes(store);
    await press('g', 's');
    await expect.element(page.getByRole('grid', { name: 'Steps' })).toBeVisible();
    await tabInto('Steps');
    await press('{Home}', '{Alt>}{ArrowDown}{/Alt}');
    await expect.poll(async () => (await stepCodes(store)).indexOf('loosen')).toBe(before.indexOf('loosen') + 1);
    await expect.element(heading(/^2 · Loosen/)).toBeVisible();
    await press('m', 's');
    await expect.element(page.getByRole('dialog', { name: /^Move step/ })).toBeVisible();
    await expect.poll(() => document.activeElement?.tagName).toBe('INPUT');
    await type('1');
    await press('{Enter}');
    await expect.poll(async () => (await stepCodes(store)).indexOf('loosen')).toBe(0);
  });

  it('usual steps are added', async () => {
    const { store } = await openCrowded('#/steps');
    const before = (await stepCodes(store)).length;
    await press('a', 'u');
    await expect.element(heading('Add usual steps')).toBeVisible();
    await tabTo(/^flange bolt/);
    await press(' ');
    await fillIn(/^Torque to bear when loosening/, '45 lbf·ft');
    await fillIn(/^Callout, from/, '30 lbf·ft');
    await fillIn(/^Callout, to/, '35 lbf·ft');
    await press(save);
    await expect.poll(async () => (await stepCodes(store)).length).toBeGreaterThan(before + 3);
  });

  it('a watch-out is written', async () => {
    const { store } = await openCrowded('#/steps/tighten');
    await expect.element(heading(/^2 ·/)).toBeVisible();
    await tabTo('Write a watch-out…');
    await press('{Enter}');
    await expect.element(heading('Write a watch-out')).toBeVisible();
    await fillIn(/^Watch-out/, 'Warm the stud first.');
    await fillIn(/^By whom/, 'A. Tester');
    await press(save);
    await expect
      .poll(async () => [...(await byCode(store, 'watchOuts')).values()].map(({ text }) => text))
      .toContain('Warm the stud first.');
  });

  it('kits are compared', async () => {
    await openCrowded('#/catalog');
    await press('g', 'v');
    await expect.element(heading('Kits compared')).toBeVisible();
    await tabTo('One kit');
    await type('All of Cover');
    await tabTo('The other kit');
    await type('All of Training');
    await expect.element(page.getByText(/to “\u2068All of Training hall/)).toBeVisible();
    await tabTo(/^Show the steps that stay the same/);
    await press(' ');
    await expect.element(page.getByRole('region', { name: 'Steps with each kit' })).toBeVisible();
  });

  it('an item kept twice is merged', async () => {
    const { store } = await openCrowded('#/catalog');
    await find('Find items kept twice');
    await expect.element(page.getByRole('dialog', { name: /^Kept twice/ })).toBeVisible();
    await tabTo('Merge S-10 into S-9/16');
    await press('{Enter}');
    await expect.poll(async () => (await byCode(store, 'items')).get('S-10')?.retired).toBe(true);
    await press('{Escape}');
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
  });

  it('labels get their numbers', async () => {
    const { store } = await openCrowded('#/labels');
    await tabTo(/^Give \d+ label numbers?…$/);
    await press('{Enter}');
    await tabTo(/^Give numbers? 1/);
    await press('{Enter}');
    await expect
      .poll(async () => [...(await byCode(store, 'items')).values()].flatMap(({ tag }) => tag ?? []))
      .toContain(1);
  });

  it('a manifest is frozen, and a bag of it packed and closed', async () => {
    const { store, session } = await openTask(mapSource, '#/revisions');
    session.prefer({ sounds: false });
    session.keepResult(session.state().atHand?.planHash ?? '', {
      ...{ result: mapResult, minimised: 'mass', timeLimitS: null, plannedAt: new Date().toISOString() },
    });
    await expect.element(page.getByText('Not frozen yet')).toBeVisible();
    await tabTo('Freeze as revision 1…');
    await press('{Enter}');
    await fillIn(/^Your name/, 'P. Packer');
    await fillIn(/^Your role/, 'packer');
    await fillIn(/^Why it is frozen/, 'First issue');
    await tabTo('Freeze as revision 1');
    await press('{Enter}');
    await expect.poll(async () => (await rowsOf(store, 'revisions')).size).toBe(1);
    window.location.hash = '#/pack';
    await expect.element(heading(/^Packing/)).toBeVisible();
    for (const line of [/^Ratchet/, /^Socket 13 mm/, 'Close bag']) {
      await tabTo(line);
      await press('{Enter}');
    }
    await expect
      .poll(async () => [...(await rowsOf(store, 'events')).values()].map(({ deed }) => deed.kind).toSorted())
      .toEqual(['bag-closed', 'counted', 'counted']);
  });

  it('cards are printed', async () => {
    const { session, host } = await openCrowded('#/steps');
    const printed: string[] = [];
    host.makePdf = () => Promise.resolve(pdfOfPages(2));
    host.printPdf = ({ name }) => {
      printed.push(name);
      return Promise.resolve({ opened: true, address: null });
    };
    await press('g', 'k');
    await expect.element(heading('No cards yet')).toBeVisible();
    const { planHash, plan } = session.state().atHand ?? { planHash: '', plan: null };
    const outing = plan?.outings[0]?.id ?? '';
    session.keepResult(planHash, {
      ...{ minimised: 'mass', timeLimitS: null, plannedAt: new Date().toISOString() },
      result: { ...cardAnswer, outings: cardAnswer.outings.map((one) => ({ ...one, id: outing, steps: [] })) },
    });
    await expect.element(page.getByRole('group', { name: 'Page 1 of 2' })).toBeVisible();
    await tabTo('Print…');
    await press('{Enter}');
    await expect.poll(() => printed).toHaveLength(1);
    await expect.element(page.getByText('Opened for printing.')).toBeVisible();
  });
});

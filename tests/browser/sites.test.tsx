import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { RecordOf } from '../../shared-types/records/index.ts';
import { nextLetter } from '../../renderer/features/sites/siteActs.ts';
import { shownPlan } from './fixtures/plans.ts';
import {
  byCode,
  button,
  chooseIn,
  expectOneAct,
  field,
  heading,
  openStock,
  openTask,
  row,
  save,
} from './support/openTask.tsx';

const listed = (name: RegExp) => page.getByRole('grid', { name: 'Sites' }).getByRole('row', { name });

const plan = shownPlan();
const tables = ['sites', 'interfaces'] as const;
const rock: RecordOf<'sites'> = { id: 'rock', rev: 0, code: 'SRL', name: 'Sea rock light' };
const flange: RecordOf<'interfaces'> = {
  ...{ id: 'flange', rev: 0, site: 'rock', code: 'B', name: 'flange bolt', kind: 'fastener', count: 12 },
  fastener: 'F1',
  access: { depth: '2 in', clearDiameter: '1 in', swingDeg: 60, handleRadius: '8 in', protrusion: '0.4 in' },
  watchOuts: ['Wet plinth.'],
};

/** A task at a kept site, one of whose steps leaves to the interface what it can. */
async function openUsed(address: string) {
  const opened = await openTask(plan, '#/steps/tighten');
  const { store } = opened;
  const tighten = (await byCode(store, 'steps')).get('tighten');
  const task = [...(await byCode(store, 'tasks')).values()][0];
  if (tighten === undefined || task === undefined) throw new Error('no task');
  const { fastener: _fastener, access: _access, count: _count, ...rest } = tighten;
  const { siteText: _words, ...ofTask } = task;
  await store.commit({
    action: 'add-site',
    title: 'A site',
    proposals: [
      { table: 'sites', put: rock },
      { table: 'interfaces', put: flange },
      { table: 'tasks', put: { ...ofTask, site: 'rock' } },
      { table: 'steps', put: { ...rest, interface: 'flange' } },
    ],
  });
  window.location.hash = address;
  return opened;
}

describe('the sites hall', () => {
  it('leads from nothing to an interface with its access drawn', async () => {
    const { store } = await openStock();
    window.location.hash = '#/sites';
    await userEvent.click(button('Add the first site'));
    await userEvent.fill(field('Code'), 'SRL');
    await userEvent.fill(field('Name, optional'), 'Sea rock light');
    await expectOneAct(store, 'Add site SRL “Sea rock light”', tables, save);
    await expect.element(heading('Sea rock light')).toBeVisible();
    await userEvent.click(button('Add interface'));
    await expect.element(field('Code')).toHaveValue('A');
    await userEvent.fill(field('Name, optional'), 'flange bolt');
    await userEvent.fill(field('Count'), '12');
    await userEvent.fill(page.getByRole('combobox', { name: 'Fastener, optional' }), '9/16');
    await userEvent.keyboard('{Enter}');
    await userEvent.fill(field('Depth to the head, optional (with unit)'), '4 in');
    await userEvent.fill(field('Clear diameter, optional (with unit)'), '1 in');
    await userEvent.fill(field('Free swing (°), optional'), '60');
    await expectOneAct(store, 'Add interface A “flange bolt”', tables, save);
    await expect.element(heading('A · flange bolt')).toBeVisible();
    expect((await byCode(store, 'interfaces')).get('A')).toMatchObject({ count: 12, fastener: 'F1', kind: 'fastener' });
    const drawing = page.getByRole('figure', { name: 'Access of interface A' });
    await expect.element(drawing).toBeVisible();
    const texts = [...drawing.element().querySelectorAll('svg text')].map((text) => text.textContent);
    expect(texts).toContain('4 in (102 mm)');
    // The hole is four times as deep as it is wide, as the figures say.
    const depth = drawing.element().querySelector('g[data-dimension="4 in (102 mm)"] path')?.getAttribute('d') ?? '';
    const [, from = 0, to = 0] = (/^M([\d.]+) [\d.]+H([\d.]+)$/.exec(depth) ?? []).map(Number);
    const across = drawing.element().querySelector('svg[aria-labelledby$="desc"] g path')?.getAttribute('d') ?? '';
    const [, top = 0, bottom = 0] = (/^M[\d.]+ ([\d.]+)V([\d.]+)$/.exec(across) ?? []).map(Number);
    expect((to - from) / (bottom - top)).toBeCloseTo(4, 1);
  });

  it('refuses a code twice within its site, a count that is none, an access without its depth', async () => {
    const { store } = await openUsed('#/sites/rock');
    await userEvent.click(button('Add interface'));
    await userEvent.fill(field('Code'), 'B');
    await userEvent.fill(field('Count'), '3');
    await save();
    await expect.element(heading('1 field to mend')).toHaveFocus();
    await expect.element(page.getByRole('button', { name: /^Code: "B" is another interface’s/ })).toBeVisible();
    await userEvent.fill(field('Code'), 'C');
    await userEvent.fill(field('Count'), '0');
    await userEvent.fill(field('Clear diameter, optional (with unit)'), '1 in');
    await save();
    await expect.element(heading('2 fields to mend')).toHaveFocus();
    expect((await byCode(store, 'interfaces')).size).toBe(1);
  });

  it('says which tasks and steps use it, and removes nothing that is used', async () => {
    const { store } = await openUsed('#/sites/rock/flange');
    await expect.element(page.getByText('Wet plinth.')).toBeVisible();
    const uses = page.getByRole('region', { name: 'Steps that act on it' });
    await expect.element(uses).toHaveTextContent(/Cover change.*1 step: 2 Tighten the cover/);
    await userEvent.click(button('Remove…'));
    await expect
      .element(page.getByRole('dialog', { name: 'Interface flange bolt cannot be removed yet' }))
      .toHaveTextContent(/2 Tighten the cover/);
    await userEvent.click(button('Keep it'));
    await userEvent.click(listed(/^Sea rock light/));
    await userEvent.click(button('Remove…'));
    await expect
      .element(page.getByRole('dialog', { name: 'Site Sea rock light cannot be removed yet' }))
      .toHaveTextContent(/Cover change/);
    await userEvent.click(button('Keep it'));
    expect((await byCode(store, 'interfaces')).size).toBe(1);
    await userEvent.click(listed(/^B flange bolt/));
    await userEvent.click(page.getByRole('button', { name: '2 Tighten the cover' }));
    await expect.element(heading('2 · Tighten the cover')).toBeVisible();
  });

  it('copies a site whole and an interface alone, edits, and removes what is not used', async () => {
    const { store } = await openUsed('#/sites/rock/flange');
    await expectOneAct(store, 'Copy interface B “flange bolt”', tables, () => userEvent.click(button('Copy')));
    await expect.element(heading('C · flange bolt')).toBeVisible();
    await expectOneAct(store, 'Remove interface C “flange bolt”', tables, async () => {
      await userEvent.click(button('Remove…'));
      await userEvent.click(button('Remove interface C'));
    });
    await expect.element(heading('Sea rock light')).toBeVisible();
    await expectOneAct(store, 'Copy site SRL “Sea rock light”', tables, () => userEvent.click(button('Copy')));
    await expect.poll(async () => (await byCode(store, 'sites')).has('SRL-2')).toBe(true);
    expect([...(await byCode(store, 'interfaces')).values()]).toHaveLength(1);
    await expect.poll(() => store.table('interfaces').state().rows.size).toBe(2);
    await userEvent.click(button('Edit site'));
    await userEvent.fill(field('Name, optional'), 'North light');
    await expectOneAct(store, 'Edit site SRL-2 “Sea rock light”', tables, save);
    await expectOneAct(store, 'Remove site SRL-2 “North light”', tables, async () => {
      await userEvent.click(button('Remove…'));
      await expect.element(page.getByRole('dialog')).toHaveTextContent(/and with it 1 interface/);
      await userEvent.click(button('Remove site SRL-2'));
    });
    expect(store.table('interfaces').state().rows.size).toBe(1);
  });

  it('finds by words of site and interface', async () => {
    await openUsed('#/sites');
    await userEvent.fill(field('Find a site or interface'), 'flange');
    await expect.element(listed(/^B flange bolt/)).toBeVisible();
    await userEvent.fill(field('Find a site or interface'), 'nothing');
    await expect.element(page.getByText('No site or interface holds “nothing”.')).toBeVisible();
  });
});

describe('a step at an interface', () => {
  it('takes fastener, count and access from it, and is judged with them', async () => {
    await openUsed('#/steps/tighten');
    await expect.element(row(/Tighten the cover/)).toHaveTextContent(/× 12.*Reached/);
    await expect.element(page.getByText('Wet plinth.')).toBeVisible();
    await userEvent.click(button('Edit step'));
    await expect.element(field('Interface, optional')).toHaveValue('flange');
    await expect.element(page.getByText(/From interface B: F1/)).toBeVisible();
    await expect.element(page.getByText('From interface B: 12')).toBeVisible();
    await expect.element(page.getByText(/From interface B: 2 in deep, ⌀ 1 in clear, 60° of swing/)).toBeVisible();
    await userEvent.fill(field('Depth to the head, optional (with unit)'), '12 in');
    await expect.element(page.getByText(/In place of interface B’s: 2 in deep/)).toBeVisible();
    await save();
    await expect.element(row(/Tighten the cover/)).toHaveTextContent(/Not reached/);
  });

  it('can be given one in the form', async () => {
    const { store } = await openUsed('#/steps/loosen');
    await userEvent.click(button('Edit step'));
    await chooseIn('Interface, optional', 'B · flange bolt, 12 ×');
    await save();
    await expect.poll(async () => (await byCode(store, 'steps')).get('loosen')?.interface).toBe('flange');
  });
});

describe('letters of interfaces', () => {
  it('follow each other as far as the alphabet goes, then numbers', () => {
    expect(nextLetter('A', new Set())).toBe('A');
    expect(nextLetter('A', new Set(['A', 'B']))).toBe('C');
    expect(nextLetter('Z', new Set(['Z']))).toBe('Z-2');
    expect(nextLetter('7', new Set(['7']))).toBe('8');
  });
});

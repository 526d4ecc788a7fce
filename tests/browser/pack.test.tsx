/** Packing in the window: by pressing, by labels, short, counted again, let go. */
import { afterEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { RecordOf } from '../../shared-types/records/index.ts';
import type { Item } from '../../shared-types/records/item.ts';
import { freezeAct, revisionOf } from '../../renderer/features/revisions/freezeAct.ts';
import { tagText } from '../../renderer/engine/tag/index.ts';
import { mapResult, mapSource } from '../support/bagMapPlan.ts';
import { axeFaultsInEveryLook } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { byColourAlone, cutOff, sideways } from './support/measures.ts';
import { button, byCode, field, heading, openTask } from './support/openTask.tsx';
import { openWindow } from './support/openWindow.tsx';

afterEach(() => {
  window.location.hash = '#/';
});

/** A second socket serves where the first is not there. */
const source = {
  ...mapSource,
  catalog: {
    ...mapSource.catalog,
    sockets: [
      ...mapSource.catalog.sockets,
      { ...mapSource.catalog.sockets[0], id: 'S-13L', name: 'Socket 13 mm, long', mass: '0.2 kg' },
    ],
  },
};
const changes: Record<string, Partial<Item>> = {
  'R-38': { parts: 3, tag: 11 },
  'S-13': { tag: 12 },
  'T-07': { tag: 13 },
  L: { tag: 1 },
};

/** The task with a frozen manifest, at its packing, with a packer who is named. */
async function openPacking(named = true) {
  const opened = await openTask(source, '#/front');
  const { store, session } = opened;
  if (named) session.prefer({ person: 'Ann Example', personRole: 'packer', sounds: false });
  for (const [code, change] of Object.entries(changes)) {
    const item = (await byCode(store, 'items')).get(code);
    const put = { ...item, ...change } as RecordOf<'items'>;
    await store.commit({ action: 'edit-item', title: `Edit ${code}`, proposals: [{ table: 'items', put }] });
  }
  await expect.poll(() => session.state().atHand?.plan.sockets.size).toBe(2);
  const { atHand } = session.state();
  if (atHand === null) throw new Error('no task');
  const { id, task, text, plan } = atHand;
  const items = (await rowsOf(store, 'items')).values();
  const state = { task, text, plan, missing: [], result: mapResult, items, facts: new Map() };
  const by = { name: 'Ann Example', role: 'packer' };
  const at = '2026-11-26T08:00:00+01:00';
  const made = { state, task: { id, name: task.name }, id: store.newId(), number: 1, by, why: 'First issue', at };
  await store.commit(freezeAct(await revisionOf(made)));
  window.location.hash = '#/pack';
  await expect.element(page.getByRole('heading', { level: 1, name: /^Packing/ })).toBeVisible();
  return opened;
}

const line = (name: RegExp) => page.getByRole('button', { name });
const total = () => document.querySelector('.bw-pack-total')?.textContent ?? '';
async function events({ store }: Awaited<ReturnType<typeof openPacking>>) {
  return [...(await rowsOf(store, 'events')).values()].toSorted((a, b) => a.no - b.no);
}
const item = (tag: number, piece: number) => tagText({ kind: 'item', tag, piece });

/** As a reader that types: one key after the other, faster than a person, with Enter behind. */
function scan(code: string): void {
  for (const key of [...code, 'Enter']) {
    const at = document.activeElement ?? document.body;
    at.dispatchEvent(
      new KeyboardEvent('keydown', {
        key,
        code: /\d/.test(key) ? `Digit${key}` : key,
        bubbles: true,
        cancelable: true,
      }),
    );
  }
}

describe('packing', () => {
  it('counts a press as a piece, asks for the parts, takes back the last, and goes on at the same line after the page is gone', async () => {
    const opened = await openPacking();
    await expect.poll(total).toContain('0 of 7 packed');
    await userEvent.click(line(/^Ratchet/));
    await userEvent.click(button('2 parts'));
    await expect.poll(total).toContain('1 of 7 packed');
    await expect.element(page.getByText('1 of 1, 2 of 3 parts')).toBeVisible();
    await userEvent.click(line(/^Socket 13 mm/));
    await userEvent.click(button('Undo S-13'));
    await expect.poll(total).toContain('1 of 7 packed');
    await expect
      .poll(async () => (await events(opened)).map(({ deed }) => deed.kind))
      .toEqual(['counted', 'counted', 'taken-back']);
    // U21: nothing but the journal is left.
    await opened.screen.unmount();
    const again = await openWindow({ journal: opened.journal });
    await expect.poll(() => again.session.state().atHand?.id).toBe(opened.taskId);
    window.location.hash = '#/pack';
    await expect.element(line(/^Socket 13 mm/)).toHaveAttribute('aria-current', 'step');
    expect(total()).toContain('1 of 7 packed');
    await expect.element(page.getByText(/goes on at line 2 of 2/)).toBeVisible();
  });

  // U18, and U17 for a field that has the focus.
  it('stops at a wrong label until it is seen, counts a piece once, and lets nothing of a code into a field', async () => {
    const opened = await openPacking();
    scan(item(12, 1));
    await expect.poll(total).toContain('1 of 7 packed');
    scan(item(12, 1));
    await expect.element(page.getByRole('alert')).toHaveTextContent('S-13, piece 1, is counted already, in L.');
    await userEvent.click(button('I have seen it: go on'));
    // Of another bag, while another one waits behind it.
    scan(item(13, 2));
    scan(tagText({ kind: 'bag', tag: 1, piece: 0 }));
    await expect.element(page.getByRole('alert')).toHaveTextContent('T-07 belongs in C, not in L.');
    await expect.element(page.getByRole('alert')).toHaveTextContent('1 more read since wait');
    await userEvent.click(button('I have seen it: go on'));
    scan('999999999999');
    await expect.element(page.getByRole('alert')).toHaveTextContent('Not counted');
    await userEvent.click(button('I have seen it: go on'));
    await userEvent.click(button('Missing…'));
    await userEvent.click(field('Reason'));
    await userEvent.keyboard('lent');
    scan(item(11, 1));
    await expect.element(field('Reason')).toHaveValue('lent');
    await expect.element(button('All 3 parts')).toBeVisible();
    await userEvent.click(button('All 3 parts'));
    await expect.poll(total).toContain('2 of 7 packed');
    const labels = async () => (await events(opened)).map(({ deed }) => (deed.kind === 'counted' ? deed.label : null));
    await expect.poll(labels).toEqual([item(12, 1), item(11, 1)]);
  });

  it('asks who packs before the first piece, and says what is not frozen', async () => {
    const opened = await openTask(source, '#/pack');
    await expect.element(heading('Nothing is frozen yet')).toBeVisible();
    await opened.screen.unmount();
    await openPacking(false);
    await userEvent.fill(field('Your name'), 'Ann Example');
    await userEvent.click(button('Keep name and role'));
    await userEvent.click(line(/^Socket 13 mm/));
    await expect.poll(total).toContain('1 of 7 packed');
  });

  // U3
  it('has rows for fingers and for gloves, with states in word and shape, in every look', async () => {
    const { session } = await openPacking();
    const rows = (): DOMRect[] =>
      [...document.querySelectorAll('.bw-pack-row')].map((row) => row.getBoundingClientRect());
    const targets = (): DOMRect[] =>
      [...document.querySelectorAll('.bw-pack button, .bw-pack a.bw-pack-bag')].map((one) =>
        one.getBoundingClientRect(),
      );
    expect(Math.min(...targets().map(({ height }) => height))).toBeGreaterThanOrEqual(48);
    expect(byColourAlone()).toEqual([]);
    expect(sideways()).toEqual([]);
    expect(await axeFaultsInEveryLook()).toEqual([]);
    session.prefer({ gloved: true });
    // 19 mm are 72 px, 13 mm are 49.
    await expect.poll(() => Math.min(...targets().map(({ height }) => height))).toBeGreaterThanOrEqual(72);
    const gaps = rows().flatMap(({ top }, index) => (index === 0 ? [] : [top - (rows()[index - 1]?.bottom ?? 0)]));
    expect(gaps.length).toBeGreaterThan(0);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(49);
    expect(cutOff()).toEqual([]);
    expect(await axeFaultsInEveryLook()).toEqual([]);
    await userEvent.click(button('Missing…'));
    const inDialog = [...document.querySelectorAll('dialog[open] :is(button, input, select)')];
    expect(Math.min(...inDialog.map((one) => one.getBoundingClientRect().height))).toBeGreaterThanOrEqual(72);
  });
});

/** Everything of a bag, by its buttons. */
async function packAll(names: readonly RegExp[]): Promise<void> {
  for (const name of names) {
    await userEvent.click(line(name));
    if (document.querySelector('dialog[open]') !== null) await userEvent.click(button('All 3 parts'));
  }
}

describe('before it leaves', () => {
  // U19
  it('a bag is closed short with a reason and another person’s name; a second count by another person; then it goes', async () => {
    const opened = await openPacking();
    await packAll([/^Ratchet/, /^Socket 13 mm/]);
    await userEvent.click(button('Close bag'));
    await userEvent.click(page.getByRole('link', { name: /^Common box/ }));
    await userEvent.click(line(/^Tool tether/));
    await userEvent.click(line(/^Tool tether/));
    await userEvent.click(button(/^Close bag/));
    await userEvent.fill(field('Reason'), 'one is lent out');
    await userEvent.fill(field('Second person’s name'), ' ann  EXAMPLE ');
    await userEvent.fill(field('Second person’s role'), 'shop lead');
    await userEvent.click(button('Close bag short'));
    await expect.element(page.getByText(/packed it: the second name must be of another person/)).toBeVisible();
    await userEvent.fill(field('Second person’s name'), 'Cyd Example');
    await userEvent.click(button('Close bag short'));
    await userEvent.click(page.getByRole('link', { name: /^Second’s bag/ }));
    await userEvent.click(button(/^All 2/));
    await userEvent.click(button('Close bag'));
    await expect
      .poll(async () => (await events(opened)).filter(({ deed }) => deed.kind === 'bag-closed').length)
      .toBe(3);

    const count = async (bag: string, counts: Record<string, number>): Promise<void> => {
      window.location.hash = `#/pack/o/${bag}/again`;
      await userEvent.fill(field('Your name'), 'Ben Example');
      await userEvent.click(button('Begin to count'));
      // Whoever counts blind sees no number of the manifest’s.
      expect(document.querySelector('.bw-pack')?.textContent).not.toMatch(/\d of \d/);
      for (const [code, pieces] of Object.entries(counts)) {
        await userEvent.fill(field(`Pieces of ${code}`), String(pieces));
        await userEvent.click(button(`Keep the count of ${code}`));
      }
    };
    window.location.hash = '#/pack/o/L/again';
    await userEvent.fill(field('Your name'), 'ANN example');
    await userEvent.click(button('Begin to count'));
    await expect.element(page.getByText('ANN example packed this bag: another person counts it again')).toBeVisible();
    await count('L', { 'R-38': 1, 'S-13': 1 });
    await expect.element(page.getByText('Every line is the same, counted by Ben Example')).toBeVisible();
    await count('Z', { 'W-10': 2 });
    await count('C', { 'T-07': 3 });
    await expect.element(page.getByText('T-07: 2 pieces packed, 3 pieces counted again')).toBeVisible();

    // A step needs three: short by one it loses its gear, whoever signed.
    window.location.hash = '#/pack/o/C/issue';
    await expect.element(page.getByRole('rowheader', { name: 'Step turn loses T-07' })).toBeVisible();
    await userEvent.click(button(/^Issue/));
    await expect.element(page.getByText(/checks keep it back\./)).toBeVisible();
    window.location.hash = '#/pack/o/C';
    await userEvent.click(button('Open bag again…'));
    await userEvent.fill(field('Reason'), 'the second count found three');
    await userEvent.click(page.getByRole('dialog').getByRole('button', { name: 'Open bag again' }));
    await userEvent.click(button('Count T-07 again'));
    await userEvent.click(button(/^All 3/));
    await userEvent.click(button('Close bag'));
    window.location.hash = '#/pack/o/C/issue';
    await expect.element(page.getByText(/none keeps it back/)).toBeVisible();
    await userEvent.click(button(/^Issue/));
    await expect.element(page.getByText(/issued by/)).toBeVisible();
    await expect
      .poll(async () => (await events(opened)).at(-1))
      .toMatchObject({ by: { name: 'Ann Example' }, deed: { kind: 'issued' } });
    expect((await events(opened)).filter(({ deed }) => deed.kind === 'second-count').map(({ by }) => by.name)).toEqual(
      // Each line by itself: two of one bag.
      Array(4).fill('Ben Example'),
    );
    window.location.hash = '#/front';
    await expect
      .element(page.getByRole('navigation', { name: 'Job line' }).getByText('Out', { exact: true }))
      .toBeVisible();
  });

  it('plans an outing without what is missing, or says which step fails; taking it carries the count over', async () => {
    const opened = await openPacking();
    await packAll([/^Ratchet/]);
    await userEvent.click(button('Missing…'));
    await userEvent.fill(field('Reason'), 'broken');
    await userEvent.click(button('Name it missing'));
    await userEvent.click(button('Plan without it…'));
    await expect
      .element(page.getByText(/still does every step of this outing without S-13\./), { timeout: 40_000 })
      .toBeVisible();
    await expect
      .element(page.getByText('0.834 kg (1.84 lb) becomes 0.884 kg (1.95 lb)', { exact: false }))
      .toBeVisible();
    await userEvent.click(button('Freeze as revision 2 and go on packing'));
    await expect.element(page.getByText(/manifest revision 2/)).toBeVisible();
    await expect.poll(total).toContain('1 of 7 packed');
    // The planner puts it where it may; packing goes on there.
    await userEvent.click(button('Go on with Common box C'));
    await expect.element(line(/^Socket 13 mm, long/)).toBeVisible();
    const carried = (await events(opened)).find(({ deed }) => deed.kind === 'carried-over');
    expect(carried?.deed).toMatchObject({ counts: [{ bag: 'L', item: 'R-38', pieces: 1, parts: 3 }] });
    // Of the ratchet there is one alone that reaches: without it there is no bag.
    await userEvent.click(page.getByRole('link', { name: /^Lead’s bag/ }));
    await userEvent.click(button('Undo R-38'));
    await userEvent.click(button('Missing…'));
    await userEvent.selectOptions(field('What is not there'), 'R-38');
    await userEvent.fill(field('Reason'), 'lent out');
    await userEvent.click(button('Name it missing'));
    await userEvent.click(button('Plan without it…'));
    await expect.element(page.getByText('No bag without it'), { timeout: 40_000 }).toBeVisible();
    await expect.element(page.getByText(/Step turn:/)).toBeVisible();
  });
});

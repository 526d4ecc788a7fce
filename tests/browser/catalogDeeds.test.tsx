import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Item } from '../../shared-types/records/item.ts';
import type { RecordOf } from '../../shared-types/records/index.ts';
import type { Proposal, Store } from '../../renderer/store/store.ts';
import { fastener, outing, put, rowsOf, step, task } from './support/keptStore.ts';
import { openCatalog, socket, torqueTool } from './support/openCatalog.tsx';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const save = () => userEvent.keyboard('{Control>}{Enter}{/Control}');
const takeInHand = (code: string) => userEvent.click(page.getByText(code, { exact: true }));
const heading = (name: string) => page.getByRole('heading', { name, exact: true });

async function itemsBy(store: Store): Promise<Map<string, Item>> {
  return new Map([...(await rowsOf(store, 'items')).values()].map((item) => [item.code, item]));
}

/** Undo takes it back and Redo brings it again, each with its title on the button. */
async function expectTurnsRound(title: string, before: () => Promise<unknown>, after: () => Promise<unknown>) {
  await after();
  await userEvent.click(button(`Undo: ${title}`));
  await expect.element(button(`Redo: ${title}`)).toBeInTheDocument();
  await before();
  await userEvent.click(button(`Redo: ${title}`));
  await expect.element(button(`Undo: ${title}`)).toBeInTheDocument();
  await after();
}

const interfaceAt = (id: string, more: Partial<RecordOf<'interfaces'>> = {}): Proposal =>
  put('interfaces', { id, rev: 0, site: 'rock', code: id, kind: 'fastener', count: 4, ...more });

/** A task that names a socket as gear, a fastener in each place that can, and a bag. */
const used: Proposal[] = [
  put('items', socket('S-1')),
  put('items', fastener('F-1', 'crew')),
  put('items', { id: 'bag', rev: 0, code: 'B-1', shelf: 'crew', retired: false, parts: 1, kit: 'field', kind: 'bag' }),
  put('tasks', { ...task('light', ['crew']), site: 'rock' }),
  put('outings', { ...outing('one', 'light'), bags: ['B-1'] }),
  put('steps', step('a', 'light', { fastener: 'F-1', gear: [{ id: 'S-1', quantity: 2 }] })),
  put(
    'steps',
    step('b', 'light', { hold: { fastener: 'F-1' }, moves: [{ id: 'S-1', quantity: 1, from: 'bag', to: 'box' }] }),
  ),
  put('sites', { id: 'rock', rev: 0, code: 'rock' }),
  interfaceAt('A', { fastener: 'F-1' }),
];

describe('adding', () => {
  it('keeps a socket with every field as it was typed, one act, undone and redone', async () => {
    const { store } = await openCatalog({ items: [] });
    await userEvent.click(button('Add item'));
    await userEvent.fill(page.getByLabelText('Code'), 'S-18D');
    await userEvent.fill(page.getByLabelText('Name, optional'), 'Socket 9/16 in deep');
    await userEvent.fill(page.getByLabelText('Size of the opening (with unit)'), '9/16"');
    await userEvent.fill(page.getByLabelText('Effective length (with unit)'), '2.50 in');
    await userEvent.fill(page.getByLabelText('Outside diameter (with unit)'), '20.3mm');
    await userEvent.fill(page.getByLabelText('Rated torque (with unit)'), '150 ft-lb');
    await userEvent.fill(page.getByLabelText('Mass (with unit)'), '152 g');
    await userEvent.fill(page.getByLabelText('On hand (pieces)'), '3');
    await userEvent.fill(page.getByLabelText('Kept at, optional'), 'shelf 4, tray C2');
    await save();
    await expect.element(heading('S-18D')).toBeInTheDocument();
    const kept = (await itemsBy(store)).get('S-18D');
    expect(kept).toMatchObject({
      ...{ kind: 'socket', shelf: 'crew', drive: '3/8 in', opening: { form: 'hex6', size: '9/16"' }, rev: 1 },
      ...{ length: '2.50 in', outsideDiameter: '20.3mm', ratedTorque: '150 ft-lb', mass: '152 g', onHand: 3 },
    });
    const count = async (wanted: number) => expect.poll(async () => (await itemsBy(store)).size).toBe(wanted);
    await expectTurnsRound(
      'Add S-18D',
      () => count(0),
      () => count(1),
    );
  });

  it('keeps what two kinds share when the kind is chosen anew', async () => {
    await openCatalog({ items: [] });
    await userEvent.click(button('Add item'));
    await userEvent.fill(page.getByLabelText('Code'), 'X-1');
    await userEvent.fill(page.getByLabelText('Mass (with unit)'), '1 kg');
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'Kind' }), 'Torque tool');
    await expect.element(page.getByLabelText('Code')).toHaveValue('X-1');
    await expect.element(page.getByLabelText('Mass (with unit)')).toHaveValue('1 kg');
    await expect.element(page.getByLabelText('Range, least (with unit)')).toHaveValue('');
  });

  it.each([
    ['Rated torque (with unit)', '165', 'Rated torque: "165" has no unit'],
    ['Rated torque (with unit)', '1,250 lbf·in', 'can be read in two ways'],
    ['Rated torque (with unit)', '45 nm', 'can be read as nanometre or as newton metre'],
    ['Rated torque (with unit)', '0 N·m', 'must be more than 0'],
    ['Rated torque (with unit)', '12 mm', 'is a unit of length'],
    ['Effective length (with unit)', '½ in', 'has a fraction in one character'],
    ['Effective length (with unit)', '-3 mm', 'must be 0 or more'],
    ['Effective length (with unit)', '', 'Effective length is'],
    ['Drive (with unit)', '7/16 in', 'no square drive known here'],
    ['Mass (with unit)', '2 lbf', 'Write "lb" for mass'],
    ['On hand (pieces)', '2.5', 'On hand (pieces)'],
    ['Code', 'S-1', '"S-1" is already the code of 9/16 in 6-point, 3/8 in square on this shelf.'],
  ])('%s refuses "%s" on top and at the field in the same words', async (label, text, words) => {
    const { store } = await openCatalog({ items: [socket('S-1'), socket('S-2')] });
    await takeInHand('S-2');
    await userEvent.click(button('Edit'));
    const field = page.getByLabelText(label, { exact: true });
    await userEvent.fill(field, text);
    await save();
    await expect.element(page.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
    const said = document.querySelector('.bw-refused li')?.textContent ?? '';
    expect(said).toContain(words);
    await expect.element(field).toHaveAccessibleDescription(expect.stringContaining(said));
    expect((await itemsBy(store)).get('S-2')?.rev).toBe(1);
  });
});

it('a form names every field to mend at once: what is missing and what cannot be read', async () => {
  await openCatalog({ items: [] });
  await userEvent.click(button('Add item'));
  await userEvent.fill(page.getByLabelText('Mass (with unit)'), '152');
  await save();
  await expect.element(page.getByRole('heading', { name: '6 fields to mend' })).toHaveFocus();
  const said = [...document.querySelectorAll('.bw-refused li')].map((line) => line.textContent ?? '');
  expect(said.filter((line) => /is (missing|empty)/.test(line))).toHaveLength(5);
  expect(said).toContain('Mass: "152" has no unit: write it with one, as "152 kg" or "152 lb".');
});

describe('changing', () => {
  it('edits by F2 and keys alone, and comes back to the row', async () => {
    const { store } = await openCatalog({ items: [socket('S-1'), socket('S-2')] });
    await expect.element(page.getByText('S-1', { exact: true })).toBeInTheDocument();
    await userEvent.click(page.getByRole('searchbox'));
    await userEvent.keyboard('{ArrowDown}{ArrowDown}{F2}');
    await expect.element(page.getByLabelText('Code')).toHaveFocus();
    await userEvent.tab();
    await userEvent.keyboard('Second socket');
    await save();
    await expect.element(page.getByText('Second socket').first()).toBeInTheDocument();
    await expect.poll(() => document.activeElement?.getAttribute('role')).toBe('row');
    const name = async (wanted: string | undefined) =>
      expect.poll(async () => (await itemsBy(store)).get('S-2')?.name).toBe(wanted);
    await expectTurnsRound(
      'Edit S-2',
      () => name(undefined),
      () => name('Second socket'),
    );
  });

  it('takes a value away where its field is emptied', async () => {
    const { store } = await openCatalog({ items: [socket('S-1', { keptAt: 'tray C2' })] });
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await userEvent.clear(page.getByLabelText('Kept at, optional'));
    await userEvent.clear(page.getByLabelText('Inner depth, optional (with unit)'));
    await save();
    await expect.element(heading('S-1')).toBeInTheDocument();
    expect(Object.keys((await itemsBy(store)).get('S-1') ?? {})).not.toContain('keptAt');
    expect(Object.keys((await itemsBy(store)).get('S-1') ?? {})).not.toContain('innerDepth');
  });

  it('shows folded fields where they hold something', async () => {
    await openCatalog({ items: [socket('S-1'), socket('S-2', { volume: '0.1 L' })] });
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await expect.element(page.getByLabelText('Volume, optional (with unit)')).not.toBeVisible();
    await userEvent.keyboard('{Escape}');
    await takeInHand('S-2');
    await userEvent.click(button('Edit'));
    await expect.element(page.getByLabelText('Volume, optional (with unit)')).toBeVisible();
  });

  it('copies under a code of its own', async () => {
    const { store } = await openCatalog({ items: [socket('S-8'), socket('S-9', { keptAt: 'tray C2' })] });
    await takeInHand('S-9');
    await userEvent.click(button('Copy'));
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-10');
    await save();
    await expect.element(heading('S-10')).toBeInTheDocument();
    expect((await itemsBy(store)).get('S-10')).toMatchObject({ keptAt: 'tray C2', length: '2.50 in', rev: 1 });
    const count = async (wanted: number) => expect.poll(async () => (await itemsBy(store)).size).toBe(wanted);
    await expectTurnsRound(
      'Add S-10',
      () => count(2),
      () => count(3),
    );
  });

  it('lets every name of an item follow its new code in the same act, said before', async () => {
    const pack: Item = {
      ...{ id: 'pack', rev: 0, code: 'P-1', shelf: 'crew', retired: false, parts: 4, kit: 'field', kind: 'gear' },
      ...{ mass: '60 g', onHand: 1, use: 'consumable' },
    };
    const { store } = await openCatalog({ more: [...used, put('items', pack)] });
    const steps = () => rowsOf(store, 'steps');
    await takeInHand('P-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Fastener in it'), 'F-1');
    await userEvent.fill(page.getByLabelText('Fasteners in one of it (pieces)'), '4');
    await save();
    await expect.element(heading('P-1')).toBeInTheDocument();
    await takeInHand('S-1');
    await takeInHand('F-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Code'), 'F-2');
    await expect
      .element(page.getByText('2 steps, 1 interface and 1 pack name F-1', { exact: false }))
      .toBeInTheDocument();
    await save();
    await expect.element(heading('F-2')).toBeInTheDocument();
    const names = (code: string) => async () => {
      await expect.poll(async () => (await steps()).get('a')?.fastener).toBe(code);
      expect((await steps()).get('b')?.hold?.fastener).toBe(code);
      expect((await rowsOf(store, 'interfaces')).get('A')?.fastener).toBe(code);
      expect((await itemsBy(store)).get('P-1')).toMatchObject({ supplies: { fastener: code, quantity: 4 } });
    };
    await expectTurnsRound('Rename F-1 to F-2', names('F-1'), names('F-2'));
  });

  it('renames gear, moves and bags too', async () => {
    const { store } = await openCatalog({ more: used });
    await takeInHand('S-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Code'), 'S-7');
    await save();
    await expect.element(heading('S-7')).toBeInTheDocument();
    expect((await rowsOf(store, 'steps')).get('a')?.gear).toEqual([{ id: 'S-7', quantity: 2 }]);
    expect((await rowsOf(store, 'steps')).get('b')?.moves?.[0]?.id).toBe('S-7');
    await takeInHand('B-1');
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Code'), 'B-9');
    await save();
    await expect.element(heading('B-9')).toBeInTheDocument();
    expect((await rowsOf(store, 'outings')).get('one')?.bags).toEqual(['B-9']);
  });

  it('leaves alone what means the same code on another shelf', async () => {
    const other = [
      put('shelves', { id: 'depot', rev: 0, name: 'Depot' }),
      put('items', socket('D-1', { shelf: 'depot', code: 'S-1' })),
    ];
    const { store } = await openCatalog({ more: [...used, ...other] });
    window.location.hash = '#/catalog/depot/D-1';
    await expect.element(heading('S-1')).toBeInTheDocument();
    await userEvent.click(button('Edit'));
    await userEvent.fill(page.getByLabelText('Code'), 'S-2');
    await save();
    await expect.element(heading('S-2')).toBeInTheDocument();
    expect((await rowsOf(store, 'steps')).get('a')?.gear?.[0]?.id).toBe('S-1');
  });
});

describe('taking away', () => {
  it('retires with its consequences said, and brings back', async () => {
    const { store } = await openCatalog({ more: used });
    const retired = async (wanted: boolean) =>
      expect.poll(async () => (await itemsBy(store)).get('S-1')?.retired).toBe(wanted);
    await takeInHand('S-1');
    await userEvent.click(button('Retire…'));
    await expect.element(page.getByRole('dialog')).toHaveTextContent('2 steps name S-1 and will find it missing.');
    await userEvent.click(button('Retire S-1'));
    await expectTurnsRound(
      'Retire S-1',
      () => retired(false),
      () => retired(true),
    );
    await userEvent.click(button('Bring back'));
    await expectTurnsRound(
      'Bring back S-1',
      () => retired(true),
      () => retired(false),
    );
  });

  it('removes what nothing names, and says what names the rest', async () => {
    const { store } = await openCatalog({ more: [...used, put('items', socket('S-99'))] });
    await takeInHand('F-1');
    await userEvent.click(button('Remove…'));
    const dialog = page.getByRole('dialog', { name: 'F-1 cannot be removed' });
    await expect.element(dialog).toHaveTextContent('2 steps and 1 interface name F-1.');
    await expect.element(dialog).toHaveTextContent('steps a, b');
    expect(document.querySelector('dialog .mantine-Button-root[data-variant=filled]')).toBeNull();
    await userEvent.keyboard('{Escape}');
    await takeInHand('S-99');
    await userEvent.click(button('Remove…'));
    await userEvent.click(button('Remove S-99'));
    const there = async (wanted: boolean) => expect.poll(async () => (await itemsBy(store)).has('S-99')).toBe(wanted);
    await expectTurnsRound(
      'Remove S-99',
      () => there(true),
      () => there(false),
    );
  });

  it('changes several rows at once, shown before, as one act', async () => {
    const { store } = await openCatalog({
      items: [
        socket('S-1', { keptAt: 'tray A' }),
        socket('S-2', { keptAt: 'tray A' }),
        socket('S-3'),
        torqueTool('TT-1'),
      ],
    });
    await takeInHand('S-1');
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    await userEvent.keyboard('{Shift>}{ArrowDown}{ArrowDown}{/Shift}');
    await expect.element(heading('3 items chosen')).toBeInTheDocument();
    expect(document.querySelectorAll('[role=row][aria-selected=true]')).toHaveLength(3);
    await userEvent.click(button('Set the place…'));
    await userEvent.fill(page.getByLabelText('Kept at'), 'tray B');
    const rows = [...document.querySelectorAll('dialog tbody tr')].map((row) =>
      [...row.children].map((cell) => cell.textContent),
    );
    expect(rows).toEqual([
      ['tray A', 'tray B', '2'],
      ['no place', 'tray B', '1'],
    ]);
    await userEvent.click(button('Set the place of 3 items'));
    const places = async (wanted: (string | undefined)[]) =>
      expect.poll(async () => ['S-1', 'S-2', 'S-3'].map((code) => codes.get(code)?.keptAt).join()).toBe(wanted.join());
    let codes = await itemsBy(store);
    store.table('items').subscribe(() => void itemsBy(store).then((now) => (codes = now)));
    await expectTurnsRound(
      'Set the place of 3 items',
      () => places(['tray A', 'tray A', undefined]),
      () => places(['tray B', 'tray B', 'tray B']),
    );
    expect(codes.get('TT-1')?.keptAt).toBeUndefined();
  });

  it('sets any field that all of them have, the bad rows named, as one act', async () => {
    const { store } = await openCatalog({
      items: [socket('S-1'), socket('S-2', { mass: '75 g' }), torqueTool('TT-1')],
    });
    await takeInHand('S-1');
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    await userEvent.keyboard('{Shift>}{ArrowDown}{ArrowDown}{/Shift}');
    await userEvent.click(button('Set another field…'));
    await userEvent.selectOptions(page.getByLabelText('Field', { exact: true }), 'Mass');
    await userEvent.fill(page.getByLabelText('New value'), '75');
    await expect
      .element(page.getByRole('dialog'))
      .toHaveTextContent('0 of 3 items will change, 3 cannot be changed so');
    await expect.element(page.getByRole('dialog')).not.toHaveTextContent(/Set “Mass”/);
    await userEvent.fill(page.getByLabelText('New value'), '75 g');
    await expect.element(page.getByRole('dialog')).toHaveTextContent('2 of 3 items will change, 1 say so already');
    await userEvent.click(button('Set “Mass” of 2 items'));
    const masses = async (wanted: string) =>
      expect
        .poll(async () => [...(await itemsBy(store)).values()].map((item) => ('mass' in item ? item.mass : '')).join())
        .toBe(wanted);
    await masses('75 g,75 g,75 g');
    await expectTurnsRound(
      'Set “Mass” of 2 items',
      async () => expect.poll(async () => (await itemsBy(store)).get('TT-1')).not.toMatchObject({ mass: '75 g' }),
      () => masses('75 g,75 g,75 g'),
    );
  });

  it('retires several, leaving those alone that are retired already', async () => {
    const { store } = await openCatalog({ items: [socket('S-1'), socket('S-2', { retired: true }), socket('S-3')] });
    await userEvent.click(page.getByLabelText('Retired ones too'));
    await takeInHand('S-1');
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    await userEvent.keyboard(' {ArrowDown} {ArrowDown} ');
    await userEvent.click(button('Retire…'));
    await expect.element(page.getByRole('dialog')).toHaveTextContent('2 rows of 3 will change:');
    await userEvent.click(button('Retire 2 items'));
    await expect.poll(async () => [...(await itemsBy(store)).values()].every((item) => item.retired)).toBe(true);
    expect((await itemsBy(store)).get('S-2')?.rev).toBe(1);
  });
});

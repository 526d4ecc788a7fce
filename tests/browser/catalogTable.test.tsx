import { beforeEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { render } from 'vitest-browser-react';
import type { Item } from '../../shared-types/records/item.ts';
import { openWorkbook } from '../../renderer/engine/sheet/xlsx/index.ts';
import { forgetCatalogView, useCatalogView } from '../../renderer/features/catalog/view.ts';
import type { CatalogView } from '../../renderer/features/catalog/view.ts';
import { axeFaults } from './support/axe.ts';
import { openCatalog, socket, torqueTool } from './support/openCatalog.tsx';
import { put, rowsOf } from './support/keptStore.ts';

const button = (name: string | RegExp) => page.getByRole('button', { name });
const search = () => page.getByRole('searchbox');
const codes = (): string[] =>
  [...document.querySelectorAll('.bw-catalog-table .bw-item-code')].map((one) => one.textContent ?? '');

/** Ctrl C and Ctrl V as the browser does them: the table answers the events of its clipboard. */
function copied(): string {
  const clipboardData = new DataTransfer();
  const at = document.activeElement ?? document.body;
  at.dispatchEvent(new ClipboardEvent('copy', { clipboardData, bubbles: true, cancelable: true }));
  return clipboardData.getData('text/plain');
}
function paste(text: string): void {
  const clipboardData = new DataTransfer();
  clipboardData.setData('text/plain', text);
  const at = document.querySelector('[role=row][tabindex="0"]') ?? document.body;
  at.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
}

beforeEach(() => localStorage.clear());

describe('the search', () => {
  it('forgives one letter, swapped or wrong, after what is exact; never a digit', async () => {
    await openCatalog({
      items: [
        socket('A', { name: 'Ratchet spanner, M10' }),
        socket('B', { name: 'Ratchte, as typed', notes: 'M12' }),
        socket('C', { name: 'Rattle', opening: { form: 'hex6', size: '7/16 in' } }),
        socket('D-1O', { name: 'Other' }),
      ],
    });
    await userEvent.fill(search(), 'ratchte');
    await expect.poll(codes).toEqual(['B', 'A']);
    await expect.element(page.getByText('2 of 4, 1 nearly so')).toBeInTheDocument();
    await userEvent.fill(search(), 'm10');
    await expect.poll(codes).toEqual(['A']);
    await userEvent.fill(search(), 'd-10');
    await expect.poll(codes).toEqual(['D-1O']);
    for (const size of ['7/16', '7/16 in', '7/16in', '7-16']) {
      await userEvent.fill(search(), size);
      await expect.poll(codes).toEqual(size === '7-16' ? [] : ['C']);
    }
  });
});

describe('columns, filters and views', () => {
  it('leave only what lies between two sizes in whatever unit, say so, and are kept under a name', async () => {
    const { store } = await openCatalog({
      items: [socket('A', { length: '25.4 mm' }), socket('B', { length: '2 in' }), socket('C', { length: '80 mm' })],
    });
    await userEvent.click(page.getByText('Sockets and bits', { exact: true }));
    await userEvent.click(button('Columns and filters…'));
    await userEvent.fill(page.getByLabelText('Length from'), '1 in');
    await userEvent.fill(page.getByLabelText('Length to'), '51');
    await expect.element(page.getByText('"51" is not read: write it with its unit, as 12 mm.')).toBeVisible();
    await userEvent.fill(page.getByLabelText('Length to'), '51 mm');
    await expect.element(page.getByText('2 of 3 shown')).toBeVisible();
    await userEvent.click(page.getByRole('checkbox', { name: 'Mass' }));
    await userEvent.click(page.getByRole('checkbox', { name: 'Outside diameter' }));
    await userEvent.click(button('Outside diameter one place earlier'));
    await expect.element(button('Outside diameter one place earlier')).toHaveFocus();
    await userEvent.fill(page.getByLabelText(/^Width of Name/), '200');
    await userEvent.keyboard('{Enter}');
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(button('Close'));
    expect(codes()).toEqual(['A', 'B']);
    const heads = [...document.querySelectorAll('[role=columnheader]')].map((head) =>
      head.textContent?.replace(/[↑↓]/, ''),
    );
    expect(heads).toEqual(['Item', 'Name', 'Drive', 'Opening', 'Length', 'Rated', 'Outside diameter', 'On hand']);
    await userEvent.click(button('Views…'));
    await userEvent.fill(page.getByLabelText('Keep this view as'), 'Short ones');
    await userEvent.click(button('Keep this view'));
    await expect.element(button('Take the view Short ones')).toBeVisible();
    await userEvent.click(button('Close'));
    await userEvent.click(button('Take off: Length 1 in to 51 mm'));
    await expect.poll(codes).toEqual(['A', 'B', 'C']);
    await userEvent.click(button('Views…'));
    await userEvent.click(button('Take the view Short ones'));
    await expect.poll(codes).toEqual(['A', 'B']);
    expect(store.history().undo).toBeNull();
  });
});

const told = () => page.getByRole('dialog').getByRole('status');

const many = (count: number): Item[] =>
  Array.from({ length: count }, (_, at) => {
    const code = `S-${String(at).padStart(3, '0')}`;
    const more = { length: `${at + 20} mm`, name: `Socket ${at}`, mass: `${at + 1} g`, onHand: at + 1 };
    return socket(code, { ...more, keptAt: `tray "${at % 7}"`, outsideDiameter: `${at / 100 + 0.8} in` });
  });

describe('the width of a column', () => {
  it('follows the dragged edge of its heading and Shift with the arrows, fits the widest text, and is remembered', async () => {
    const long = 'Socket with a name that asks for more room than a column has by itself';
    const items = Array.from({ length: 300 }, (_, at) =>
      socket(`S-${at}`, { name: at === 290 ? long : `Short ${at}` }),
    );
    await openCatalog({ items });
    await userEvent.click(page.getByText('Sockets and bits', { exact: true }));
    const head = (): HTMLElement => {
      const found = document.querySelector<HTMLElement>('.bw-catalog-table [role=columnheader][data-column=name]');
      if (found === null) throw new Error('no heading');
      return found;
    };
    const widthPx = () => Math.round(head().getBoundingClientRect().width);
    const grip = head().querySelector<HTMLElement>('.bw-grid-grip');
    if (grip === null) throw new Error('no edge');
    const begun = widthPx();
    const { right, top } = grip.getBoundingClientRect();
    const at = (x: number) => ({ clientX: right + x, clientY: top + 4, button: 0, pointerId: 1, bubbles: true });
    // A pointer that no device has cannot be captured; everything else is as the browser sends it.
    grip.setPointerCapture = () => undefined;
    grip.dispatchEvent(new PointerEvent('pointerdown', at(0)));
    grip.dispatchEvent(new PointerEvent('pointermove', at(37)));
    grip.dispatchEvent(new PointerEvent('pointerup', at(37)));
    await expect.poll(widthPx).toBe(begun + 37);
    // Once let go the pointer moves nothing.
    grip.dispatchEvent(new PointerEvent('pointermove', at(200)));
    await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    expect(widthPx()).toBe(begun + 37);

    head().querySelector('button')?.focus();
    await userEvent.keyboard('{Shift>}{ArrowLeft}{/Shift}');
    await expect.poll(widthPx).toBe(begun + 29);
    await userEvent.keyboard('{Shift>}{ArrowRight}{ArrowRight}{/Shift}');
    await expect.poll(widthPx).toBe(begun + 45);

    grip.dispatchEvent(new MouseEvent('dblclick', { bubbles: true }));
    await expect.poll(widthPx).not.toBe(begun + 45);
    const fitted = widthPx();
    await userEvent.fill(search(), 'more room');
    const cell = () => document.querySelector<HTMLElement>('.bw-catalog-table .bw-item-cell');
    await expect.poll(() => cell()?.textContent).toBe(long);
    const room = (cell()?.clientWidth ?? 0) - (cell()?.scrollWidth ?? 0);
    expect(room).toBeGreaterThanOrEqual(0);
    // The text is shown whole, and the column is no wider than it asks.
    const range = document.createRange();
    range.selectNodeContents(cell() ?? document.body);
    expect(fitted - range.getBoundingClientRect().width).toBeLessThan(48);

    forgetCatalogView({ everything: false });
    expect(localStorage.getItem('bagwright-catalog-columns')).toContain(`"widthPx":${fitted}`);
    const found: { columns?: CatalogView['columns'] } = {};
    function Look() {
      found.columns = useCatalogView()[0].columns;
      return null;
    }
    await render(<Look />);
    expect(found.columns?.socket?.find(({ key }) => key === 'name')).toEqual({ key: 'name', widthPx: fitted });
  });

  it('takes no damaged memory of it', async () => {
    for (const damaged of ['no JSON', '7', '{"socket":[{"widthPx":3}]}', '{"none":[{"key":"name"}]}', '{"socket":7}']) {
      localStorage.setItem('bagwright-catalog-columns', damaged);
      forgetCatalogView({ everything: false });
      const found: unknown[] = [];
      function Look() {
        found.push(useCatalogView()[0].columns);
        return null;
      }
      await render(<Look />);
      expect(found.at(-1)).toEqual({});
    }
  });
});

describe('a block of cells', () => {
  it('of 50 by 10 comes back cell by cell as it was; five bad cells are named and nothing is written before it is chosen', async () => {
    const before = many(50);
    const { store, items } = await openCatalog({ items: before });
    await userEvent.click(page.getByText('Sockets and bits', { exact: true }));
    await userEvent.click(button('Columns and filters…'));
    for (const name of ['Kept at', 'Outside diameter', 'Kit'])
      await userEvent.click(page.getByRole('checkbox', { name, exact: true }));
    await userEvent.click(button('Close'));
    await userEvent.click(page.getByText('S-000', { exact: true }));
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    // From the name on: the code is what the rows are told apart by.
    await userEvent.keyboard('{ArrowRight}{ArrowRight}');
    await userEvent.keyboard('{Shift>}{ArrowRight>9/}{End}{/Shift}');
    await expect.element(page.getByText('50 rows × 10 columns in hand')).toBeVisible();
    const text = copied();
    const cells = text.split('\n').map((line) => line.split('\t'));
    expect(cells.map((line) => line.length)).toEqual(Array(50).fill(10));
    const kept = await items();
    paste(text);
    await expect.element(told()).toHaveTextContent('0 cells will change, 500 say what is kept already');
    await userEvent.click(button('Leave as it is'));
    // Emptied places and other lengths, then the block pasted over: every cell is as it was.
    const changed = [...kept.values()].map((item) => ({
      ...item,
      length: '9 in',
      onHand: 0,
      name: 'other',
      mass: '5 kg',
    }));
    await store.commit({
      action: 'x',
      title: 'Change all',
      proposals: changed.map((item) => put('items', item as Item)),
    });
    const lengthAt = cells[0]?.indexOf('20 mm') ?? -1;
    expect(lengthAt).toBeGreaterThan(0);
    const bad = cells.map((line, row) => line.map((cell, at) => (at === lengthAt && row < 5 ? '45' : cell)));
    paste(bad.map((line) => line.join('\t')).join('\n'));
    await expect.element(told()).toHaveTextContent(/195 cells will change.*5 cannot be taken/);
    const grid = page.getByRole('grid', { name: 'Cells before and after' });
    await expect.element(grid.getByRole('row', { name: /^S-004 Length 9 in 45 / })).toBeInTheDocument();
    await expect.element(button('Change 195 cells')).not.toBeInTheDocument();
    expect([...(await items()).values()].every(({ name }) => name === 'other')).toBe(true);
    await userEvent.click(button('Leave as it is'));
    paste(text);
    await userEvent.click(button('Change 200 cells'));
    await expect.poll(async () => (await items()).get('S-007')?.name).toBe('Socket 7');
    const after = await items();
    for (const item of before) {
      const { rev: _rev, ...now } = after.get(item.id) ?? item;
      const { rev: _was, ...stood } = item;
      expect(now).toEqual(stood);
    }
  });
});

describe('items as files', () => {
  it('are saved as shown and brought in again: all the same, then one changed and one new, undone in one go', async () => {
    const { store, items, saved } = await openCatalog({ items: [socket('A'), torqueTool('T')] });
    await userEvent.click(button('Save as a file…'));
    await userEvent.click(button('Save the file…'));
    await expect.element(page.getByText('Saved 2 items.')).toBeVisible();
    await userEvent.click(button('Leave'));
    const file = saved[0];
    const grid = openWorkbook(file?.bytes ?? new Uint8Array(), 'items.xlsx').read(0, null);
    expect(grid.records).toHaveLength(2);
    const rows = [grid.names, ...grid.records.map(({ cells }) => cells)];
    const at = (name: string): number => grid.names.indexOf(name);
    const changed = rows.map((cells) => [...cells]);
    (changed[1] ?? [])[at('mass')] = '0.2 kg';
    changed.push((changed[1] ?? []).map((cell, place) => (place === at('code') ? 'A-2' : cell)));
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    paste(changed.map((cells) => cells.join('\t')).join('\n'));
    await userEvent.click(button('Try all rows'));
    const counts = page.getByRole('table', { name: 'What the rows would do' });
    await expect.element(counts.getByRole('row', { name: '1 1 1 0' })).toBeVisible();
    const cells = page.getByRole('grid', { name: 'Cells to change' });
    await expect.element(cells.getByRole('row', { name: /A mass 0.152 kg 0.2 kg$/ })).toBeInTheDocument();
    await userEvent.click(button('Add 1 item, change 1'));
    await expect.element(page.getByRole('heading', { name: 'Added 1 item, changed 1' })).toBeVisible();
    expect((await items()).size).toBe(3);
    expect((await items()).get('A')).toMatchObject({ mass: '0.2 kg' });
    await store.undo();
    expect([...(await items()).keys()]).toEqual(['A', 'T']);
    expect((await items()).get('A')).toMatchObject({ mass: '0.152 kg' });
  });
});

describe('lists over the catalog', () => {
  it('show what is kept twice and merge it, with what names it, as one act', async () => {
    const { items, store } = await openCatalog({
      items: [socket('S-10', { onHand: 2 }), socket('Q-7', { onHand: 3 }), socket('S-1O', { length: '9 in' })],
    });
    await userEvent.click(button('Kept twice…'));
    await userEvent.click(page.getByText('Same thing (1)'));
    await userEvent.click(page.getByRole('radio', { name: 'S-10 stays' }));
    await userEvent.click(button('Merge Q-7 into S-10'));
    await expect.element(page.getByText('Same thing (0)')).toBeVisible();
    expect((await items()).get('S-10')).toMatchObject({ onHand: 5, retired: false });
    expect((await items()).get('Q-7')).toMatchObject({ onHand: 0, retired: true });
    expect(store.history().undo?.title).toBe('Merge Q-7 into S-10');
    await expect.element(page.getByRole('region', { name: 'S-10 and S-1O' })).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    // Left with its reason, it is not listed again, and is said why and when; compared again when wanted.
    await userEvent.click(button('Leave them apart…'));
    await userEvent.click(button('Leave as they are'));
    await expect.element(page.getByText('Why is missing.')).toBeVisible();
    await userEvent.fill(page.getByLabelText('Why S-10 and S-1O stay as they are'), 'two makes');
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByText('Codes look alike (0)')).toBeVisible();
    expect(store.history().undo?.title).toBe('Leave S-10 and S-1O apart');
    await userEvent.click(page.getByText('1 group left as they are'));
    await expect.element(page.getByText('two makes')).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(button('Compare S-10 and S-1O again'));
    await expect.element(page.getByText('Codes look alike (1)')).toBeVisible();
    await expect.poll(async () => (await rowsOf(store, 'shelves')).get('crew')).not.toHaveProperty('leftApart');
    await userEvent.click(button('Retire S-1O'));
    await expect.poll(async () => (await items()).get('S-1O')?.retired).toBe(true);
  });

  it('count what lies where, and say which calibrations fall due', async () => {
    await openCatalog({
      items: [
        socket('A', { keptAt: 'tray 2', onHand: 4, mass: '0.1 kg' }),
        socket('B', { keptAt: 'tray 2', onHand: 1, mass: '1 kg' }),
        socket('C', { keptAt: 'tray 10' }),
        torqueTool('T-1', { calibrationDue: '2026-12-01' }),
        torqueTool('T-2', { calibrationDue: '2027-01-01' }),
        torqueTool('T-3', {}),
      ],
    });
    await userEvent.click(button('Stock by place…'));
    const places = page.getByRole('grid', { name: 'Places' });
    await expect.element(places.getByRole('row', { name: 'tray 2 2 5 1.4' })).toBeVisible();
    expect([...document.querySelectorAll('dialog [role=row] bdi')].map((one) => one.textContent)).toEqual([
      'tray 2',
      'tray 10',
      'no place said',
    ]);
    await userEvent.click(button('Close'));
    await userEvent.click(button('Calibrations due…'));
    await userEvent.fill(page.getByLabelText(/^Due on or before/), '2026-12-31');
    await expect
      .element(page.getByText('1 torque tool falls due by 2026-12-31. Of 1 torque tool no day is said.'))
      .toBeVisible();
    await userEvent.fill(page.getByLabelText(/^Due on or before/), '2026-02-30');
    await expect.element(page.getByText(/is no day of the calendar/)).toBeVisible();
  });
});

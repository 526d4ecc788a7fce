import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Item } from '../../shared-types/records/item.ts';
import { calibrationState } from '../../renderer/features/catalog/calibrationState.ts';
import { matches, searchText, wordsOf } from '../../renderer/features/catalog/searchText.ts';
import { hostileTexts } from './hostileTexts.ts';
import { fastener } from './support/keptStore.ts';
import { openCatalog, socket, today, torqueTool } from './support/openCatalog.tsx';

const finds = (item: Item, search: string): boolean => matches(searchText(item), wordsOf(search));
const rowCodes = (): string[] =>
  [...document.querySelectorAll('[role=grid] [role=row]:not(.bw-grid-head)')].map(
    (row) => row.querySelector('.bw-item-code')?.textContent ?? '',
  );
const searchBox = () => page.getByRole('searchbox');

describe('a search', () => {
  const deep = socket('S-18D', {
    name: 'Socket 9/16 in deep, 6-point',
    notes: 'Étau, blue tape',
    keptAt: 'shelf 4, tray C2',
  });
  const bolt: Item = { ...fastener('F-1', 'crew'), thread: 'M10×1.5', notes: '1-1/16 in long' } as Item;

  it.each<[string, Item]>([
    ['s-18d', deep],
    ['S 18 D', deep],
    ['s18d', deep],
    ['9/16', deep],
    ['9 / 16 in', deep],
    ['9⁄16', deep],
    ['9/16"', deep],
    ['6point deep', deep],
    ['6 point', deep],
    ['deep 9/16 c2', deep],
    ['etau', deep],
    ['ÉTAU', deep],
    ['lbf·ft', deep],
    ['lbf-ft', deep],
    ['150 lbf ft', deep],
    ['0.152', deep],
    ['m10x1.5', bolt],
    ['M10 × 1.5', bolt],
    ['1-1/16', bolt],
    ['1 1/16', bolt],
    ['hex head', bolt],
    ['fastener', bolt],
  ])('"%s" finds what is meant', (search, item) => {
    expect(finds(item, search)).toBe(true);
  });

  it.each<[string, Item]>([
    ['s-18t', deep],
    ['9/16 shallow', deep],
    ['11/16', bolt],
    ['6/16', deep],
    ['5 lbf', deep],
    ['0x1.5', bolt],
  ])('"%s" does not find what is not meant', (search, item) => {
    expect(finds(item, search)).toBe(false);
  });
});

describe('a calibration', () => {
  it.each([
    ['2026-11-24', 'overdue'],
    ['2026-11-25', 'due'],
    ['2026-12-25', 'due'],
    ['2026-12-26', 'in-date'],
    ['2028-02-29', 'in-date'],
  ])('due %s is %s on 2026-11-25', (calibrationDue, state) => {
    expect(calibrationState(torqueTool('TT', { calibrationDue }), today)).toBe(state);
  });

  it('is unknown without a day, and nothing for what is no torque tool', () => {
    expect(calibrationState(torqueTool('TT'), today)).toBe('unknown');
    expect(calibrationState(socket('S'), today)).toBe('none');
  });
});

describe('the catalog', () => {
  it('finds while typing, says how many, and clears with one press', async () => {
    await openCatalog({ items: [socket('S-10'), socket('S-18D'), socket('S-9', { retired: true })] });
    await expect.element(page.getByText('2 of 2', { exact: true })).toBeInTheDocument();
    expect(rowCodes()).toEqual(['S-10', 'S-18D']);
    await userEvent.fill(searchBox(), '18d');
    await expect.element(page.getByText('1 of 2', { exact: true })).toBeInTheDocument();
    expect(rowCodes()).toEqual(['S-18D']);
    await userEvent.fill(searchBox(), 'nowhere');
    await expect.element(page.getByText('Nothing is found for', { exact: false })).toBeInTheDocument();
    await userEvent.click(page.getByRole('button', { name: 'Clear the search' }));
    await expect.poll(rowCodes).toEqual(['S-10', 'S-18D']);
  });

  it('shows retired ones when asked, marked by a word and a shape', async () => {
    await openCatalog({ items: [socket('S-10'), socket('S-9', { retired: true })] });
    await userEvent.click(page.getByLabelText('Retired ones too'));
    await expect.poll(rowCodes).toEqual(['S-9', 'S-10']);
    const mark = document.querySelector('[role=grid] [data-state=retired]');
    expect(mark?.textContent).toBe('Retired');
    expect(mark?.querySelector('svg')).not.toBeNull();
    await userEvent.click(page.getByLabelText('Retired ones too'));
    await userEvent.fill(searchBox(), 's-9');
    await userEvent.click(page.getByRole('button', { name: 'Show the retired one' }));
    await expect.poll(rowCodes).toEqual(['S-9']);
  });

  it('sorts by a column and says so, by keys too', async () => {
    await openCatalog({
      items: [
        socket('S-2', { length: '30 mm' }),
        socket('S-10', { length: '1 in' }),
        socket('S-1', { length: '40 mm' }),
      ],
    });
    await expect.poll(rowCodes).toEqual(['S-1', 'S-2', 'S-10']);
    await userEvent.click(page.getByRole('radio', { name: 'Sockets and bits' }));
    await userEvent.click(page.getByText('S-1', { exact: true }));
    await userEvent.keyboard('{ArrowUp}');
    await expect.poll(() => document.activeElement?.textContent).toContain('Item');
    await userEvent.keyboard('{ArrowRight}{ArrowRight}{ArrowRight}{ArrowRight}');
    await expect.poll(() => document.activeElement?.textContent).toBe('Length');
    await userEvent.keyboard('{Enter}');
    await expect.poll(rowCodes).toEqual(['S-10', 'S-2', 'S-1']);
    expect(document.activeElement?.closest('[role=columnheader]')?.getAttribute('aria-sort')).toBe('ascending');
    await userEvent.keyboard('{Enter}');
    await expect.poll(rowCodes).toEqual(['S-1', 'S-2', 'S-10']);
    await userEvent.keyboard('{ArrowDown}');
    await expect.poll(() => document.activeElement?.getAttribute('role')).toBe('row');
  });

  it('has a state for no shelf, an empty shelf and a kind that is not there', async () => {
    const { store } = await openCatalog({ shelves: [] });
    await expect.element(page.getByRole('heading', { name: 'No shelf yet' })).toBeInTheDocument();
    await userEvent.click(page.getByRole('button', { name: 'Add shelf' }));
    await userEvent.fill(page.getByLabelText('Name of the shelf'), 'Depot');
    await userEvent.keyboard('{Control>}{Enter}{/Control}');
    await expect.element(page.getByText('Nothing stands on Depot yet.')).toBeInTheDocument();
    expect(store.history().undo?.title).toBe('Add shelf “Depot”');
    await userEvent.click(page.getByRole('radio', { name: 'Bags' }));
    await userEvent.click(page.getByRole('button', { name: 'Add the first item' }));
    await expect.element(page.getByLabelText('Mass limit, optional (with unit)')).toBeInTheDocument();
  });

  it('names a shelf anew', async () => {
    const { store } = await openCatalog({ items: [socket('S-1')] });
    await userEvent.click(page.getByRole('button', { name: 'Rename shelf' }));
    await userEvent.fill(page.getByLabelText('Name of the shelf'), 'Blue case');
    await userEvent.click(page.getByRole('button', { name: 'Save shelf' }));
    await expect.element(page.getByRole('combobox', { name: 'Shelf' })).toHaveTextContent('Blue case');
    expect(store.history().undo?.title).toBe('Edit shelf “Blue case”');
  });

  it('shows two shelves together, each row with its own', async () => {
    await openCatalog({
      shelves: [
        { id: 'crew', name: 'Crew case' },
        { id: 'depot', name: 'Depot' },
      ],
      items: [socket('S-1'), socket('S-1b', { code: 'S-1', shelf: 'depot' })],
    });
    await expect.poll(rowCodes).toEqual(['S-1', 'S-1']);
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'Shelf' }), 'Depot');
    await expect.poll(rowCodes).toEqual(['S-1']);
    expect(window.location.hash).toBe('#/catalog/depot');
  });

  it('shows long and hostile texts as text', async () => {
    const items = hostileTexts.map((text, index) => socket(`H-${index}`, { name: text, notes: text, keptAt: text }));
    await openCatalog({ items: [...items, socket('L', { name: 'long '.repeat(390), keptAt: 'x'.repeat(1900) })] });
    await userEvent.click(page.getByText('H-1', { exact: true }));
    await expect.element(page.getByRole('heading', { name: 'H-1', exact: true })).toBeInTheDocument();
    expect(document.querySelector('.bw-catalog img, .bw-catalog script, .bw-catalog iframe')).toBeNull();
    await userEvent.fill(searchBox(), 'long');
    await userEvent.click(page.getByText('L', { exact: true }));
    await expect.element(page.getByRole('heading', { name: 'L', exact: true })).toBeInTheDocument();
    const pane = document.querySelector('.bw-pane-detail');
    expect(pane?.scrollWidth).toBeLessThanOrEqual(pane?.clientWidth ?? 0);
  });

  it('copies the rows in hand as a table', async () => {
    await openCatalog({ items: [socket('S-1'), socket('S-2')] });
    await userEvent.click(page.getByText('S-1', { exact: true }));
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    await userEvent.keyboard('{Shift>}{ArrowDown}{/Shift}');
    const clipboardData = new DataTransfer();
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('copy', { bubbles: true, cancelable: true, clipboardData }),
    );
    const lines = clipboardData.getData('text/plain').split('\n');
    expect(lines).toHaveLength(3);
    expect(lines[1]?.split('\t').slice(0, 2)).toEqual(['S-1', '9/16 in 6-point, 3/8 in square']);
  });
});

describe('an item in hand', () => {
  it('says what is known of it in the units asked for, with its drawing', async () => {
    await openCatalog({ items: [socket('S-18D'), fastener('F', 'crew')], units: 'both' });
    await userEvent.click(page.getByText('S-18D', { exact: true }));
    await expect.element(page.getByText('150 lbf·ft (203 N·m)')).toBeInTheDocument();
    await expect.element(page.getByRole('img', { name: 'S-18D, to scale' })).toBeInTheDocument();
  });

  it('draws a socket to scale: length to diameter as typed', async () => {
    await openCatalog({ items: [socket('S', { length: '60 mm', outsideDiameter: '20 mm' })] });
    await userEvent.click(page.getByText('S', { exact: true }));
    await expect.element(page.getByRole('img', { name: 'S, to scale' })).toBeInTheDocument();
    const bore = document.querySelector<SVGPathElement>('[data-of="S bore"]')?.getBBox();
    expect((bore?.width ?? 0) / (bore?.height ?? 1)).toBeCloseTo(3, 1);
  });

  it('warns of an overdue calibration in words and shape', async () => {
    await openCatalog({ items: [torqueTool('TT-1', { calibrationDue: '2026-11-01' })] });
    await userEvent.click(page.getByText('TT-1', { exact: true }));
    await expect.element(page.getByText('Calibration overdue.', { exact: false })).toBeInTheDocument();
    expect(document.querySelector('.bw-item-head [data-state=calibration-overdue]')?.textContent).toBe(
      'Overdue by 24 d',
    );
  });

  it('says what it goes on and what drives it', async () => {
    await openCatalog({
      items: [
        socket('S-14', { opening: { form: 'hex6', size: '10 mm' } }),
        fastener('F-M6', 'crew'),
        torqueTool('TT-38'),
        torqueTool('TT-12', { drive: '1/2 in' }),
      ],
    });
    await userEvent.click(page.getByText('S-14', { exact: true }));
    await expect.element(page.getByRole('region', { name: 'Goes on' })).toHaveTextContent('F-M6');
    await expect.element(page.getByRole('region', { name: 'Driven by' })).toHaveTextContent('TT-38');
    await expect.element(page.getByRole('region', { name: 'Driven by' })).not.toHaveTextContent('TT-12');
  });
});

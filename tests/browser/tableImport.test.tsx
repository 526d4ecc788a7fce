import '../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { FileToSave, Host } from '../../shared-types/host.ts';
import { workbookBytes } from '../../renderer/engine/sheet/xlsx/index.ts';
import { TableImport, type ImportedRows } from '../../renderer/features/tableImport/TableImport.tsx';
import { axeFaults } from './support/axe.ts';
import { shown } from './shown.tsx';

const columns = ['id', 'thread', 'torqueMin', 'torqueMax', 'Colour'];

function callouts(count: number): string[][] {
  return Array.from({ length: count }, (_, at) => [`C-${at + 1}`, 'M10x1.5', `${40 + (at % 9)} N·m`, '50 N·m', 'red']);
}

const csv = (rows: string[][]): Uint8Array =>
  new TextEncoder().encode([columns, ...rows].map((cells) => cells.join(',')).join('\r\n'));

interface Opened {
  written: ImportedRows[];
  saved: FileToSave[];
  faults: { refuse: string | null };
}

/** The page with a file in hand; hosts are asked for nothing but to save. */
async function openImport(
  file: { name: string; bytes: Uint8Array } | null,
  x: { scheme?: 'light' | 'dark'; kept?: Record<string, string>[]; widthPx?: number } = {},
): Promise<Opened> {
  const opened: Opened = { written: [], saved: [], faults: { refuse: null } };
  const host = {
    saveFile: (saved: FileToSave) => Promise.resolve(opened.saved.push(saved) > 0),
  } as Partial<Host> as Host;
  await shown(
    <main style={{ background: 'var(--bw-sheet)', padding: '16px' }}>
      <h1>Bring in callouts</h1>
      <h2>A table</h2>
      <TableImport
        target="callouts"
        kept={(x.kept ?? []).map((cells) => ({ cells }))}
        host={host}
        first={file === null ? undefined : { kind: 'file', ...file }}
        onWrite={(rows) => {
          if (opened.faults.refuse !== null) return Promise.reject(new Error(opened.faults.refuse));
          opened.written.push(rows);
          return Promise.resolve();
        }}
        onClose={() => undefined}
      />
    </main>,
    { widthPx: x.widthPx ?? 1000, ...(x.scheme === undefined ? {} : { scheme: x.scheme }) },
  );
  return opened;
}

const tryAll = () => page.getByRole('button', { name: 'Try all rows' });
const feeds = (name: string) => page.getByRole('combobox', { name: `Column of the file for ${name}` });

beforeEach(() => localStorage.clear());
afterEach(() => localStorage.clear());

describe('a table brought in', () => {
  it('is mapped by its names, tried whole, and written by the button that says so', async () => {
    const kept = [
      { id: 'C-1', thread: 'M10x1.5', torqueMin: '40 N·m', torqueMax: '50 N·m', Colour: 'red' },
      { id: 'C-2', thread: 'M8' },
    ];
    const { written } = await openImport({ name: 'list.csv', bytes: csv(callouts(5)) }, { kept });
    await expect.element(page.getByText('5 rows, UTF-8, parted by comma')).toBeVisible();
    await expect.element(feeds('torqueMin')).toHaveValue('2');
    await expect.element(page.getByText('kept with each row:')).toBeVisible();
    await userEvent.click(tryAll());
    const counts = page.getByRole('table', { name: 'What the rows would do' });
    await expect.element(counts.getByRole('row', { name: '3 1 1 0' })).toBeVisible();
    expect(written).toEqual([]);
    await userEvent.click(page.getByRole('button', { name: 'Add 3 callouts, change 1' }));
    await expect.element(page.getByRole('heading', { name: 'Added 3 callouts, changed 1' })).toHaveFocus();
    expect(written).toHaveLength(1);
    expect(written[0]).toMatchObject({ columns, from: { file: 'list.csv' }, leftOut: 0 });
    expect(written[0]?.rows.map(({ key, outcome }) => [key, outcome])).toEqual([
      ['C-2', 'change'],
      ['C-3', 'add'],
      ['C-4', 'add'],
      ['C-5', 'add'],
    ]);
    expect(written[0]?.rows[1]?.cells).toEqual({
      ...{ id: 'C-3', thread: 'M10x1.5', torqueMin: '42 N·m', torqueMax: '50 N·m', Colour: 'red' },
    });
  });

  it('names every bad cell, writes nothing, and leaves rows out only when told', async () => {
    const rows = callouts(40);
    for (const [row, column, cell] of [
      [3, 2, '45'],
      [9, 1, 'M10x'],
      [9, 3, '8-Mar'],
      [20, 0, ''],
      [33, 3, '"1,250 lbf·in"'],
    ] as const)
      (rows[row] ?? [])[column] = cell;
    const { written, saved } = await openImport({ name: 'list.csv', bytes: csv(rows) });
    await userEvent.click(tryAll());
    await expect.element(page.getByRole('heading', { name: '5 cells to mend, in 4 rows' })).toBeVisible();
    const grid = page.getByRole('grid', { name: 'Cells to mend' });
    for (const name of [
      /^5 torqueMin 45 /,
      /^11 thread M10x /,
      /^11 torqueMax 8-Mar is a date/,
      /^22 id\s+is empty/,
      /^35 torqueMax 1,250/,
    ])
      await expect.element(grid.getByRole('row', { name })).toBeInTheDocument();
    const write = page.getByRole('button', { name: 'Add 36 callouts' });
    await expect.element(write).toBeDisabled();
    await userEvent.click(page.getByRole('button', { name: 'Save this list…' }));
    await expect.element(page.getByText('Saved.')).toBeVisible();
    expect(saved[0]?.name).toBe('list_to_mend.csv');
    expect(new TextDecoder().decode(saved[0]?.bytes).split('\r\n')).toHaveLength(7);
    expect(written).toEqual([]);
    await userEvent.click(page.getByLabelText('Leave out the 4 rows that cannot be read'));
    await userEvent.click(write);
    await expect.element(page.getByRole('heading', { name: 'Added 36 callouts' })).toHaveFocus();
    expect(written[0]).toMatchObject({ leftOut: 4 });
  });

  it('stays unwritten where it is refused, says so, and can be tried again', async () => {
    const { written, faults } = await openImport({ name: 'list.csv', bytes: csv(callouts(2)) });
    faults.refuse = 'The disk is full.';
    await userEvent.click(tryAll());
    await userEvent.click(page.getByRole('button', { name: 'Add 2 callouts' }));
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent(/The disk is full. Nothing of the table was written/);
    expect(written).toEqual([]);
    faults.refuse = null;
    await userEvent.click(page.getByRole('button', { name: 'Add 2 callouts' }));
    await expect.element(page.getByRole('heading', { name: 'Added 2 callouts' })).toBeVisible();
  });

  it('remembers how a set of headers was mapped', async () => {
    const other = new TextEncoder().encode('Nr;Gewinde;von;bis\r\nC-1;M10;40 N·m;50 N·m\r\n');
    await openImport({ name: 'andere.csv', bytes: other });
    await expect.element(page.getByText(/^id, thread, torqueMin, torqueMax are fed by no column/)).toBeVisible();
    await expect.element(tryAll()).toBeDisabled();
    for (const [name, at] of [
      ['id', '0'],
      ['thread', '1'],
      ['torqueMin', '2'],
      ['torqueMax', '3'],
    ] as const)
      await userEvent.selectOptions(feeds(name), at);
    await userEvent.click(tryAll());
    await expect.element(page.getByRole('button', { name: 'Add 1 callout', exact: true })).toBeEnabled();
    await userEvent.click(page.getByRole('button', { name: 'Another table…' }));
    await userEvent.fill(page.getByLabelText(/^Or rows copied/), 'von\tbis\tNr\tGewinde\n40 N·m\t50 N·m\tC-9\tM8\n');
    await userEvent.click(page.getByRole('button', { name: 'Take the pasted rows' }));
    await expect.element(page.getByText('As the last time for these headers.')).toBeVisible();
    await expect.element(feeds('id')).toHaveValue('2');
    await userEvent.click(page.getByRole('button', { name: 'Guess by the names' }));
    await expect.element(feeds('id')).toHaveValue('');
  });

  it('says of units that are mixed or missing, and takes a person’s word for numbers without one', async () => {
    const rows = [
      ['C-1', 'M10', '40', '50 N·m', ''],
      ['C-2', 'M10', '41', '36 lbf·ft', ''],
    ];
    const { written } = await openImport({ name: 'list.csv', bytes: csv(rows) });
    await expect.element(page.getByText('2 without a unit')).toBeVisible();
    await expect.element(page.getByText('mixed: 1 in N·m, 1 in lbf·ft')).toBeVisible();
    await userEvent.click(tryAll());
    await expect.element(page.getByRole('heading', { name: '2 cells to mend, in 2 rows' })).toBeVisible();
    await userEvent.selectOptions(
      page.getByRole('combobox', { name: 'Unit of numbers without one in torqueMin' }),
      'N·m',
    );
    await userEvent.click(tryAll());
    await userEvent.click(page.getByRole('button', { name: 'Add 2 callouts' }));
    await expect.poll(() => written[0]?.rows.map(({ cells }) => cells['torqueMin'])).toEqual(['40 N·m', '41 N·m']);
  });

  it('from a workbook is refused as a whole with the reason, and read where it is sound', async () => {
    await openImport({ name: 'list.xlsx', bytes: workbookBytes(columns, callouts(3), 'Callouts').slice(0, 900) });
    await expect.element(page.getByRole('alert')).toHaveTextContent(/not read.*broken off/);
    await userEvent.click(page.getByRole('button', { name: 'Another table…' }));
    const sound = new File([Uint8Array.from(workbookBytes(columns, callouts(3), 'Callouts'))], 'good.xlsx');
    await userEvent.upload(page.getByLabelText(/^A file/), sound);
    await expect.element(page.getByText('3 rows, sheet “Callouts”')).toBeVisible();
    await expect.element(page.getByRole('combobox', { name: 'Sheet' })).toHaveValue('0');
    await userEvent.click(tryAll());
    await expect.element(page.getByRole('button', { name: 'Add 3 callouts' })).toBeEnabled();
  });
});

describe('many rows', () => {
  it('can be stopped at once, and are tried again from the beginning', async () => {
    await openImport({ name: 'many.csv', bytes: csv(callouts(30_000)) });
    await expect.element(tryAll()).toBeEnabled();
    await userEvent.click(tryAll());
    await expect.element(page.getByText(/^[1-9]\d* of 30000 rows tried$/)).toBeVisible();
    const began = performance.now();
    document.querySelector<HTMLButtonElement>('.bw-table-progress button')?.click();
    await expect.element(page.getByText('Stopped. Nothing was written.')).toBeVisible();
    const stoppedMs = performance.now() - began;
    const again = performance.now();
    await userEvent.click(tryAll());
    await expect.element(page.getByRole('button', { name: 'Add 30000 callouts' }), { timeout: 80_000 }).toBeEnabled();
    // Half a second, or a share of what trying all of them takes here and now.
    expect(stoppedMs).toBeLessThan(Math.max(500, (performance.now() - again) / 3));
  });
});

describe.each(['light', 'dark'] as const)('the page, %s', (scheme) => {
  it('has no fault that axe knows: choosing, mapping, bad cells', async () => {
    await openImport(null, { scheme });
    expect(await axeFaults()).toEqual([]);
    const rows = callouts(20).map((cells, at) => (at % 2 === 0 ? cells : ['', '', '45', '8-Mar', '']));
    const file = new File([Uint8Array.from(csv(rows))], 'list.csv');
    await userEvent.upload(page.getByLabelText(/^A file/), file);
    await userEvent.click(page.getByText(/^The first 12 of 20/));
    await userEvent.click(tryAll());
    await expect.element(page.getByRole('heading', { name: '40 cells to mend, in 10 rows' })).toBeVisible();
    expect(await axeFaults()).toEqual([]);
  });
});

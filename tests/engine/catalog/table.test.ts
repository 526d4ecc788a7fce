import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import { itemKinds } from '../../../shared-types/records/item.ts';
import { cellsOfItem, itemColumns, itemOfCells } from '../../../renderer/engine/catalog/index.ts';
import { csvGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import { exactCsvText } from '../../../renderer/engine/sheet/csvText.ts';
import { workbookBytes, openWorkbook } from '../../../renderer/engine/sheet/xlsx/index.ts';
import type { Grid } from '../../../renderer/engine/sheet/grid.ts';
import { DryRun, guessMapping, importTargets } from '../../../renderer/engine/tableImport/index.ts';
import { fieldsOf } from '../../../renderer/features/catalog/itemFields.ts';

const head = { id: 'i', rev: 0, shelf: 's' } as const;
const common = { ...head, retired: false, parts: 1, kit: 'field' } as const;

const bolt: Item = {
  ...common,
  ...{ kind: 'fastener', code: 'F-1', thread: '3/8-24 UNF-3A', head: { form: 'hex', acrossFlats: '9/16 in' } },
  ...{ strength: { proofMPa: 600, yieldMPa: 640 }, acrossFlatsLimits: { min: '0.55 in', max: '0.5625 in' } },
  ...{ captive: true, onHand: 12, keptAt: 'tray 4', notes: 'line one, "quoted"' },
};
const wrench: Item = {
  ...common,
  ...{ kind: 'torque-tool', code: 'TT-1', drive: '3/8 in', min: '15 lbf·ft', max: '75 lbf·ft', mass: '0.9 kg' },
  ...{ settings: ['20 lbf·ft', '40 lbf·ft'], accuracyOfReading: 0.04, serial: '007', calibrationDue: '2027-03-31' },
  ...{ onHand: 1, loosens: false, kit: 'both', retired: true },
};
const socket: Item = {
  ...common,
  ...{ kind: 'socket', code: 'S-18D', drive: '3/8 in', opening: { form: 'hex6', size: '9/16 in' }, length: '2.50 in' },
  ...{ outsideDiameter: '0.80 in', ratedTorque: '150 lbf·ft', mass: '0.152 kg', onHand: 3 },
};

describe('items as a table', () => {
  it('has a column for every field that the form has, and for none that it has not', () => {
    for (const kind of itemKinds) {
      const typed = fieldsOf(kind).map(({ path }) => path);
      const columns = itemColumns.filter(({ kinds }) => kinds.includes(kind)).map(({ path }) => path);
      expect(columns.filter((path) => path !== 'kind' && path !== 'retired').toSorted()).toEqual(typed.toSorted());
    }
  });

  it.each([bolt, wrench, socket])('gives back the same item out of its own cells: $code', (item) => {
    expect(itemOfCells(cellsOfItem(item), head)).toEqual({ item, faults: [] });
  });

  it('names every cell that keeps a row from being an item', () => {
    const cells = { ...cellsOfItem(socket), length: '63.5', mass: '2 lbf', onHand: '2.5', thread: 'M8', kit: 'some' };
    const { item, faults } = itemOfCells(cells, head);
    expect(item).toBeNull();
    expect(faults.map(({ column }) => column).toSorted()).toEqual(['kit', 'length', 'mass', 'onHand', 'thread']);
  });

  it('does not take a row for sound because one like it was', () => {
    expect(itemOfCells(cellsOfItem(socket), head).item).not.toBeNull();
    expect(itemOfCells({ ...cellsOfItem(socket), code: ' S' }, head).item?.code).toBe('S');
    expect(itemOfCells({ ...cellsOfItem(socket), code: 'x'.repeat(201) }, head).item).toBeNull();
    expect(itemOfCells({ ...cellsOfItem(socket), onHand: '' }, head).faults.map(({ column }) => column)).toEqual([
      'onHand',
    ]);
  });
});

const context = { callouts: [], shelf: { id: 's', name: 'Crew case' }, shelves: ['Crew case', 'Depot'] };

function tried(grid: Grid, kept: readonly Item[]) {
  const target = importTargets.items;
  const { mapping } = guessMapping(grid.names, target);
  const rows = kept.map((item) => ({ cells: { shelf: 'Crew case', ...cellsOfItem(item) } }));
  const run = new DryRun({ grid, mapping, target, context, kept: rows });
  const { ready, refusals } = run.next(1000);
  return { ready, refusals, counts: run.progress.counts };
}

const csv = (columns: string[], rows: string[][]): Grid =>
  csvGrid({
    content: exactCsvText(columns, rows),
    file: 'items.csv',
    known: importTargets.items.columns.map(({ name }) => name),
  });

describe('items brought in', () => {
  it('are found by their code within the shelf, and counted as added, changed, the same and bad', () => {
    const { counts, ready, refusals } = tried(
      csv(
        ['Item', 'Type', 'Mass', 'Qty', 'Place'],
        [
          ['S-18D', 'Socket', '0.152 kg', '3', ''],
          ['TT-1', '', '1 kg', '1', 'wall'],
          ['G-1', 'carry gear', '20 g', '4', 'bin 2'],
          ['G-2', 'carry gear', '20', '4', ''],
          ['G-3', '', '20 g', '4', ''],
        ],
      ),
      [socket, wrench],
    );
    // The gear's use is no column of this file: it is not guessed.
    expect(counts).toEqual({ rows: 5, add: 0, change: 1, same: 1, bad: 3, badCells: 4 });
    expect(refusals.map(({ row, field }) => [row, field])).toEqual([
      [4, 'use'],
      [5, 'use'],
      [5, 'mass'],
      [6, 'kind'],
    ]);
    expect(ready.find(({ outcome }) => outcome === 'change')?.cells).toEqual({
      ...{ shelf: 'Crew case', ...cellsOfItem(wrench) },
      ...{ mass: '1 kg', keptAt: 'wall' },
    });
  });

  it('empty a field where the file has its column and leave it where it has not', () => {
    const { ready } = tried(csv(['code', 'notes'], [['F-1', '']]), [bolt]);
    const { notes: _gone, ...rest } = cellsOfItem(bolt);
    expect(ready.map(({ outcome, cells }) => [outcome, cells])).toEqual([['change', { shelf: 'Crew case', ...rest }]]);
  });

  it('are the same on another shelf only where the file says so', () => {
    const columns = ['shelf', 'code', 'notes'];
    const { counts, refusals } = tried(
      csv(columns, [
        ['Depot', 'F-1', 'x'],
        ['Attic', 'F-1', 'x'],
        ['', 'F-1', bolt.notes ?? ''],
      ]),
      [bolt],
    );
    expect(counts).toMatchObject({ add: 0, same: 1, bad: 2 });
    expect(refusals.map(({ field, row }) => `${row} ${field}`).toSorted()).toEqual(['2 kind', '3 kind', '3 shelf']);
  });

  it('come back unchanged out of a workbook of their own', () => {
    const names = itemColumns.map(({ name }) => name);
    const rows = [bolt, wrench, socket].map((item) => names.map((name) => cellsOfItem(item)[name] ?? ''));
    const grid = openWorkbook(workbookBytes(names, rows, 'Items'), 'items.xlsx').read(0, null);
    expect(tried(grid, [bolt, wrench, socket]).counts).toMatchObject({ rows: 3, same: 3 });
  });

  it('refuse a size that a spreadsheet has made a day of', () => {
    const { refusals } = tried(csv(['code', 'openingSize'], [['S-18D', '8-Mar']]), [socket]);
    expect(refusals.map(({ field, message }) => [field, /date/.test(message)])).toEqual([['openingSize', true]]);
  });
});

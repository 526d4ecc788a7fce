import { describe, expect, it } from 'vitest';
import { allTables, tableByKey } from '../../../renderer/engine/handbook/index.ts';
import { readCallouts } from '../../../renderer/engine/callout/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { benchSheet } from '../../../renderer/features/bench/sheets/index.ts';
import { outcomeOf } from '../../../renderer/features/bench/outcome.ts';
import { benchUsesOf, calloutCsv, calloutsOf } from '../../../renderer/features/handbook/rowUses.ts';
import { rowNameOfThread } from '../../../renderer/features/handbook/rowThread.ts';
import { searchHandbook } from '../../../renderer/features/handbook/search.ts';
import {
  cellText,
  columnsOf,
  headingOf,
  rowIndex,
  rowName,
  rowsOf,
} from '../../../renderer/features/handbook/tableColumns.ts';
import { threadFacts } from '../../../renderer/features/handbook/threadFacts.ts';
import { twinsOf } from '../../../renderer/features/handbook/twins.ts';
import { topics } from '../../../renderer/features/handbook/topics.ts';

const keysFound = (query: string): string[] => searchHandbook(query).map(({ table }) => table.key);

describe('the search of the handbook', () => {
  it('shows every table while nothing is typed', () => {
    expect(searchHandbook('')).toHaveLength(allTables.length);
  });

  it('finds a thread however its table prints it', () => {
    const found = searchHandbook('1/4-28');
    const row = (key: string): unknown => {
      const one = found.find(({ table }) => table.key === key);
      return one?.rows.map((at) => Object.values(rowsOf(one.table)[at] ?? {})[0]);
    };
    expect(row('prevailing-mil-dtl-45916-fine')).toEqual(['0.250-28']);
    expect(row('torque-faa-ac-43.13-fine')).toEqual(['1/4-28']);
    expect(keysFound('1/4-28')).not.toContain('prevailing-mil-dtl-45916-coarse');
  });

  it('finds a document by its other name, words of a table with a value of its row, and nothing that is not held', () => {
    expect(keysFound('NASM25027')).toContain('prevailing-mil-dtl-45916-coarse');
    const cadmium = searchHandbook('nut factor cadmium').find(({ table }) => table.key === 'nut-factors');
    expect(cadmium?.rows).toEqual([3]);
    expect(searchHandbook('zirconium 4711')).toEqual([]);
  });

  it('has a subject for every table', () => {
    expect(allTables.filter(({ topic }) => !topics.includes(topic))).toEqual([]);
  });
});

describe('a table as printed', () => {
  it.each(allTables.map((table) => [table.key, table] as const))(
    '%s: every cell is said, every row has a name of its own',
    (_key, table) => {
      const columns = columnsOf(table);
      const names = rowsOf(table).map((_, index) => rowName(table, index));
      expect(new Set(names).size).toBe(names.length);
      names.forEach((name, index) => expect(rowIndex(table, name)).toBe(index));
      for (const units of ['as-written', 'si', 'inch-pound', 'both'] as const)
        for (const column of columns) {
          expect(headingOf(column, units)).not.toMatch(/undefined|_/);
          for (const row of rowsOf(table))
            expect(cellText(column, row[column.key], units)).not.toMatch(/undefined|NaN|\[object/);
        }
    },
  );

  it('keeps the printed number first, and turns limits to their safe side', () => {
    const columns = columnsOf(tableByKey('prevailing-mil-dtl-45916-coarse'));
    const column = (key: string) => {
      const found = columns.find((one) => one.key === key);
      if (found === undefined) throw new Error(key);
      return found;
    };
    const most = column('max_locking_torque_lbf_in');
    const least = column('min_breakaway_torque_lbf_in');
    // 30 lbf·in = 3.38954 N·m; 4.5 lbf·in = 0.50843 N·m.
    expect(cellText(most, 30, 'both')).toBe('30 (3.389)');
    expect(cellText(least, 4.5, 'both')).toBe('4.5 (0.5085)');
    expect(cellText(most, 30, 'si')).toBe('3.389');
    expect(cellText(most, 30, 'as-written')).toBe('30');
    expect(cellText(least, null, 'both')).toBe('none printed');
    expect(headingOf(most, 'both')).toBe('max locking torque / lbf·in (N·m)');
  });
});

describe('a row that is used', () => {
  it('becomes a callout that the reader of callouts takes, for every band printed', () => {
    const all = allTables.flatMap((table) =>
      rowsOf(table).flatMap((row) => calloutsOf(table, row).map((callout) => ({ table, callout }))),
    );
    const bands = all.filter(({ callout }) => callout.ends !== null);
    expect(bands.length).toBeGreaterThan(150);
    const stated = bands.filter(({ callout }) => callout.cells.tolerance !== undefined);
    // Seven millimetre sizes in two columns; its inch sizes print no pitch and are no thread.
    expect(stated).toHaveLength(14);
    expect(stated.every(({ table }) => table.tolerancePercent === 10)).toBe(true);
    expect(stated[0]?.callout).toMatchObject({
      cells: { thread: 'M6x1', torque: '10 lbf·ft', tolerance: '10 %' },
      ends: { min: '9 lbf·ft', max: '11 lbf·ft' },
    });
    for (const { callout } of bands) {
      const { callouts } = readCallouts({ content: calloutCsv(callout) });
      expect(callouts).toHaveLength(1);
      expect(callouts[0]?.id).toBe('1');
    }
  });

  it('can be put into every computation it is offered for', () => {
    const offered = allTables.flatMap((table) => rowsOf(table).flatMap((row) => benchUsesOf(table, row)));
    expect(new Set(offered.map(({ sheet }) => sheet))).toEqual(new Set(['preload', 'limits', 'thread', 'socket']));
    const refused = offered
      .map(({ sheet, typed }) => ({ sheet, typed, outcome: outcomeOf(benchSheet(sheet), typed, 'both') }))
      .filter(({ outcome }) => outcome.is === 'refused');
    expect(refused).toEqual([]);
  });
});

describe('the row of a thread', () => {
  it.each([
    ['unified-series-asme-b1.1', '1/4-20', '1/4'],
    ['unified-series-asme-b1.1', '1/4-28', '1/4~2'],
    ['unified-series-asme-b1.1', '#10-32', '10~2'],
    ['hex-head-iso-4014', 'M10x1.25', 'M10'],
    ['hex-cap-screw-asme-b18.2.1', '7/16-20', '7/16'],
    ['reuse-generator-set-army', '7/16-20', '7/16'],
    ['prevailing-mil-dtl-45916-fine', '1/4-28', '0.250-28'],
    ['prevailing-iso-2320-class-04', 'M8', 'M8'],
  ])('of %s for %s is %s', (key: string, thread, name) => {
    expect(rowNameOfThread(tableByKey(key), readThread(thread))).toBe(name);
  });

  it('is none where the table has not the size', () => {
    expect(rowNameOfThread(tableByKey('hex-head-iso-4014'), readThread('1/4-20'))).toBeUndefined();
  });
});

describe('a class in several documents', () => {
  it('has what the others print of it beside it', () => {
    const table = tableByKey('classes-iso-898-1');
    const index = rowsOf(table).findIndex((row) => row['property_class'] === '8.8');
    const twins = twinsOf(table, index);
    expect([...new Set(twins.map((twin) => twin.table.key))].toSorted()).toEqual([
      'classes-metric-textbook',
      'proof-stress-iso-898-1',
    ]);
    for (const twin of twins) expect(rowsOf(twin.table)[twin.index]?.['property_class']).toBe('8.8');
  });

  it('does not call rows of other subjects, or other classes, the same', () => {
    const table = tableByKey('nut-factors');
    expect(twinsOf(table, 0)).toEqual([]);
  });
});

describe('one thread in every document', () => {
  it('says where documents differ, with the numbers of each', () => {
    const { disagreements, bands, limits } = threadFacts(readThread('7/16-20'));
    expect(new Set(bands.map(({ source }) => source.number)).size).toBe(4);
    expect(limits).toHaveLength(5);
    const reuse = disagreements.find(({ about }) => about === 'least torque of a nut used again');
    expect(reuse?.words).toBe(
      'FAA AC 43.13-1B: 8 lbf·in; TM 9-6115-604-34, all-metal: 15 lbf·in; TM 9-6115-604-34, nylon: 12 lbf·in',
    );
  });

  it('calls no difference where two documents print the same', () => {
    const { disagreements } = threadFacts(readThread('1/4-28'));
    expect(disagreements.map(({ about }) => about)).toEqual(['torque bands']);
  });

  it('shows widths on which standards differ: M10 is 16 and 17 mm across flats', () => {
    const { disagreements } = threadFacts(readThread('M10'));
    const hex = disagreements.find(({ about }) => about === 'width across flats, hex');
    expect(hex?.words).toContain('16 mm');
    expect(hex?.words).toContain('17 mm');
  });
});

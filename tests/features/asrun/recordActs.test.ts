/** What is done to records as one act: rows of a table come in, a tool is found out and taken back. */
import { describe, expect, it } from 'vitest';
import type { AsRunList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import {
  bringRecordsIn,
  listsOfTool,
  markFoundOut,
  withdrawFoundOut,
} from '../../../renderer/features/asrun/recordActs.ts';

const list: AsRunList = {
  ...{
    id: 'l',
    rev: 1,
    task: 't',
    name: 'Work',
    columns: ['callout', 'position', 'cycle', 'final', 'serial'],
    person: '',
  },
};
const kept: KeptAsRun = {
  ...{ id: 'r', rev: 3, list: 'l', position: 4 },
  cells: { callout: 'A', position: '1', cycle: '1', final: '5 N·m', serial: 'T-1' },
};

it('brings rows in: changed ones in their place with what the table does not feed, new ones behind', async () => {
  const { proposals } = await bringRecordsIn({
    ...{ list, isNewList: false, kept: [kept], newId: () => 'new' },
    brought: [
      { callout: 'A', position: '1', cycle: '1', final: '6 N·m' },
      { callout: 'A', position: '2', cycle: '1', final: '6 N·m', angle: '30 deg' },
    ],
    ...{
      fed: ['callout', 'position', 'cycle', 'final', 'angle'],
      keyColumns: ['callout', 'position', 'cycle', 'pass'],
    },
  });
  expect(proposals).toEqual([
    { table: 'asRunLists', put: { ...list, columns: [...list.columns, 'angle'] } },
    { table: 'asRuns', put: { ...kept, cells: { ...kept.cells, final: '6 N·m' } } },
    {
      table: 'asRuns',
      put: {
        ...{ id: 'new', rev: 0, list: 'l', position: 5 },
        cells: { callout: 'A', position: '2', cycle: '1', final: '6 N·m', angle: '30 deg' },
      },
    },
  ]);
});

describe('a tool found out', () => {
  const found = { serial: 'T-1', foundOut: '2026-05-01', person: 'S. Quill', at: '2026-05-01T10:00:00Z' };
  const other = { ...list, id: 'm', foundOut: [{ ...found, serial: 'T-2' }] };

  it('is kept with every list that has a value of it, and with no other', () => {
    expect(listsOfTool('T-1', [list, other], [kept]).map(({ id }) => id)).toEqual(['l']);
    expect(listsOfTool('T-9', [list, other], [kept])).toEqual([]);
    expect(markFoundOut(found, [list]).proposals).toEqual([
      { table: 'asRunLists', put: { ...list, foundOut: [found] } },
    ]);
  });

  it('is taken back where it was said, and leaves what is said of other tools', () => {
    const both = { ...other, foundOut: [...other.foundOut, found] };
    expect(withdrawFoundOut('T-1', [list, both]).proposals).toEqual([{ table: 'asRunLists', put: other }]);
    expect(withdrawFoundOut('T-1', [{ ...list, foundOut: [found] }]).proposals).toEqual([
      { table: 'asRunLists', put: list },
    ]);
  });
});

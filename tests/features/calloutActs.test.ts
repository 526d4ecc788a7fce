/** What a person does to a list of callouts, as the one act it is kept as. */
import { describe, expect, it } from 'vitest';
import type { CalloutList, KeptCallout } from '../../shared-types/records/judgedLists.ts';
import { rowsMost } from '../../shared-types/records/judgedLists.ts';
import {
  acceptFinding,
  addCallout,
  bringCalloutsIn,
  withdrawAcceptance,
} from '../../renderer/features/callouts/calloutActs.ts';

const list: CalloutList = {
  ...{ id: 'list', rev: 1, task: 'job', name: 'Flange', columns: ['ID', 'thread', 'torqueMin'], person: 'Q.' },
};
const accepted = { rule: 'empty-band', message: 'Empty.', reason: 'Note 7', person: 'Q.', at: '2026-11-26T08:00:00Z' };
const kept: KeptCallout = {
  ...{ id: 'a', rev: 3, list: 'list', position: 4, cells: { ID: 'A', thread: 'M6' }, accepted: [accepted] },
};
let made = 0;
const newId = (): string => `new-${(made += 1)}`;
const bring = (brought: Record<string, string>[], rows = [kept]) =>
  bringCalloutsIn({
    ...{ list, isNewList: false, kept: rows, brought, keyColumns: ['id'], newId },
    fed: [...new Set(brought.flatMap((row) => Object.keys(row)))],
  });

describe('rows of a table', () => {
  it('come behind the others, or change the one of their id, which keeps its key and what was accepted of it', async () => {
    const { title, proposals } = await bring([
      { id: 'B', thread: 'M8', torqueMax: '9 N·m' },
      { id: 'A', thread: 'M10' },
    ]);
    expect(title).toBe('Bring 2 callouts into “Flange”');
    expect(proposals).toMatchObject([
      { table: 'calloutLists', put: { id: 'list', rev: 1, columns: ['ID', 'thread', 'torqueMin', 'torqueMax'] } },
      { table: 'callouts', put: { rev: 0, position: 5, cells: { ID: 'B', thread: 'M8', torqueMax: '9 N·m' } } },
      {
        table: 'callouts',
        put: { id: 'a', rev: 3, position: 4, cells: { ID: 'A', thread: 'M10' }, accepted: [accepted] },
      },
    ]);
  });

  it('are refused where the list would hold more than are kept, and taken where it is just full', async () => {
    const rows = Array.from({ length: rowsMost - 1 }, (_, at) => ({ ...kept, id: `k${at}`, cells: { ID: `K-${at}` } }));
    expect((await bring([{ id: 'X' }, { id: 'K-7', thread: 'M6' }], rows)).proposals).toHaveLength(2);
    await expect(bring([{ id: 'X' }, { id: 'Y' }], rows)).rejects.toThrow(/would hold 20001 callouts; at most 20000/);
  });
});

describe('a single callout', () => {
  it('brings the columns it needs, under the names that the list has', () => {
    const cells = { id: 'N', nutFactor: '0.2', torqueMin: '  ' };
    const { proposals } = addCallout(list, { ...kept, id: 'n', rev: 0, cells }, false);
    expect(proposals).toMatchObject([
      { put: { columns: ['ID', 'thread', 'torqueMin', 'nutFactor'] } },
      { put: { cells: { ID: 'N', nutFactor: '0.2' } } },
    ]);
  });

  it('has a finding accepted once, beside those of other words, and loses none but the one withdrawn', () => {
    const other = { ...accepted, message: 'Empty by 2 N·m.' };
    const again = { ...accepted, reason: 'Waiver 12' };
    const both = acceptFinding({ ...kept, accepted: [accepted, other] }, again);
    expect(both.proposals).toMatchObject([{ put: { accepted: [other, again] } }]);
    const left = withdrawAcceptance({ ...kept, accepted: [other, again] }, other);
    expect(left.proposals).toMatchObject([{ put: { accepted: [again] } }]);
    const [none] = withdrawAcceptance({ ...kept, accepted: [again] }, again).proposals;
    expect(none).not.toHaveProperty('put.accepted');
  });
});

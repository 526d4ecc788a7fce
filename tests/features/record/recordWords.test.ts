import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../shared-types/records/revision.ts';
import { chained } from '../../../renderer/engine/record/chain.ts';
import { readRecordFile, recordFileText } from '../../../renderer/engine/record/recordFile.ts';
import { bringingIn, isRecordFile, verifiedFile } from '../../../renderer/features/record/bringIn.ts';
import { closedBy, closingDeed } from '../../../renderer/features/record/closeAct.ts';
import type { How } from '../../../renderer/features/record/closeAct.ts';
import { clockWentBack, deedText } from '../../../renderer/features/record/deedWords.ts';
import { discrepancyTable, eventTable, lineTable } from '../../../renderer/features/record/recordTables.ts';
import { digest } from '../../support/frozenTask.ts';
import { discrepancy, eventsOf, twoContent, twoPlan, twoRevision, wentOut } from '../../support/outAndBack.ts';

const called = { content: twoContent, plan: twoPlan };
const tether = { bag: 'C', item: 'T-07' };

describe('an event in words', () => {
  it.each<[Deed, string]>([
    [
      { kind: 'back', ...tether, pieces: 1, parts: 1, place: 'shop' },
      'Counted in 1 piece with 1 of 2 parts of T-07 Tool tether at the shop',
    ],
    [
      { kind: 'left', ...tether, pieces: 2, parts: 4, place: 'foot' },
      'Left 2 pieces of T-07 Tool tether at Mast foot on purpose',
    ],
    [{ kind: 'used', bag: 'Z', item: 'W-10', pieces: 1, parts: 1 }, 'Used 1 piece of W-10 Wipes'],
    [
      { kind: 'seen', ...tether, place: 'under the boat', words: 'out of reach' },
      'Saw T-07 Tool tether, under the boat: out of reach',
    ],
    [{ kind: 'taken-back', of: 7, reason: 'wrong row' }, 'Took back event 7: wrong row'],
    [
      { kind: 'bag-closed', bag: 'C', reason: 'late', second: { name: 'S', role: 'skipper' } },
      'Closed C Common box: late, with S, skipper',
    ],
    [{ kind: 'return-closed' }, 'Closed the return'],
    [{ kind: 'issued' }, 'The bags left'],
  ])('%o', (deed, words) => expect(deedText(deed, called)).toBe(words));

  it('is flagged where its clock stood earlier than that of the one before', () => {
    const events = eventsOf(wentOut).map((event) =>
      event.no === 3 ? { ...event, at: '2026-11-26T07:59:00+01:00' } : event,
    );
    expect([...clockWentBack(events)]).toEqual([3]);
    // The same moment at another offset is not earlier.
    const moved = eventsOf(wentOut.slice(0, 2)).map((event, at) => ({
      ...event,
      at: at === 0 ? '2026-11-26T09:00:00+01:00' : '2026-11-26T08:00:00+00:00',
    }));
    expect([...clockWentBack(moved)]).toEqual([]);
  });
});

describe('tables of the record', () => {
  it('have a row for each line, event and discrepancy, as wide as their heads', () => {
    const tables = [
      lineTable(twoContent),
      eventTable(eventsOf(wentOut), called),
      discrepancyTable([discrepancy()], { taskOf: () => 'M-2', revisionOf: () => 2 }),
    ];
    expect(tables.map(({ rows }) => rows.length)).toEqual([twoContent.lines.length, wentOut.length, 1]);
    for (const { columns, rows } of tables) for (const row of rows) expect(row).toHaveLength(columns.length);
    expect(tables[1]?.rows[2]).toEqual(expect.arrayContaining([3, 'counted', 'T-07', '100000700128']));
    expect(tables[2]?.rows[0]?.slice(0, 3)).toEqual(['M-2', 'D-1', 2]);
  });
});

describe('closing a discrepancy', () => {
  const deed = (how: How, more: Deed[] = []) =>
    closingDeed(discrepancy(), { how, place: 'boat', revision: twoRevision, events: eventsOf([...wentOut, ...more]) });

  it('counts found pieces in where they are now, and nothing of those given up', () => {
    expect(deed('found')).toEqual({ kind: 'back', ...tether, pieces: 1, parts: 2, place: 'boat' });
    expect(deed('left-there')).toEqual({ kind: 'left', ...tether, pieces: 1, parts: 2, place: 'boat' });
    expect(deed('lost')).toBeNull();
    expect(deed('miscounted')).toBeNull();
  });

  it('counts nothing twice that was counted in before', () => {
    expect(deed('found', [{ kind: 'back', ...tether, pieces: 3, parts: 6, place: 'shop' }])).toBeNull();
    expect(deed('found', [{ kind: 'back', ...tether, pieces: 3, parts: 5, place: 'shop' }])).toMatchObject({
      pieces: 0,
      parts: 1,
    });
  });

  it('stands with who, how and in words', () => {
    const by = { name: 'A', role: 'skipper' };
    expect(closedBy(discrepancy(), { at: '2026-11-27T08:00:00+01:00', by, how: 'lost', words: 'gone' })).toMatchObject({
      number: 1,
      closed: { by, how: 'lost', words: 'gone' },
    });
  });
});

describe('a file at the door', async () => {
  const events = await chained(twoRevision, null, eventsOf(wentOut), digest);
  const text = await recordFileText({ revision: twoRevision, events, discrepancies: [discrepancy()] }, digest);
  const empty = {
    ...{ shelves: [], items: [], sites: [], interfaces: [], tasks: [], outings: [], steps: [] },
    ...{ revisions: [], events: [], discrepancies: [] },
  };
  let key = 0;
  const into = (kept: object) =>
    bringingIn(
      { name: 'r.json', file: readRecordFile(text) },
      { ...empty, ...kept },
      {
        broughtIn: { file: 'r.json', at: '2026-11-27T08:00:00+01:00', person: 'A' },
        newId: () => `new-${(key += 1)}`,
      },
    );

  it('is told from a plan by its first words', () => {
    expect(isRecordFile(text)).toBe(true);
    expect(isRecordFile(` {\n "bagwright" : "manifest record" }`)).toBe(true);
    expect(isRecordFile('{"task":{"id":"bagwright","name":"manifest record"}}')).toBe(false);
  });

  it('is refused with the number and the line of the first fault', async () => {
    expect(await verifiedFile({ name: 'r.json', text })).toMatchObject({ kind: 'whole' });
    const broken = text.replace('"item":"R-38","pieces":1', '"item":"R-38","pieces":2');
    expect(await verifiedFile({ name: 'r.json', text: broken })).toMatchObject({
      kind: 'refused',
      refusal: { message: 'Event 1: its content is not what its hash says', file: 'r.json', row: 4 },
    });
  });

  it('goes to the task of its code, or comes with its task and catalog, in one act that no undo takes away', () => {
    const fresh = into({});
    expect(fresh).toMatchObject({ kind: 'act', newTask: true, act: { undoable: false } });
    if (fresh.kind !== 'act') throw new Error('nothing to do');
    const tables = fresh.act.proposals.map(({ table }) => table);
    expect([...new Set(tables)].toSorted()).toEqual(
      ['discrepancies', 'events', 'items', 'outings', 'revisions', 'shelves', 'steps', 'tasks'].toSorted(),
    );
    const task = { id: 'here', rev: 1, code: 'M-2', name: 'Mast', shelves: [], places: [] };
    expect(into({ tasks: [task] })).toMatchObject({
      ...{ kind: 'act', task: 'here', newTask: false },
      words: ['revision 2', '6 events', '1 discrepancy'],
    });
    const revisions = [{ ...twoRevision, task: 'here' }];
    const discrepancies = [{ ...discrepancy(), task: 'here' }];
    expect(into({ tasks: [task], revisions, events, discrepancies })).toEqual({ kind: 'same', task: 'here' });
  });
});

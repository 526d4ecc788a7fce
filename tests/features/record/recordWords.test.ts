import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Deed, Revision } from '../../../shared-types/records/revision.ts';
import { chained } from '../../../renderer/engine/record/chain.ts';
import { readRecordFile, recordFileText } from '../../../renderer/engine/record/recordFile.ts';
import { labelledThings } from '../../../renderer/engine/record/tagClashes.ts';
import { tagsKnown } from '../../../renderer/features/pack/tagsKnown.ts';
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

  describe('with label numbers that another thing has here', () => {
    const tagged = twoContent.things.filter(({ tag }) => tag !== undefined);
    const [first] = tagged;
    if (first?.tag === undefined) throw new Error('no thing has a label');
    const { id: theirs, tag } = first;
    const other = {
      ...{ id: 'mine', rev: 1, shelf: 'crew', code: 'OTHER', name: 'Mine', kind: 'gear', use: 'other', retired: false },
      ...{ parts: 1, kit: 'field', onHand: 1, mass: '1 kg', tag },
    };
    const at = (kept: object, clashWay: 'renumber' | 'keep' | null = null) => {
      const found = bringingIn(
        { name: 'r.json', file: readRecordFile(text) },
        { ...empty, ...kept },
        {
          broughtIn: { file: 'r.json', at: '2026-11-27T08:00:00+01:00', person: 'A' },
          newId: () => `new-${(key += 1)}`,
          clashWay,
        },
      );
      if (found.kind !== 'act') throw new Error(found.kind);
      const revision = found.act.proposals.flatMap((one) =>
        one.table === 'revisions' && 'put' in one ? [one.put as unknown as Revision] : [],
      )[0];
      const items = found.act.proposals.flatMap((one) =>
        one.table === 'items' && 'put' in one ? [one.put as unknown as Item] : [],
      );
      return { found, revision, tagOf: (code: string) => items.find((item) => item.code === code)?.tag };
    };

    it('they are named, and what is kept here is written over by none', () => {
      for (const way of [null, 'renumber', 'keep'] as const) {
        const { found, tagOf } = at({ items: [other] }, way);
        expect(found.clashes).toEqual([
          {
            tag,
            theirs: expect.objectContaining({ id: theirs }) as unknown,
            ours: { code: 'OTHER', name: 'Mine', where: 'in the catalog' },
          },
        ]);
        expect(tagOf('OTHER')).toBeUndefined();
      }
    });

    it('theirs get numbers that nothing has had, or both stay', () => {
      const anew = at({ items: [other] }, 'renumber');
      const most = Math.max(...tagged.map((one) => one.tag ?? 0), tag);
      expect(anew.found.renumbered).toEqual([{ thing: theirs, was: tag, is: most + 1 }]);
      expect(anew.revision?.broughtIn?.renumbered).toEqual(anew.found.renumbered);
      expect(anew.tagOf(theirs)).toBe(most + 1);
      if (anew.revision === undefined) throw new Error('no revision');
      // Its content is what it was, and what its hash says; its labels are read by the new number.
      expect(anew.revision.content).toEqual(twoContent);
      const known = tagsKnown(labelledThings(anew.revision), [other as Item]);
      expect([known.get(tag), known.get(most + 1)]).toEqual(['OTHER', theirs]);
      const both = at({ items: [other] }, 'keep');
      expect(both.found.renumbered).toEqual([]);
      expect(both.tagOf(theirs)).toBeUndefined();
      expect(tagsKnown(labelledThings(both.revision ?? twoRevision), [other as Item]).get(tag)).toBe(theirs);
    });

    it('what clashes with nothing takes its number along; a thing of the same code is the same thing', () => {
      const { found, tagOf } = at({});
      expect(found.clashes).toEqual([]);
      for (const { id, tag: own } of tagged) expect(tagOf(id), id).toBe(own);
      const same = { ...other, code: theirs, kind: first.kind };
      expect(at({ items: [same] }).found.clashes).toEqual([]);
    });

    it('another manifest’s numbers clash too, and a thing of the task keeps the number that it has', () => {
      const kept = {
        ...twoRevision,
        ...{ id: 'q', task: 'else', number: 4, called: 'Mast foot' },
        content: { ...twoContent, things: [{ ...first, id: 'GONE', name: 'Gone' }] },
      };
      expect(at({ revisions: [kept] }).found.clashes).toMatchObject([
        { tag, ours: { code: 'GONE', where: 'on revision 4 of Mast foot' } },
      ]);
      const task = { id: 'here', rev: 1, code: 'M-2', name: 'Mast', shelves: ['own'], places: [] };
      const own = { ...other, id: 'own-1', shelf: 'own', code: theirs, tag: 4711, kind: first.kind };
      const { found } = at({ tasks: [task], items: [other, own] }, 'renumber');
      expect(found.renumbered).toEqual([{ thing: theirs, was: tag, is: 4711 }]);
    });
  });
});

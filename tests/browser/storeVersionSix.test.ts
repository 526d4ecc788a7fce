/** A database of version 5, opened by this program; and what version 6 brought. */
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import type { AnyRecord } from '../../shared-types/records/index.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';
import { earlierJournal, keptByFour, versionTwo } from './support/earlierVersions.ts';
import type { keptThen, versionOne } from './support/earlierVersions.ts';
import { calloutList, frozen, openWindowOn, put, rowsOf } from './support/keptStore.ts';

const act = (...proposals: Proposal[]) => ({ action: 'edit', title: 'Edit', proposals });

async function refusalOf(work: Promise<unknown>) {
  const error: unknown = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof RefusedError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
}

/** As version 5 left them: a bag, lines laid by hand, a tool found out, and what was frozen. */
async function keptByFive(): Promise<typeof keptThen> {
  const bag = {
    id: 'L',
    rev: 1,
    shelf: 'crew',
    code: 'L',
    kind: 'bag',
    retired: false,
    parts: 1,
    kit: 'field',
    pockets: 2,
  };
  const laid = { item: 'F-1', bag: 'L', to: 'L', xMm: 10, yMm: 20, turned: false };
  const foundOut = [{ serial: 'A 17', foundOut: '2026-05-02', person: 'Q.', at: '2026-11-26T08:00:00.000+01:00' }];
  return [
    ...keptByFour.map(([table, record]): (typeof keptThen)[number] =>
      table === 'outings' ? [table, { ...record, bagMap: [laid] } as AnyRecord] : [table, record],
    ),
    ['items', bag as AnyRecord],
    ['asRunLists', { ...calloutList('run', 'job'), rev: 1, foundOut } as AnyRecord],
    ['revisions', { ...(await frozen('r', 'job')), rev: 1 }],
  ];
}

describe('a database of version 5', () => {
  it('is brought up with all it holds, and takes names of pockets, places in them, and the day that a tool had', async () => {
    const kept = await keptByFive();
    const tables = { ...versionTwo, watchOuts: [], revisions: [], events: [], discrepancies: [], arrivals: [] };
    const five: typeof versionOne = {
      ...tables,
      items: [[['shelf', 'code']], ['code'], ['tag']],
      revisions: [[['task', 'number']]],
      events: [[['revision', 'no']]],
      discrepancies: [[['task', 'number']], ['revision']],
    };
    const journal = await earlierJournal(5, five, kept);
    const { store } = await openWindowOn(journal);
    for (const [table, record] of kept) expect((await rowsOf(store, table as 'items')).get(record.id)).toEqual(record);
    const bag = (await rowsOf(store, 'items')).get('L');
    const way = [...(await rowsOf(store, 'outings')).values()][0];
    const list = (await rowsOf(store, 'asRunLists')).get('run');
    if (bag === undefined || way === undefined || list === undefined) throw new Error('something is gone');
    const laid = [{ item: 'F-1', bag: 'L', to: 'L', xMm: 5, yMm: 5, turned: true, pocket: 'lid' }];
    const foundOut = (list.foundOut ?? []).map((one) => ({ ...one, due: '2026-12-31' }));
    await store.commit(
      act(
        put('items', { ...bag, pocketNames: 'lid; main' } as typeof bag),
        put('outings', { ...way, bagMap: laid }),
        put('asRunLists', { ...list, foundOut }),
      ),
    );
    expect(journal.entries.at(-1)?.schema).toBe(recordsVersion);
    await store.rebuildFromJournal();
    expect((await rowsOf(store, 'items')).get('L')).toMatchObject({ pockets: 2, pocketNames: 'lid; main' });
    expect([...(await rowsOf(store, 'outings')).values()][0]?.bagMap).toEqual(laid);
    expect((await rowsOf(store, 'asRunLists')).get('run')?.foundOut).toEqual(foundOut);
    const again = (await rowsOf(store, 'items')).get('L');
    expect(
      (await refusalOf(store.commit(act(put('items', { ...again, pocketNames: 'lid; lid' } as never))))).field,
    ).toMatch(/items\.pocketNames/);
    store.close();
  });
});

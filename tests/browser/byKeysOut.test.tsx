/** An outing by the keyboard alone, from its plan to its return, and the way back to a snapshot: nothing is clicked. */
import '../../renderer/styles/fonts.css';
import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';
import type { Deed, OutingEvent, Revision } from '../../shared-types/records/revision.ts';
import { chained, contentHash } from '../../renderer/engine/record/chain.ts';
import { sha256 } from '../../renderer/store/sha256.ts';
import type { Proposal } from '../../renderer/store/store.ts';
import { mapResult, mapSource } from '../support/bagMapPlan.ts';
import { discrepancy, eventsOf, twoContent, twoRevision, twoSource, wentOut } from '../support/outAndBack.ts';
import { fillIn, find, focusFaults, press, tabInto, tabTo, type } from './support/byKeys.ts';
import { rowsOf } from './support/keptStore.ts';
import { memorySnapshots } from './support/memorySnapshots.ts';
import { byCode, heading, openTask } from './support/openTask.tsx';

vi.setConfig({ testTimeout: 90_000 });

const whoPacks = { name: 'R. Rigger', role: 'packer' };
const another = { name: 'S. Second', role: 'second counter' };
const packed = [
  ...wentOut.filter(({ kind }) => kind !== 'issued'),
  ...['L', 'C', 'Z'].map((bag): Deed => ({ kind: 'bag-closed', bag })),
];
const again = (
  [
    ['L', 'R-38', 1, 3],
    ['L', 'S-13', 1, 1],
    ['C', 'T-07', 3, 6],
    ['Z', 'W-10', 2, 2],
  ] as const
).map(([bag, item, pieces, parts]): Deed => {
  return { kind: 'second-count', bag, way: 'blind', counts: [{ item, pieces, parts }] };
});

/** The same without anything to be left out there, so that all of it may go. */
const steps = twoSource.steps.map((step) => ({ ...step, moves: [] }));
const content = { ...twoContent, planText: JSON.stringify({ ...twoSource, steps }) };
const complete: Revision = { ...twoRevision, content, hash: await contentHash(content, sha256) };

/** The task of two outings, and what was done with the bags of the first so far. */
async function openAfter(done: readonly OutingEvent[], revision = twoRevision) {
  const opened = await openTask(twoSource, '#/front');
  const { store, session, taskId } = opened;
  session.prefer({ person: whoPacks.name, personRole: whoPacks.role, sounds: false });
  const put = (table: TableName, record: AnyRecord): Proposal => ({ table, put: { ...record, rev: 0 } }) as Proposal;
  await store.commit({
    ...{ action: 'freeze', title: 'Freeze', undoable: false },
    proposals: [
      put('revisions', { ...revision, task: taskId }),
      ...(await chained(revision, null, done, sha256)).map((event) => put('events', event)),
    ],
  });
  const since = async () =>
    [...(await rowsOf(store, 'events')).values()]
      .toSorted((one, other) => one.no - other.no)
      .slice(done.length)
      .map(({ by, deed }) => ({ by, deed }));
  return { ...opened, put, since };
}

/** What did the deed may be gone by now: the focus is not, and it is seen where it is. */
const hasFocus = (): Promise<unknown> => expect.poll(focusFaults).toEqual([]);

/** To the button that is called so, and on it. */
async function pressOn(name: string | RegExp): Promise<void> {
  await tabTo(name);
  await press('{Enter}');
}

describe('by the keyboard alone', () => {
  it('a bag is planned, and its answer looked through', async () => {
    const { planner } = await openTask(mapSource, '#/front');
    await press('g', 'b');
    await expect.element(heading('No bag planned yet')).toBeVisible();
    await tabTo('Plan for');
    await type('Fewest');
    await pressOn('Plan the bag');
    await expect.poll(() => planner.runs).toHaveLength(1);
    expect(planner.runs[0]?.options).toMatchObject({ minimise: 'count' });
    await hasFocus();
    await tabTo('Cancel planning');
    planner.runs[0]?.answer(mapResult);
    await expect.element(heading(/^Proved least/)).toBeVisible();
    await hasFocus();
    await tabInto('Contents by bag');
    await press('{ArrowDown}', '{Enter}');
    await expect.poll(() => document.activeElement?.textContent).toMatch(/^Socket 13 mm: why/);
    await tabTo(/^S-13, Socket 13 mm/);
    await pressOn('Preview manifest');
    await expect.poll(() => window.location.hash).toBe('#/manifest/o');
  });

  it('a bag is counted again by another person', async () => {
    const { since } = await openAfter(eventsOf(packed));
    await press('g', 'p');
    await expect.element(heading(/^Packing/)).toBeVisible();
    await pressOn(/^Lead’s bag/);
    await pressOn('Count L again…');
    await expect.element(heading(/^Counting again/)).toBeVisible();
    await hasFocus();
    await fillIn('Your name', whoPacks.name);
    await press('{Enter}');
    await expect.element(page.getByText(/another person counts it again/)).toBeVisible();
    await fillIn('Your name', another.name);
    await press('{Enter}');
    await expect.element(heading(/^2 lines to count/)).toBeVisible();
    await hasFocus();
    await pressOn(/^Ratchet/);
    await pressOn('Keep the count of R-38');
    await expect.element(heading(/^1 line to count/)).toBeVisible();
    await hasFocus();
    await fillIn('Pieces of S-13', '1');
    await pressOn('Keep the count of S-13');
    await expect.element(heading(/^Every line is the same/)).toBeVisible();
    await hasFocus();
    await expect.poll(since).toEqual(again.slice(0, 2).map((deed) => ({ by: another, deed })));
    await pressOn('Back to packing');
    await expect.element(heading(/^Packing/)).toBeVisible();
    await hasFocus();
  });

  it('an outing is issued', async () => {
    const counted = eventsOf(again, { from: packed.length + 1 }).map((event) => ({ ...event, by: another }));
    const { since } = await openAfter([...eventsOf(packed), ...counted], complete);
    await press('g', 'p');
    await expect.element(heading(/^Packing/)).toBeVisible();
    await pressOn('Check and issue…');
    await expect.element(page.getByText(/none keeps it back/)).toBeVisible();
    await hasFocus();
    await fillIn(/^Words with the issue/, 'Low swell.');
    await pressOn(/^Issue First outing/);
    await expect.element(page.getByText(/issued by/)).toBeVisible();
    await hasFocus();
    await expect.poll(since).toEqual([{ by: whoPacks, deed: { kind: 'issued', words: 'Low swell.' } }]);
  });

  it('what comes back is counted in where it is, and what is open is closed by a name', async () => {
    const { store, since, taskId, put } = await openAfter(eventsOf(wentOut));
    await find('Return');
    await expect.element(heading('Return of First outing')).toBeVisible();
    await tabTo('the shop');
    await pressOn(/^Socket 13 mm/);
    await expect.element(page.getByText('1 of 1 back')).toBeVisible();
    await hasFocus();
    // A ratchet of three parts is asked about, and counted in at another place.
    await tabTo('the shop', '{Shift>}{Tab}{/Shift}');
    await press('{ArrowDown}');
    await tabTo('Mast foot');
    await pressOn(/^Ratchet/);
    await fillIn('Parts in all', '3');
    await press('{Enter}');
    await expect.poll(async () => (await since()).length).toBe(2);
    await hasFocus();
    await pressOn(/^Common box/);
    await pressOn('T-07: Otherwise…');
    await tabTo('It is back');
    await press('{ArrowDown}');
    await fillIn('Pieces', '2');
    await press('{Enter}');
    await expect.element(page.getByText(/2 pieces left at Mast foot/)).toBeVisible();
    await pressOn('Close the return…');
    await fillIn('Reason', 'Swell too high');
    await fillIn('Second name', another.name);
    await fillIn('Role of the second person', 'skipper');
    await press('{Enter}');
    await expect.element(page.getByText(/by R. Rigger and S. Second/)).toBeVisible();
    await hasFocus();
    const of = { bag: 'L', pieces: 1 };
    await expect.poll(since).toMatchObject([
      { by: whoPacks, deed: { kind: 'back', ...of, item: 'S-13', parts: 1, place: 'shop' } },
      { by: whoPacks, deed: { kind: 'back', ...of, item: 'R-38', parts: 3, place: 'foot' } },
      { by: whoPacks, deed: { kind: 'left', bag: 'C', item: 'T-07', pieces: 2, parts: 4, place: 'foot' } },
      { by: whoPacks, deed: { kind: 'return-closed', reason: 'Swell too high', second: { name: another.name } } },
    ]);
    await store.commit({
      ...{ action: 'open-discrepancy', title: 'Open', undoable: false },
      proposals: [put('discrepancies', { ...discrepancy(), number: 9, task: taskId })],
    });
    await find('Discrepancies');
    await pressOn('Close D-1…');
    await fillIn('In words', 'Under the seat of the boat');
    await pressOn('Close D-1');
    const closed = async () =>
      [...(await rowsOf(store, 'discrepancies')).values()].find(({ number }) => number === 1)?.closed;
    await expect.poll(closed).toMatchObject({ by: whoPacks, how: 'found', words: 'Under the seat of the boat' });
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await hasFocus();
  });

  it('a snapshot is made, and restored', async () => {
    const { store, host } = await openTask(mapSource, '#/front');
    host.snapshots = memorySnapshots(store).host;
    await find('Snapshots');
    await expect.element(heading('Snapshots')).toBeVisible();
    await pressOn('Make a snapshot');
    await expect.element(page.getByRole('row', { name: /Asked for/ })).toBeVisible();
    await hasFocus();
    const socket = (await byCode(store, 'items')).get('S-13');
    const changed: Proposal = { table: 'items', put: { ...socket, name: 'Changed' } as never };
    await store.commit({ action: 'edit-item', title: 'Edit', proposals: [changed] });
    await pressOn(/^Restore… that of/);
    await expect.element(page.getByRole('row', { name: /^items 0 1 0/ })).toBeVisible();
    await pressOn('Restore 1 record');
    await expect.element(page.getByText(/^Restored as of/)).toBeVisible();
    await hasFocus();
    await expect.poll(async () => (await byCode(store, 'items')).get('S-13')?.name).toBe('Socket 13 mm');
  });
});

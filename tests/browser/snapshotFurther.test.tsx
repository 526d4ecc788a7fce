/** A snapshot that goes further than the journal: told of before any screen, looked at, restored, or gone on without. */
import '../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import '../../renderer/styles/base.css';
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { FurtherSnapshots, MeantThing } from '../../shared-types/snapshot.ts';
import { explained } from '../../renderer/features/recovery/explained.ts';
import { SnapshotsPlace } from '../../renderer/features/snapshots/SnapshotsPlace.tsx';
import { HinderedPage } from '../../renderer/features/recovery/HinderedPage.tsx';
import { OpeningNotice } from '../../renderer/features/recovery/OpeningNotice.tsx';
import { usePlace } from '../../renderer/features/session/usePlace.ts';
import { useOpening } from '../../renderer/features/session/useStore.ts';
import type { Host } from '../../shared-types/host.ts';
import type { Hindrance, Store } from '../../renderer/store/store.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import type { MemoryJournal } from '../support/memoryJournal.ts';
import { InWindow } from './support/InWindow.tsx';
import { axeFaults } from './support/axe.ts';
import {
  deleteDatabase,
  fastener,
  hindranceIn,
  keptJournal,
  openWindowOn,
  put,
  remove,
  windowOn,
} from './support/keptStore.ts';
import { memorySnapshots } from './support/memorySnapshots.ts';
import { cutOff, sideways, tooSmall } from './support/measures.ts';
import { shown } from './shown.tsx';

const whole = {
  name: '2031-04-05T06-07-08Z_000000000018_leaving.snapshot',
  utc: '2031-04-05T06:07:08Z',
  seq: 18,
  records: 194,
};
const further: FurtherSnapshots = { whole, damaged: null };

/** Snapshots of which a person may say that they are meant to go further. */
function further18(journal: MemoryJournal) {
  journal.faults.further = further;
  const meant: MeantThing[] = [];
  const snapshots = {
    make: async () => null,
    meant: async (asked: MeantThing) => {
      meant.push(asked);
      const to = journal.faults.further?.whole?.seq ?? 0;
      if (asked.what === 'snapshots-go-further' && to <= (asked.through ?? to)) journal.faults.further = null;
    },
  };
  return { meant, snapshots };
}

const ready = (store: Store): boolean => store.opening().kind === 'ready';

describe('a snapshot that goes further than the journal', () => {
  it('is told of before an empty program is shown, which writes nothing until it is looked at', async () => {
    const journal = memoryJournal();
    const { store } = windowOn(journal, further18(journal));
    await store.open();
    expect(hindranceIn(store)).toMatchObject({ kind: 'snapshot-further', journal: { seq: 0 }, further });
    const act = { action: 'add', title: 'Add', proposals: [put('items', fastener('F-1', 'crew'))] };
    await expect(store.commit(act)).rejects.toThrow('the store is not open');
    await store.openAsItIs();
    expect(ready(store)).toBe(true);
    // Not said to be meant, it is told of at the next start.
    const next = windowOn(journal, further18(journal));
    await next.store.open();
    expect(hindranceIn(next.store).kind).toBe('snapshot-further');
    next.store.close();
    store.close();
  });

  it('is told of where journal and working copy agree, and named no more once that is meant', async () => {
    const journal = await keptJournal(3);
    const around = further18(journal);
    const { store } = windowOn(journal, around);
    await store.open();
    expect(hindranceIn(store)).toMatchObject({ kind: 'snapshot-further', journal: { seq: 4 }, further });
    await store.goOnWithout();
    expect(around.meant).toEqual([{ what: 'snapshots-go-further' }]);
    expect(ready(store)).toBe(true);
    store.close();
  });

  it('stays told of where that it is meant cannot be noted', async () => {
    const journal = await keptJournal(1);
    const { snapshots } = further18(journal);
    const { store } = windowOn(journal, {
      snapshots: { ...snapshots, meant: () => Promise.reject(new Error('no room')) },
    });
    await store.open();
    await expect(store.goOnWithout()).rejects.toThrow('no room');
    expect(hindranceIn(store).kind).toBe('snapshot-further');
    store.close();
  });

  it('comes after a working copy that is built again', async () => {
    const journal = await keptJournal(3);
    await deleteDatabase(journal.database());
    const { store } = windowOn(journal, further18(journal));
    await store.open();
    const hindrance = hindranceIn(store);
    expect(hindrance).toMatchObject({ kind: 'copy-differs', further });
    const said = explained(hindrance).says.join(' ');
    expect(said).toMatch(
      /A snapshot goes further: entries may have been taken off its end\. The snapshot of .* goes up to entry 18 and holds 194 records/,
    );
    expect(said).not.toMatch(/Everything that was ever called saved|No snapshot goes further/);
    await store.rebuildFromJournal();
    expect(hindranceIn(store).kind).toBe('snapshot-further');
    store.close();
  });

  it.each([
    ['no further than the working copy that is kept', 18, true],
    ['further than the working copy, too', 99, false],
  ])('is named no more in a new journal where it goes %s', async (_how, upTo, isReady) => {
    const journal = await keptJournal(20);
    const { snapshots, meant } = further18(journal);
    journal.faults.further = { whole: { ...whole, seq: upTo }, damaged: null };
    journal.entries.splice(10);
    const { store } = windowOn(journal, { snapshots });
    await store.open();
    const hindrance = hindranceIn(store);
    expect(hindrance).toMatchObject({ kind: 'journal-missing', journal: { seq: 10 }, found: { seq: 21 } });
    // It adds nothing to what the working copy holds, or it is told of.
    expect(explained(hindrance).says.join(' ').includes('The snapshot of')).toBe(!isReady);
    await store.keepWorkingCopy();
    expect(ready(store)).toBe(isReady);
    expect(meant).toEqual([{ what: 'snapshots-go-further', through: 21 }]);
    store.close();
  });
});

describe('snapshots that go further and are damaged', () => {
  const none = { seq: 0, counts: {} as never };
  const told = (found: FurtherSnapshots, journal = none) =>
    explained({ kind: 'snapshot-further', journal, further: found });

  it('are told of beside the whole one, and where none is', () => {
    const beside = told({ whole, damaged: { count: 1, seq: 21 } });
    expect(beside.says[0]).toMatch(
      /holds 194 records\. 1 more goes further still, by name up to entry 21, but is damaged: it cannot be gone by\.$/,
    );
    expect(beside.ways.map(({ label }) => label)).toEqual([
      ...['Look at what it would bring back', 'Compare again', 'Save everything to a file…', 'Go on without them…'],
    ]);
    const alone = told({ whole: null, damaged: { count: 3, seq: 21 } }, { ...none, seq: 16 });
    expect(alone.heading).toBe('Damaged snapshots go further than what is here');
    expect(alone.says[0]).toMatch(
      /3 snapshots go further, by name up to entry 21, but are damaged: they cannot be gone by\.$/,
    );
    expect(alone.ways.map(({ label }) => label)).toEqual([
      ...['Compare again', 'Look at the snapshots', 'Save everything to a file…', 'Go on without them…'],
    ]);
    const one = told({ whole: null, damaged: { count: 1, seq: 21 } });
    expect(one.heading).toBe('A damaged snapshot goes further than what is here');
    expect(one.ways.at(-1)?.asks).toMatch(/The snapshot stays where it is.*it is not named before the work again/);
  });

  it('are told of before an empty program is shown, and lead to the list', async () => {
    window.location.hash = '#/';
    const journal = memoryJournal();
    journal.faults.further = { whole: null, damaged: { count: 2, seq: 21 } };
    const { store } = windowOn(journal);
    await store.open();
    expect(hindranceIn(store).kind).toBe('snapshot-further');
    await shown(
      <InWindow store={store}>
        <Whole store={store} host={{ snapshots: memorySnapshots(store).host } as Host} />
      </InWindow>,
    );
    await userEvent.click(button('Look at the snapshots'));
    await expect.element(heading('Snapshots')).toBeVisible();
    store.close();
  });
});

const button = (name: string) => page.getByRole('button', { name });
const heading = (name: string) => page.getByRole('heading', { name });

it('what is left of a torn line is told of on the page of a journal that ends too early', () => {
  const none = { seq: 17, counts: {} as never };
  const hindrance: Hindrance = {
    ...{ kind: 'journal-missing', journal: none, found: { ...none, seq: 18 } },
    tail: { bytes: 1042, file: 'tail-x.bin' },
  };
  expect(explained(hindrance).says.join(' ')).toContain(
    'The journal’s last line is not whole. What there is of it, 1 042 bytes, was put aside beside the journal as tail-x.bin.',
  );
});

/** The pages as the program has them, with the snapshots' place as the work. */
function Whole({ store, host }: { store: Store; host: Host }) {
  const opening = useOpening();
  const place = usePlace();
  if (opening.kind === 'hindered')
    return <HinderedPage store={store} host={host} folder="/data" hindrance={opening.hindrance} />;
  if (opening.kind !== 'ready') return null;
  return (
    <main tabIndex={-1}>
      {place.at === 'snapshots' ? <SnapshotsPlace host={host} restore={place.restore} /> : <p>The work itself</p>}
    </main>
  );
}

async function lostJournal(scheme: 'light' | 'dark' = 'light') {
  window.location.hash = '#/';
  const former = await openWindowOn(await keptJournal(4));
  const snapshots = memorySnapshots(former.store);
  const made = await snapshots.host.make({ why: 'asked' });
  former.store.close();
  snapshots.furtherNames.add(made?.name ?? '');
  const journal = memoryJournal();
  const { name = '', utc = '', seq = 0 } = made ?? {};
  journal.faults.further = { whole: { name, utc, seq, records: 5 }, damaged: null };
  const host: Host['snapshots'] = {
    ...snapshots.host,
    make: async () => null,
    async meant(request) {
      await snapshots.host.meant(request);
      journal.faults.further = null;
    },
  };
  const { store } = windowOn(journal, { snapshots: host });
  await store.open();
  await shown(
    <InWindow store={store}>
      <Whole store={store} host={{ snapshots: host } as Host} />
    </InWindow>,
    { scheme },
  );
  return { journal, store, meant: snapshots.meant };
}

describe.each(['light', 'dark'] as const)('the page of a lost journal, in %s', (scheme) => {
  it('leads to what the snapshot would bring back, and all of it is there', async () => {
    const { store, meant } = await lostJournal(scheme);
    await expect
      .element(page.getByRole('heading', { level: 1 }))
      .toHaveTextContent('Nothing is here, and a snapshot is');
    await expect.element(page.getByText(/goes up to entry 5 and holds 5 records/)).toBeVisible();
    expect(await axeFaults()).toEqual([]);
    expect([...tooSmall(), ...sideways(), ...cutOff()]).toEqual([]);
    await userEvent.click(page.getByRole('button', { name: 'Look at what it would bring back' }));
    await userEvent.click(page.getByRole('button', { name: 'Restore 5 records' }));
    await expect.element(page.getByText(/^Restored as of/)).toBeVisible();
    // The address opened the dialogue: the hand is on the sheet after it.
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    expect(document.activeElement?.tagName).toBe('MAIN');
    expect([...((await store.readAll()).get('items')?.keys() ?? [])]).toEqual(['F-1', 'F-2', 'F-3', 'F-4']);
    expect(meant).toEqual([{ what: 'snapshots-go-further', through: 5 }]);
    // The dialogue is not opened again by the address.
    expect(window.location.hash).toBe('#/snapshots');
    await store.open();
    expect(ready(store)).toBe(true);
    store.close();
  });

  it('asks before it is gone on without, and is left as it is by Leave', async () => {
    const { store, meant } = await lostJournal(scheme);
    await userEvent.click(page.getByRole('button', { name: 'Go on without it…' }));
    const dialog = page.getByRole('dialog', { name: 'Go on without it' });
    await expect
      .element(dialog)
      .toHaveTextContent(
        /0 entries, 0 records\. The snapshot stays where it is, and in the list of snapshots, with its 5 records;/,
      );
    await userEvent.click(dialog.getByRole('button', { name: 'Leave it as it is' }));
    expect(meant).toEqual([]);
    await userEvent.click(page.getByRole('button', { name: 'Go on without it…' }));
    await userEvent.click(dialog.getByRole('button', { name: 'Go on without it' }));
    await expect.element(page.getByText('The work itself')).toBeVisible();
    expect(meant).toEqual([{ what: 'snapshots-go-further' }]);
    store.close();
  });
});

it('a snapshot that goes no further is restored without a word of that', async () => {
  const { store } = await openWindowOn(await keptJournal(3));
  const snapshots = memorySnapshots(store);
  await snapshots.host.make({ why: 'asked' });
  await store.commit({ action: 'edit', title: 'Edit', proposals: [remove('items', { id: 'F-1', rev: 1 })] });
  await shown(
    <InWindow store={store}>
      <SnapshotsPlace host={{ snapshots: snapshots.host } as Host} />
    </InWindow>,
  );
  await userEvent.click(page.getByRole('button', { name: /^Restore…/ }));
  await userEvent.click(page.getByRole('button', { name: 'Restore 1 record' }));
  await expect.element(page.getByText(/^Restored as of/)).toBeVisible();
  expect(snapshots.meant).toEqual([]);
  store.close();
});

it('what the opening brought over is told of over the sheet, until it is read', async () => {
  const journal = await keptJournal(1);
  journal.faults.tail = { bytes: 37, file: 'tail-1.bin' };
  const { store } = await openWindowOn(journal);
  await shown(
    <InWindow store={store}>
      <OpeningNotice />
    </InWindow>,
  );
  const notice = page.getByRole('region', { name: 'What was found at the start' });
  await expect.element(notice).toHaveTextContent(/last line was never finished \(37 bytes\).*tail-1\.bin/);
  expect(await axeFaults()).toEqual([]);
  await userEvent.click(page.getByRole('button', { name: 'I have read it' }));
  await expect.element(notice).not.toBeInTheDocument();
  // Another opening has its own to say.
  await store.open();
  await expect.element(notice).toBeVisible();
  store.close();
});

import '../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import '../../renderer/styles/base.css';
import { MantineProvider } from '@mantine/core';
import { useSyncExternalStore } from 'react';
import { describe, expect, it } from 'vitest';
import { commands } from 'vitest/browser';
import { render } from 'vitest-browser-react';
import type { FileToSave, Host } from '../../shared-types/host.ts';
import { tableNames } from '../../shared-types/records/index.ts';
import type { Counts } from '../../shared-types/records/index.ts';
import { explained } from '../../renderer/features/recovery/explained.ts';
import { ElsewhereBanner } from '../../renderer/features/recovery/ElsewhereBanner.tsx';
import { HinderedPage } from '../../renderer/features/recovery/HinderedPage.tsx';
import { cautionLead } from '../../renderer/engine/caution.ts';
import { OpeningPage } from '../../renderer/features/recovery/OpeningPage.tsx';
import { RecoveringPage } from '../../renderer/features/recovery/RecoveringPage.tsx';
import type { Hindrance, Store } from '../../renderer/store/store.ts';
import { keepDraft } from '../../renderer/components/RecordForm/keptDraft.ts';
import { resolver, theme } from '../../renderer/theme.ts';
import { digestsIn, keptJournal, openWindowOn, put, rawly, shelf, windowOn } from './support/keptStore.ts';

const counts = (held: Partial<Counts>): Counts =>
  ({ ...Object.fromEntries(tableNames.map((name) => [name, 0])), ...held }) as Counts;
const full = counts({ shelves: 3, items: 1482, tasks: 7, preferences: 1 });

const hindrances: Hindrance[] = [
  {
    ...{ kind: 'copy-differs', reason: 'The working copy holds 1302 items where the journal has 1482.' },
    ...{ journal: { seq: 2044, counts: full }, found: { seq: 2044, counts: { ...full, items: 1302 } } },
  },
  {
    ...{ kind: 'copy-differs', reason: 'The working copy, bagwright-1, is not there.' },
    ...{ journal: { seq: 2044, counts: full }, found: { seq: 0, counts: counts({}) } },
  },
  { kind: 'copy-differs', reason: 'It cannot be read.', journal: { seq: 2044, counts: full }, found: null },
  {
    kind: 'journal-damaged',
    damage: { intactSeq: 1800, file: 'entries-1.jsonl', line: 1801, reason: 'the hash does not fit' },
    ...{ journal: { seq: 1800, counts: full }, found: { seq: 2044, counts: full } },
  },
  {
    kind: 'journal-damaged',
    damage: { intactSeq: 1800, file: 'entries-1.jsonl', line: 1801, reason: 'the hash does not fit' },
    ...{ journal: { seq: 1800, counts: full }, found: null },
  },
  { kind: 'journal-missing', journal: { seq: 0, counts: counts({}) }, found: { seq: 2044, counts: full } },
  { kind: 'journal-missing', journal: { seq: 9, counts: full }, found: { seq: 2044, counts: full } },
  { kind: 'newer-version', kept: 3, known: 1 },
  { kind: 'reload' },
  { kind: 'no-answer', call: 'the working copy (opening it)', afterS: 8 },
  { kind: 'no-answer', call: 'the journal', afterS: 8 },
  { kind: 'no-host', reason: 'the program behind this window does not answer' },
  { kind: 'older-copy', kept: 3, known: 6, reason: 'the disk is full' },
  { kind: 'copy-lost', reason: 'The working copy was closed under this window.' },
  {
    ...{ kind: 'snapshot-further', journal: { seq: 0, counts: counts({}) } },
    further: { whole: { name: 'x', utc: '2031-04-05T06:07:08Z', seq: 2044, records: 1493 }, damaged: null },
  },
];

function fakeHost(): Host & { saved: FileToSave[] } {
  const saved: FileToSave[] = [];
  const host = {
    saved,
    saveFile: async (file: FileToSave) => {
      saved.push(file);
      return true;
    },
  };
  return host as unknown as Host & { saved: FileToSave[] };
}

function Opening({ store, host }: { store: Store; host: Host }) {
  const opening = useSyncExternalStore(store.subscribeOpening, store.opening);
  if (opening.kind === 'opening') return <OpeningPage doing={opening.doing} />;
  if (opening.kind === 'recovering') return <RecoveringPage done={opening.done} of={opening.of} />;
  if (opening.kind === 'ready') return <p>The work itself</p>;
  const { hindrance, failed } = opening;
  return <HinderedPage store={store} host={host} folder="/data/journal" hindrance={hindrance} failed={failed} />;
}

const shown = (store: Store, host: Host) =>
  render(
    <MantineProvider theme={theme} cssVariablesResolver={resolver}>
      <Opening store={store} host={host} />
    </MantineProvider>,
  );

describe('what a hindrance is explained by', () => {
  it.each(hindrances)('has a heading, numbers where there are any, and a safe way first: $kind', (hindrance) => {
    const { heading, says, ways } = explained(hindrance);
    expect(heading).not.toMatch(/[!]|error|fatal|corrupt|lost/i);
    expect(says.length).toBeGreaterThan(0);
    const names = ways.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toContain('save-everything');
    // What begins a journal again, or leaves entries behind, is asked about with its numbers.
    for (const { name, asks } of ways) if (['keep-copy', 'go-on-without'].includes(name)) expect(asks).toMatch(/\d/);
    if (hindrance.kind === 'newer-version') expect(names).toEqual(['save-everything', 'try-again']);
  });

  it('goes by the journal where the journal is whole, by the copy where the copy has more', () => {
    expect(hindrances.map((hindrance) => explained(hindrance).ways[0]?.name)).toEqual([
      ...['rebuild', 'rebuild', 'try-again', 'keep-copy', 'rebuild', 'keep-copy', 'keep-copy'],
      ...['save-everything', 'load-again', 'try-again', 'try-again', 'try-again', 'try-again', 'try-again'],
      'look-at-snapshot',
    ]);
  });
});

describe('what is said of the journal', () => {
  it('is that all of it is there only where the working copy can tell', () => {
    const told = hindrances.slice(0, 3).map((hindrance) => explained(hindrance).says.join(' '));
    expect(told.map((says) => says.includes('Everything that was ever called saved is in it.'))).toEqual([
      true,
      false,
      false,
    ]);
    for (const says of told.slice(1))
      expect(says).toContain('No snapshot goes further. Had later entries been taken off its end');
  });

  it('is in plain words where nothing of it is whole', () => {
    const { says, ways } = explained({
      kind: 'journal-damaged',
      damage: { intactSeq: 0, file: 'entries-1.jsonl', line: 1, reason: 'it is not JSON' },
      ...{ journal: { seq: 0, counts: counts({}) }, found: null },
    });
    expect(says[0]).toBe('Line 1 of entries-1.jsonl: it is not JSON. No entry stands before it.');
    expect(ways[0]).toMatchObject({ name: 'rebuild', label: 'Begin with nothing…' });
    expect(ways[0]?.says).toContain('goes on with an empty program');
    expect(ways[0]?.asks).toContain('Nothing that was saved is shown any more');
  });
});

describe('what was typed and not saved', () => {
  it.each([
    [0, null],
    [1, 'What was typed in a form and not saved is kept apart'],
    [3, 'What was typed in 3 forms and not saved is kept apart'],
  ])('in %i forms is told of where the work is not shown', async (forms, says) => {
    localStorage.clear();
    for (let form = 0; form < forms; form += 1) keepDraft(`form ${form}`, { draft: {}, at: '2031-04-05T06:07:08Z' });
    const journal = await keptJournal(1);
    await rawly(journal.database(), ['items'], (of) => of.objectStore('items').clear());
    const { store } = windowOn(journal);
    await store.open();
    const screen = await shown(store, fakeHost());
    await expect.element(screen.getByRole('heading', { level: 1 })).toBeVisible();
    const said = screen.getByText(/^What was typed/).elements();
    expect(said.map(({ textContent }) => textContent)).toEqual(says === null ? [] : [expect.stringContaining(says)]);
    localStorage.clear();
    store.close();
  });
});

describe('the page of a working copy that differs', () => {
  it('shows both sides, builds again by one press, and the work is there', async () => {
    const journal = await keptJournal(3);
    const before = await digestsIn(journal.database());
    await rawly(journal.database(), ['items'], (of) => of.objectStore('items').delete('F-2'));
    const { store } = windowOn(journal);
    await store.open();
    const screen = await shown(store, fakeHost());
    await expect.element(screen.getByRole('heading', { level: 1 })).toHaveFocus();
    const row = screen.getByRole('row', { name: /^Items/ });
    await expect.element(row).toHaveTextContent('Items321 lacking');
    await expect.element(screen.getByRole('img')).toHaveAccessibleName('Journal: entry 4. Working copy: entry 4');
    await expect.element(screen.getByText('/data/journal')).toBeVisible();
    expect(screen.getByText(/does not mean the same records/).elements()).toEqual([]);
    await expect.element(screen.getByText(cautionLead)).toBeVisible();
    await screen.getByRole('button', { name: 'Build the working copy again' }).click();
    await expect.element(screen.getByText('The work itself')).toBeVisible();
    expect(await digestsIn(journal.database())).toEqual(before);
    store.close();
  });

  it('asks with numbers before a new journal begins, and can be left as it is', async () => {
    const journal = await keptJournal(3);
    journal.entries.splice(2);
    const { store } = windowOn(journal);
    await store.open();
    const screen = await shown(store, fakeHost());
    await expect.element(screen.getByText(/the same number does not mean the same records/)).toBeVisible();
    await screen.getByRole('button', { name: 'Keep what the working copy holds…' }).click();
    const dialog = screen.getByRole('dialog', { name: 'Keep what the working copy holds' });
    await expect.element(dialog).toHaveTextContent(/begins with 4 records.*2 entries, 2 records/);
    await dialog.getByRole('button', { name: 'Leave it as it is' }).click();
    expect(journal.setAside).toEqual([]);
    await screen.getByRole('button', { name: 'Keep what the working copy holds…' }).click();
    await dialog.getByRole('button', { name: 'Keep what the working copy holds' }).click();
    await expect.element(screen.getByText('The work itself')).toBeVisible();
    expect(journal.setAside).toHaveLength(1);
    store.close();
  });

  it('says why a way was not gone, and stays', async () => {
    const journal = await keptJournal(3);
    journal.entries.splice(2);
    journal.faults.refuseAppends = { code: 'disk', times: 1 };
    const { store } = windowOn(journal);
    await store.open();
    const screen = await shown(store, fakeHost());
    await screen.getByRole('button', { name: 'Keep what the working copy holds…' }).click();
    await screen.getByRole('dialog').getByRole('button', { name: /^Keep/ }).click();
    await expect.element(screen.getByRole('alert')).toHaveTextContent(/It was not done.*refused by the test/);
    await expect
      .element(screen.getByRole('heading', { level: 1 }))
      .toHaveTextContent('The journal is empty, the working copy is not');
    store.close();
  });

  it('saves everything to a file and names it', async () => {
    const journal = await keptJournal(2);
    await rawly(journal.database(), ['meta'], (of) => of.objectStore('meta').clear());
    const { store } = windowOn(journal);
    await store.open();
    const host = fakeHost();
    const screen = await shown(store, host);
    await screen.getByRole('button', { name: 'Save everything to a file…' }).click();
    await expect.element(screen.getByText(/Handed over: bagwright-everything-.*\.json/)).toBeVisible();
    const text = new TextDecoder().decode(host.saved[0]?.bytes);
    expect(JSON.parse(text).journal.entries).toHaveLength(3);
    expect(JSON.parse(text).workingCopies[0].tables.items).toHaveLength(2);
    store.close();
  });
});

// One page with both sides, one without: the others are made of the same parts.
describe.each(['light', 'dark'] as const)('in %s, axe knows no fault', (scheme) => {
  it.each([0, 7, 14])(
    'of the page of hindrance %i, nor of what stands around the work',
    async (at) => {
      const hindrance = hindrances[at];
      if (hindrance === undefined) throw new Error(`no hindrance ${at}`);
      const { store } = windowOn(await keptJournal(0));
      const screen = await render(
        <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme}>
          <HinderedPage
            store={store}
            host={fakeHost()}
            folder="/data/journal"
            hindrance={hindrance}
            failed="It was not done: no room"
          />
        </MantineProvider>,
      );
      await expect.element(screen.getByRole('heading', { level: 1 })).toHaveFocus();
      expect(await commands.axe()).toEqual([]);
      await screen.unmount();
      await render(
        <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme}>
          <ElsewhereBanner store={store} reason="Another window of this program has the right to write." />
          {at === 0 ? <RecoveringPage done={12} of={48} /> : <OpeningPage doing="Reading the journal" />}
        </MantineProvider>,
      );
      expect(await commands.axe()).toEqual([]);
    },
    90_000,
  );
});

const shownBanner = (store: Store) =>
  render(
    <MantineProvider theme={theme} cssVariablesResolver={resolver}>
      <ElsewhereBanner store={store} reason="Another window of this program has the right to write." />
    </MantineProvider>,
  );

describe('the banner of a window that does not write', () => {
  it('takes the saving up by itself where the other window has gone, and never from one that has not', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    await shownBanner(second.store);
    const asked = journal.calls.lease;
    window.dispatchEvent(new Event('focus'));
    await expect.poll(() => journal.calls.lease).toBe(asked + 1);
    expect([first, second].map(({ store }) => store.saving().kind)).toEqual(['nothing', 'elsewhere']);
    first.store.close();
    window.dispatchEvent(new Event('focus'));
    await expect.poll(() => second.store.saving().kind).toBe('nothing');
    await second.store.commit({ action: 'add', title: 'Add', proposals: [put('shelves', shelf('two'))] });
    expect(journal.entries.at(-1)?.payload.title).toBe('Add');
    second.store.close();
  });

  it('takes the saving over', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    const screen = await shownBanner(second.store);
    await expect.element(screen.getByRole('region', { name: 'Read only' })).toHaveTextContent(/not saved/);
    await screen.getByRole('button', { name: 'Save from this window' }).click();
    await expect.poll(() => first.store.saving().kind).toBe('elsewhere');
    expect(second.store.saving().kind).not.toBe('elsewhere');
    screen.unmount();
    first.store.close();
    second.store.close();
  });

  it('says why it was not taken over', async () => {
    const journal = await keptJournal(1);
    const first = await openWindowOn(journal);
    const second = await openWindowOn(journal);
    const screen = await shownBanner(second.store);
    journal.faults.gone = true;
    await screen.getByRole('button', { name: 'Save from this window' }).click();
    await expect.element(screen.getByRole('alert')).toHaveTextContent(/not taken over.*does not answer/);
    first.store.close();
    second.store.close();
  });
});

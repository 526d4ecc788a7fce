/** Entries of one form that several windows leave unsaved. A window is its name here; one that is open holds a lock. */
import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { TextField } from '../../renderer/components/Fields/TextField.tsx';
import { RecordForm } from '../../renderer/components/RecordForm/RecordForm.tsx';
import type { Draft } from '../../renderer/components/RecordForm/draft.ts';
import { draftsOnDisk } from '../../renderer/components/RecordForm/draftsOnDisk.ts';
import {
  bringDraftsBack,
  draftsKept,
  keepDraft,
  keptDraft,
  otherDrafts,
  takeInstead,
} from '../../renderer/components/RecordForm/keptDraft.ts';
import { useRecordForm } from '../../renderer/components/RecordForm/useRecordForm.ts';
import { goTo, newWindow, openWindow, place } from './support/otherWindows.ts';
import { shown } from './shown.tsx';
import { patience } from '../support/patience.ts';

const initial: Draft = { rev: 3, id: 'k1', name: 'Depot' };
const saved = async (): Promise<void> => undefined;

function ShelfForm({ keepAs }: { keepAs: string }) {
  const form = useRecordForm({ initial, faultsOf: () => [], keepAs });
  return (
    <RecordForm
      form={form}
      heading="Rename shelf"
      saveLabel="Save shelf"
      save={saved}
      onSaved={() => undefined}
      onLeave={() => undefined}
    >
      <TextField {...form.text('name', 'Name')} />
    </RecordForm>
  );
}

let tests = 0;
/** Of this test alone: what other tests left in the small database is not its own. */
let form = '';
beforeEach(() => {
  localStorage.clear();
  tests += 1;
  form = `shelf-${tests}-${crypto.randomUUID()}`;
});

const draftOf = (name: string): Draft => ({ ...initial, name });
const minute = (n: number): string => new Date(Date.UTC(2021, 3, 5, 10, n)).toISOString();

/** A window in which a text was typed at a minute of ten o'clock, and never saved. */
function typedIn(window: string, text: string, n: number): void {
  const before = sessionStorage.getItem(place);
  goTo(window);
  keepDraft(form, { draft: draftOf(text), at: minute(n) });
  if (before !== null) goTo(before);
}

const keptNames = (): string[] =>
  Object.entries({ ...localStorage })
    .filter(([key]) => key.endsWith(form))
    .map(([, text]) => String(/"name":"([^"]*)"/.exec(String(text))?.[1]))
    .toSorted();

const expectKept = (names: readonly string[]) => vi.waitFor(() => expect(keptNames()).toEqual(names), patience);

const ownKey = (window: string): string => `bagwright-draft:@${window}:${form}`;

/** Nothing says a second time what the window has as its own now. */
const untilTakenOver = (window: string) =>
  vi.waitFor(() => {
    expect(localStorage.getItem(ownKey(window))).not.toBeNull();
    expect(new Set(keptNames()).size).toBe(keptNames().length);
  }, patience);

const name = () => page.getByRole('textbox', { name: 'Name' });
const isBack = () => page.getByText('Entries that were not saved are back.');
const offers = () => page.getByText(/^Other entries for this form/);
const showThem = () => page.getByRole('button', { name: 'Show them instead' });
const save = () => userEvent.click(page.getByRole('button', { name: 'Save shelf' }));
const beginAgain = () => userEvent.click(page.getByRole('button', { name: 'Begin again from what is kept' }));
const opened = () => shown(<ShelfForm keepAs={form} />);

describe('entries of one form in two windows', () => {
  it('both come back, each in its own window, after everything was killed', async () => {
    const [one, other] = [newWindow(), newWindow()];
    const closings: (() => Promise<void>)[] = [];
    for (const [window, text] of [
      [one, 'Quay'],
      [other, 'Loft'],
    ] as const) {
      closings.push(await openWindow(window));
      goTo(window);
      const screen = await opened();
      await userEvent.fill(name(), text);
      await vi.waitFor(() => expect(keptNames()).toContain(text), patience);
      await screen.unmount();
    }
    await vi.waitFor(
      async () => expect((await draftsOnDisk()).filter((draft) => draft.name.endsWith(form))).toHaveLength(2),
      patience,
    );
    // As after `kill -9` of the browser within its first seconds.
    localStorage.clear();
    for (const close of closings) await close();
    await bringDraftsBack();
    for (const [window, text] of [
      [one, 'Quay'],
      [other, 'Loft'],
    ] as const) {
      goTo(window);
      const screen = await opened();
      await expect.element(name()).toHaveValue(text);
      await expect.element(isBack()).toBeVisible();
      expect(offers().elements()).toHaveLength(1);
      await screen.unmount();
    }
  });

  it('both come back in a new window: the last typed at once, the other when it is asked for, and neither is lost by that', async () => {
    typedIn(crypto.randomUUID(), 'Quay', 2);
    typedIn(crypto.randomUUID(), 'Loft', 5);
    const here = newWindow();
    await opened();
    await expect.element(name()).toHaveValue('Loft');
    await untilTakenOver(here);
    await expect
      .element(offers())
      .toHaveTextContent(/^Other entries for this form, typed on 2021-04-05 at \d\d:02 in another window:$/);
    await userEvent.click(showThem());
    await expect.element(name()).toHaveValue('Quay');
    await expect.element(name()).toHaveFocus();
    await expect.element(isBack()).toBeVisible();
    await expect
      .element(offers())
      .toHaveTextContent(/^Other entries for this form, typed on 2021-04-05 at \d\d:05 in this window:$/);
    await expectKept(['Loft', 'Quay']);
    for (const text of ['Loft', 'Quay', 'Loft']) {
      await userEvent.click(showThem());
      await expect.element(name()).toHaveValue(text);
    }
    await expectKept(['Loft', 'Quay']);
    await save();
    await expectKept(['Quay']);
    expect(keptDraft(form)?.draft).toEqual(draftOf('Quay'));
  });

  it('do not go with those of a window that saves or begins again, as long as theirs is open', async () => {
    const other = crypto.randomUUID();
    const close = await openWindow(other);
    typedIn(other, 'Loft', 5);
    newWindow();
    const screen = await opened();
    await expect.element(name()).toHaveValue('Loft');
    await expectKept(['Loft', 'Loft']);
    await save();
    await expectKept(['Loft']);
    await screen.unmount();
    // It was done with here: offered, and not put there again.
    const second = await opened();
    await expect.element(name()).toHaveValue('Depot');
    await expect.element(isBack()).not.toBeInTheDocument();
    await expect.element(offers()).toHaveTextContent('in another window');
    await userEvent.click(showThem());
    await expect.element(name()).toHaveValue('Loft');
    await beginAgain();
    await expect.element(name()).toHaveValue('Depot');
    await expectKept(['Loft']);
    await second.unmount();
    goTo(other);
    expect(keptDraft(form)?.draft).toEqual(draftOf('Loft'));
    await close();
  });

  it('go with those of the window that took them over, once theirs is closed, unless they were typed on', async () => {
    const [quiet, typing] = [crypto.randomUUID(), crypto.randomUUID()];
    for (const [window, left] of [
      [quiet, []],
      [typing, ['Loft, by the door']],
    ] as const) {
      const close = await openWindow(window);
      typedIn(window, 'Loft', 5);
      newWindow();
      const screen = await opened();
      await userEvent.fill(name(), 'Loft, by the stairs');
      await expectKept(['Loft', 'Loft, by the stairs']);
      for (const text of left) typedIn(window, text, 6);
      await close();
      await save();
      await expectKept(left);
      await screen.unmount();
    }
  });

  it('are this window’s alone once it took them over from a closed one, and are gone when they are saved', async () => {
    const closed = crypto.randomUUID();
    typedIn(closed, 'Loft', 5);
    const here = newWindow();
    await opened();
    await untilTakenOver(here);
    expect(Object.keys(localStorage).filter((key) => key.endsWith(form))).toEqual([ownKey(here)]);
    expect(keptDraft(form)).toMatchObject({ draft: draftOf('Loft'), typed: minute(5) });
    await save();
    expect(keptNames()).toEqual([]);
    // And stay so, though plain storage may bring both back as they were.
    for (const window of [closed, here]) {
      const old = JSON.stringify({ draft: draftOf('Loft'), at: minute(5) });
      localStorage.setItem(ownKey(window), old);
    }
    await bringDraftsBack();
    expect(keptNames()).toEqual([]);
  });

  it('are not offered where they say what the form shows, what is kept, or what another one says', async () => {
    typedIn(crypto.randomUUID(), 'Depot', 1);
    for (const n of [2, 3]) typedIn(crypto.randomUUID(), 'Quay', n);
    for (const n of [4, 5]) typedIn(crypto.randomUUID(), 'Loft', n);
    newWindow();
    await opened();
    await expect.element(name()).toHaveValue('Loft');
    expect(
      offers()
        .elements()
        .map(({ textContent }) => textContent),
    ).toEqual([expect.stringContaining(':03')]);
  });

  it('are offered no more once the other window has saved them', async () => {
    const other = crypto.randomUUID();
    typedIn(other, 'Quay', 2);
    const here = newWindow();
    typedIn(here, 'Loft', 5);
    await opened();
    goTo(other);
    keepDraft(form, null);
    goTo(here);
    await userEvent.click(showThem());
    await expect.element(offers()).not.toBeInTheDocument();
    await expect.element(name()).toHaveValue('Loft');
  });
});

describe('entries of a new record', () => {
  it('that were typed on from those of an open window are a record of their own', async () => {
    const open = crypto.randomUUID();
    await openWindow(open);
    goTo(open);
    keepDraft(form, { draft: { ...draftOf('Quay'), id: 'k7' }, at: minute(2) });
    const here = newWindow();
    await opened();
    await userEvent.fill(name(), 'Loft');
    await expectKept(['Loft', 'Quay']);
    expect(localStorage.getItem(ownKey(here))).toContain('"id":"k1"');
  });

  it('that were typed on from those of a closed one are the same record', async () => {
    goTo(crypto.randomUUID());
    keepDraft(form, { draft: { ...draftOf('Quay'), id: 'k7' }, at: minute(2) });
    const here = newWindow();
    await opened();
    await untilTakenOver(here);
    await userEvent.fill(name(), 'Loft');
    await expectKept(['Loft']);
    expect(localStorage.getItem(ownKey(here))).toContain('"id":"k7"');
  });
});

describe('entries shown in the place of others', () => {
  it('cost none of them, at whatever moment that is', async () => {
    const [quay, loft] = [crypto.randomUUID(), crypto.randomUUID()];
    typedIn(quay, 'Quay', 2);
    typedIn(loft, 'Loft', 5);
    newWindow();
    const found = keptDraft(form);
    const other = otherDrafts(form).find(({ window }) => window === quay);
    if (found === null || other === undefined) throw new Error('nothing was kept');
    // What was taken over is about to go from its first place when the other one comes into this window's.
    keepDraft(form, found);
    takeInstead(form, found, other);
    await vi.waitFor(() => expect(localStorage.getItem(ownKey(quay))).toBeNull(), patience);
    expect(keptNames()).toEqual(['Loft', 'Quay']);
    expect(keptDraft(form)?.draft).toEqual(draftOf('Quay'));
  });
});

describe('kept entries', () => {
  it('of before windows had their own come back, and go when they are saved', async () => {
    localStorage.setItem(`bagwright-draft:${form}`, JSON.stringify({ draft: draftOf('Loft'), at: minute(5) }));
    newWindow();
    await opened();
    await expect.element(name()).toHaveValue('Loft');
    await expect.element(isBack()).toBeVisible();
    await save();
    await expectKept([]);
  });

  it('are counted by forms', () => {
    typedIn(crypto.randomUUID(), 'Quay', 2);
    typedIn(crypto.randomUUID(), 'Loft', 5);
    localStorage.setItem(`bagwright-draft:${form}`, JSON.stringify({ draft: draftOf('Pier'), at: minute(1) }));
    expect(draftsKept()).toBe(1);
    localStorage.setItem('bagwright-draft:new-site', JSON.stringify({ draft: {}, at: minute(1) }));
    expect(draftsKept()).toBe(2);
  });

  it('that one window gave up stay gone after a kill, and those of another come back', async () => {
    const [one, other] = [crypto.randomUUID(), crypto.randomUUID()];
    typedIn(one, 'Quay', 2);
    typedIn(other, 'Loft', 5);
    const before = { ...localStorage };
    goTo(one);
    keepDraft(form, null);
    await vi.waitFor(
      async () =>
        expect((await draftsOnDisk()).find((draft) => draft.name === `@${one}:${form}`)).toMatchObject({ text: null }),
      patience,
    );
    // The plain storage as it was before.
    for (const [key, text] of Object.entries(before)) localStorage.setItem(key, String(text));
    await bringDraftsBack();
    expect(keptNames()).toEqual(['Loft']);
  });

  it('of one form are twelve at the most, besides those of open windows', async () => {
    const open = crypto.randomUUID();
    await openWindow(open);
    typedIn(open, 'Text 0', 0);
    for (let n = 1; n <= 14; n += 1) typedIn(crypto.randomUUID(), `Text ${n}`, n);
    newWindow();
    await bringDraftsBack();
    const newest = Array.from({ length: 12 }, (_, index) => `Text ${index + 3}`);
    await expectKept(['Text 0', ...newest].toSorted());
  });
});

describe('the name of a window', () => {
  it('outlives a reload', async () => {
    const before = newWindow();
    await bringDraftsBack();
    expect(sessionStorage.getItem(place)).toBe(before);
    expect((await navigator.locks.query()).held?.map((lock) => lock.name)).toContain(`bagwright-window ${before}`);
  });

  it('is another one where the window is a copy of an open one, whose entries it leaves alone', async () => {
    const first = newWindow();
    await openWindow(first);
    typedIn(first, 'Loft', 5);
    await bringDraftsBack();
    const copy = sessionStorage.getItem(place);
    expect(copy).not.toBe(first);
    await opened();
    await expect.element(name()).toHaveValue('Loft');
    await userEvent.fill(name(), 'Pier');
    await expectKept(['Loft', 'Pier']);
    await vi.waitFor(
      async () =>
        expect((await navigator.locks.query()).held?.map((lock) => lock.name)).toContain(`bagwright-window ${copy}`),
      patience,
    );
  });

  it('waits a moment for a page that is about to be gone', async () => {
    const before = newWindow();
    const close = await openWindow(before);
    setTimeout(() => void close(), 50);
    await bringDraftsBack();
    expect(sessionStorage.getItem(place)).toBe(before);
  });

  it('is a new one with each start where there are no locks; what was typed comes back all the same', async () => {
    const before = newWindow();
    typedIn(before, 'Loft', 5);
    Object.defineProperty(navigator, 'locks', { configurable: true, value: undefined });
    onTestFinished(() => void Reflect.deleteProperty(navigator, 'locks'));
    await bringDraftsBack();
    expect(sessionStorage.getItem(place)).not.toBe(before);
    await opened();
    await expect.element(name()).toHaveValue('Loft');
    await userEvent.fill(name(), 'Pier');
    await expectKept(['Loft', 'Pier']);
    await save();
    await expectKept([]);
  });
});

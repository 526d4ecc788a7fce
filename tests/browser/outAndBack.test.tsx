import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Deed } from '../../shared-types/records/revision.ts';
import { chainFault, chained } from '../../renderer/engine/record/chain.ts';
import { recordFileText } from '../../renderer/engine/record/recordFile.ts';
import { tagText } from '../../renderer/engine/tag/index.ts';
import { sha256 } from '../../renderer/store/sha256.ts';
import { discrepancy, eventsOf, twoRevision, twoSource, wentOut } from '../support/outAndBack.ts';
import { axeFaults, axeFaultsInEveryLook } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { button, field, heading, openTask } from './support/openTask.tsx';

const packed = await chained(twoRevision, null, eventsOf(wentOut), sha256);

/** The task of two outings, the first of them packed and gone. */
async function openReturn(address: string) {
  const opened = await openTask(twoSource, '#/front');
  const { store, taskId } = opened;
  const revision = { ...twoRevision, rev: 0, task: taskId };
  await store.commit({
    ...{ action: 'freeze', title: 'Freeze', undoable: false },
    proposals: [
      { table: 'revisions', put: revision },
      ...packed.map((put) => ({ table: 'events' as const, put: { ...put, rev: 0 } })),
    ],
  });
  window.location.hash = address;
  const events = async () => [...(await rowsOf(store, 'events')).values()].toSorted((one, other) => one.no - other.no);
  return { ...opened, revision, events };
}

const line = (name: RegExp) => page.getByRole('button', { name });
const dialog = () => page.getByRole('dialog');

it('counts in by the press of a row, asks for parts, and closes with a discrepancy for what is open', async () => {
  const { store, revision, events } = await openReturn('#/return');
  await expect.element(heading('Return of First outing')).toBeVisible();
  // Nothing stands in the way of the count, and Leave is its way out.
  await expect.element(page.getByRole('link', { name: 'Leave' })).toBeVisible();
  expect(page.getByRole('navigation').elements()).toHaveLength(0);
  await userEvent.click(line(/^Socket 13 mm/));
  await userEvent.fill(field('Your name'), 'R. Rigger');
  await userEvent.fill(field('Your role'), 'packer');
  await userEvent.click(button('Keep name and role'));
  await expect.element(line(/^Socket 13 mm/)).toHaveTextContent(/1 of 1 back\s*Back/);
  // A second press counts nothing: it asks what became of it.
  await userEvent.click(line(/^Socket 13 mm/));
  await expect.element(dialog()).toHaveTextContent(/nothing open/);
  await userEvent.click(button('Leave it'));
  // Of a ratchet with three parts two are there.
  await userEvent.click(line(/^Ratchet/));
  await userEvent.fill(field('Parts in all'), '2');
  await userEvent.click(button('Count in R-38'));
  await expect.element(line(/^Ratchet/)).toHaveTextContent(/1 part out/);
  await userEvent.click(page.getByRole('button', { name: /^Common box/ }));
  await expect.element(page.getByText(/planned: 2 to stay at Mast foot, step 1/i)).toBeVisible();
  await userEvent.click(button('T-07: Otherwise…'));
  await userEvent.click(page.getByRole('radio', { name: 'It stays out there on purpose' }));
  await userEvent.fill(field('Pieces'), '2');
  await userEvent.click(button('Leave T-07'));
  await expect.element(page.getByText(/2 pieces left at Mast foot/)).toBeVisible();
  await userEvent.click(page.getByRole('button', { name: /^Second’s bag/ }));
  await userEvent.click(button('W-10: Otherwise…'));
  await userEvent.click(page.getByRole('radio', { name: 'It is used up' }));
  await userEvent.click(button('Use up W-10'));
  await expect.element(page.getByText(/1 piece and 1 part open/)).toBeVisible();

  await userEvent.click(button('Close the return…'));
  await userEvent.click(button('Close with 2 discrepancies'));
  await expect.element(page.getByText('Reason is missing.')).toBeVisible();
  await userEvent.fill(field('Reason'), 'Swell too high');
  await userEvent.fill(field('Second name'), 'r.  rigger');
  await userEvent.fill(field('Role of the second person'), 'skipper');
  await userEvent.click(button('Close with 2 discrepancies'));
  await expect.element(page.getByText(/the second name must be of another person/)).toBeVisible();
  expect((await rowsOf(store, 'discrepancies')).size).toBe(0);
  await userEvent.fill(field('Second name'), 'S. Second');
  await userEvent.click(button('Close with 2 discrepancies'));
  await expect.element(page.getByText(/by R. Rigger and S. Second/)).toBeVisible();
  const kept = [...(await rowsOf(store, 'discrepancies')).values()].toSorted((a, b) => a.number - b.number);
  expect(kept).toMatchObject([
    { number: 1, item: 'R-38', pieces: 0, parts: 1, words: 'Swell too high', lastSeen: { event: 6 } },
    { number: 2, item: 'T-07', pieces: 1, parts: 2, opened: { by: { name: 'R. Rigger' } } },
  ]);

  // Counting the tether in closes nothing: a named person does, in words.
  await userEvent.click(page.getByRole('button', { name: /^Common box/ }));
  await userEvent.click(line(/^Tool tether/));
  await userEvent.click(button('Count in T-07'));
  await expect.element(page.getByText('D-2 is open.')).toBeVisible();
  window.location.hash = '#/discrepancies';
  await userEvent.click(button('Close D-2…'));
  await userEvent.click(button('Close D-2'));
  await expect.element(page.getByText('Words are missing.')).toBeVisible();
  await userEvent.fill(field('In words'), 'Under the seat of the boat');
  await userEvent.click(button('Close D-2'));
  await expect.element(page.getByText(/1 is open of 2/)).toBeVisible();
  const after = await events();
  // It was counted in before: its closing counts nothing again.
  expect(after.filter(({ deed }) => deed.kind === 'back')).toHaveLength(3);
  expect(await chainFault(revision, after, sha256)).toBeNull();

  window.location.hash = `#/record/${revision.number}`;
  await userEvent.click(button('Verify record and journal'));
  await expect.element(page.getByText('Record whole')).toBeVisible();
  await expect.element(page.getByText('Journal whole')).toBeVisible();
  await expect.element(page.getByText('Left 2 pieces of T-07 Tool tether at Mast foot on purpose')).toBeVisible();
});

it('takes a piece in by its label, asks for its parts, and stops at a label that is of nothing here', async () => {
  const { events, session } = await openReturn('#/return');
  session.prefer({ person: 'R. Rigger', personRole: 'packer' });
  await expect.element(heading('Return of First outing')).toBeVisible();
  const scan = (text: string): void => {
    for (const key of [...text, 'Enter'])
      document.body.dispatchEvent(
        new KeyboardEvent('keydown', {
          ...{ key, code: key === 'Enter' ? key : `Digit${key}`, bubbles: true, cancelable: true },
        }),
      );
  };
  await expect.element(page.getByText('Labels are read once')).not.toBeInTheDocument();
  const label = tagText({ kind: 'item', tag: 7, piece: 2 });
  scan(label);
  await expect.element(field('Pieces')).toHaveValue('1');
  await expect.element(field('Parts in all')).toHaveValue('2');
  await userEvent.click(button('Count in T-07'));
  await expect.element(line(/^Tool tether/)).toHaveTextContent(/1 of 3 back/);
  expect((await events()).at(-1)?.deed).toMatchObject({ kind: 'back', label, pieces: 1, parts: 2, place: 'shop' });
  scan(tagText({ kind: 'item', tag: 99, piece: 1 }));
  await expect.element(dialog()).toHaveTextContent(/Not counted.*Label 99 is of nothing on this manifest\./);
  await userEvent.click(button('Seen: go on'));
  expect((await events()).filter(({ deed }) => deed.kind === 'back')).toHaveLength(1);
});

it('what lay somewhere and is not there any more gets a discrepancy at once, with that place', async () => {
  const { store, session } = await openReturn('#/front');
  const left: Deed = { kind: 'left', bag: 'C', item: 'T-07', pieces: 2, parts: 4, place: 'foot' };
  const home = wentOut.flatMap((deed): Deed[] =>
    deed.kind !== 'counted' ? [] : deed.item === 'T-07' ? [] : [{ ...deed, kind: 'back', place: 'shop' }],
  );
  const last = packed.at(-1) ?? null;
  const more = await chained(
    twoRevision,
    last,
    eventsOf(
      [
        ...home,
        { kind: 'back', bag: 'C', item: 'T-07', pieces: 1, parts: 2, place: 'shop' },
        left,
        { kind: 'return-closed' },
      ],
      { from: 7 },
    ),
    sha256,
  );
  await store.commit({
    ...{ action: 'add-events', title: 'Back', undoable: false },
    proposals: more.map((put) => ({ table: 'events' as const, put: { ...put, rev: 0 } })),
  });
  session.prefer({ person: 'R. Rigger', personRole: 'packer' });
  window.location.hash = '#/return';
  await userEvent.click(button('T-07: It is not there any more…'));
  await userEvent.click(page.getByRole('radio', { name: 'It is not at Mast foot any more' }));
  await userEvent.fill(field('Pieces'), '1');
  await userEvent.click(button('Miss T-07'));
  await expect.element(page.getByText('D-1 is open.')).toBeInTheDocument();
  expect([...(await rowsOf(store, 'discrepancies')).values()]).toMatchObject([
    { item: 'T-07', pieces: 1, parts: 2, lastSeen: { place: 'Mast foot' }, words: 'not there any more' },
  ]);
  await expect
    .element(page.getByRole('region', { name: 'What lies at places' }))
    .toHaveTextContent(/1 piece at Mast foot/);
});

it('a manifest with its record is verified, brought in once, and refused with the number of the first fault', async () => {
  const { store } = await openTask(twoSource, '#/record');
  const text = await recordFileText({ revision: twoRevision, events: packed, discrepancies: [] }, sha256);
  const drop = (content: string): void => {
    const carried = new DataTransfer();
    carried.items.add(new File([content], 'record.json', { type: 'application/json' }));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: carried, bubbles: true, cancelable: true }));
  };
  drop(text.replace('"item":"S-13","pieces":1', '"item":"S-13","pieces":2'));
  await expect.element(dialog()).toHaveTextContent(/Event 2: its content is not what its hash says/);
  await userEvent.click(dialog().getByRole('button', { name: 'Close' }).first());
  expect((await rowsOf(store, 'revisions')).size).toBe(0);
  drop(text);
  await expect.element(dialog()).toHaveTextContent(/frozen content, 6 events and its own hash were verified/);
  await userEvent.click(button('Keep revision 2, 6 events'));
  await expect.element(page.getByText('Saved: all of the file is kept.')).toBeVisible();
  await userEvent.click(button('Open its record'));
  await expect.element(page.getByText(/from record\.json/)).toBeVisible();
  const { seq } = await store.journalHead();
  drop(text);
  await expect.element(page.getByText(/Everything in the file is kept already/)).toBeVisible();
  expect((await store.journalHead()).seq).toBe(seq);
});

it('a label number that names another thing here is told, and brought in only once somebody said what becomes of it', async () => {
  const { store } = await openTask(twoSource, '#/record');
  // In the file number 7 is a tether; here it is on a socket.
  const socket = [...(await rowsOf(store, 'items')).values()].find(({ code }) => code === 'S-13');
  if (socket === undefined) throw new Error('no socket');
  await store.commit({
    ...{ action: 'label', title: 'Label', undoable: false },
    proposals: [{ table: 'items', put: { ...socket, tag: 7 } }],
  });
  const text = await recordFileText({ revision: twoRevision, events: packed, discrepancies: [] }, sha256);
  const carried = new DataTransfer();
  carried.items.add(new File([text], 'record.json', { type: 'application/json' }));
  document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: carried, bubbles: true, cancelable: true }));
  await expect.element(dialog()).toHaveTextContent(/1 label number given to another thing here/);
  await expect.element(dialog()).toHaveTextContent(/T-07 Tool tether.*S-13.*in the catalog/);
  expect(await axeFaultsInEveryLook()).toEqual([]);
  await userEvent.click(button('Keep revision 2, 6 events'));
  await expect.element(dialog()).toHaveTextContent(/Say first what becomes of the label numbers/);
  expect((await rowsOf(store, 'revisions')).size, 'nothing of it is written').toBe(0);
  await userEvent.click(page.getByRole('radio', { name: /^Give theirs new numbers here/ }));
  await expect.element(dialog()).toHaveTextContent(/T-07 Tool tether becomes 8/);
  await userEvent.click(button('Keep revision 2, 6 events'));
  await expect.element(page.getByText('Saved: all of the file is kept.')).toBeVisible();
  const [kept] = [...(await rowsOf(store, 'revisions')).values()];
  expect(kept?.broughtIn?.renumbered).toEqual([{ thing: 'T-07', was: 7, is: 8 }]);
  expect(kept?.content, 'what was hashed stays as it was').toEqual(twoRevision.content);
});

it('return, record and discrepancies have no fault that axe finds, in any colours', async () => {
  const { store, taskId } = await openReturn('#/return');
  await expect.element(heading('Return of First outing')).toBeVisible();
  expect(await axeFaultsInEveryLook()).toEqual([]);
  await userEvent.click(button('T-07: Otherwise…').or(button('S-13: Otherwise…')).first());
  expect(await axeFaults()).toEqual([]);
  await userEvent.click(button('Leave it'));
  await store.commit({
    ...{ action: 'open-discrepancy', title: 'Open', undoable: false },
    proposals: [{ table: 'discrepancies', put: { ...discrepancy(), rev: 0, task: taskId } }],
  });
  window.location.hash = '#/discrepancies';
  await expect.element(button('Close D-1…')).toBeVisible();
  expect(await axeFaultsInEveryLook()).toEqual([]);
  window.location.hash = '#/record/2';
  await expect.element(page.getByText('The bags left')).toBeVisible();
  expect(await axeFaultsInEveryLook()).toEqual([]);
});

import { afterEach, describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { BagResult } from '../../shared-types/bag.ts';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import type { RecordOf } from '../../shared-types/records/index.ts';
import { contentHash } from '../../renderer/engine/record/chain.ts';
import { sha256 } from '../../renderer/store/sha256.ts';
import { mapOuting, mapResult, mapSource } from '../support/bagMapPlan.ts';
import { axeFaultsInEveryLook } from './support/axe.ts';
import { rowsOf } from './support/keptStore.ts';
import { pdfOfPages } from './pdfOfPages.ts';
import { button, byCode, field, heading, openTask } from './support/openTask.tsx';

afterEach(() => {
  window.location.hash = '#/';
});

type Opened = Awaited<ReturnType<typeof openTask>>;

const plannedAt = '2026-11-26T08:00:00+01:00';

/** Plans the bag of the task as it stands: the answer of the test. */
function plan({ session }: Opened, result: BagResult = mapResult): void {
  const { planHash } = session.state().atHand ?? { planHash: '' };
  session.keepResult(planHash, { minimised: 'mass', timeLimitS: null, plannedAt, result });
}

async function freezeAs(number: number, why: string): Promise<void> {
  await userEvent.click(button(`Freeze as revision ${number}…`));
  await userEvent.fill(field('Why it is frozen'), why);
  await userEvent.click(button(`Freeze as revision ${number}`));
  await expect.element(heading(`Revision ${number}`)).toBeVisible();
}

/** A serial is no word of the plan: the bag stays, and the manifest is another. */
async function edit(opened: Opened, code: string, change: object): Promise<void> {
  const item = (await byCode(opened.store, 'items')).get(code);
  if (item === undefined) throw new Error(`${code} is not kept`);
  const put = { ...item, ...change } as RecordOf<'items'>;
  await opened.store.commit({ action: 'edit-item', title: `Edit ${code}`, proposals: [{ table: 'items', put }] });
}

/** The bag holds one wipe more, and one tether lies with the wipes. */
const other: BagResult = {
  ...mapResult,
  outings: [
    {
      ...mapOuting,
      items: [
        ...mapOuting.items.filter(({ id }) => id !== 'T-07' && id !== 'W-10'),
        { id: 'T-07', quantity: 2, bag: 'C', because: ['turn'] },
        { id: 'T-07', quantity: 1, bag: 'L', because: ['turn'] },
        { id: 'W-10', quantity: 3, bag: 'Z', because: ['wipe'] },
      ],
    },
  ],
};

const cells = (): string[][] =>
  [...document.querySelectorAll('.bw-rev-compared tbody tr')].map((row) =>
    [...row.querySelectorAll('th, td')].map((cell) => cell.textContent ?? ''),
  );

describe('freezing', () => {
  it('asks for name, role and reason, and keeps the state under the next number, for good', async () => {
    const opened = await openTask(mapSource, '#/revisions');
    const { store, session, taskId } = opened;
    await expect.element(page.getByText(/There is no bag of this state of the task: plan it first/)).toBeVisible();
    await userEvent.click(button('Freeze as revision 1…'));
    await expect.element(page.getByRole('dialog')).toHaveTextContent(/It cannot be frozen yet/);
    await expect.element(button('Freeze as revision 1')).not.toBeInTheDocument();
    await userEvent.click(button('Leave it open'));
    plan(opened);
    await expect.element(page.getByText('Not frozen yet')).toBeVisible();
    await userEvent.click(button('Freeze as revision 1…'));
    await userEvent.click(button('Freeze as revision 1'));
    for (const what of ['Your name', 'Your role', 'Why it is frozen'])
      await expect.element(page.getByText(`${what} is missing.`)).toBeVisible();
    expect((await rowsOf(store, 'revisions')).size).toBe(0);
    await userEvent.fill(field('Your name'), '  P. Packer ');
    await userEvent.fill(field('Your role'), 'packer');
    await userEvent.fill(field('Why it is frozen'), 'First issue');
    expect(await axeFaultsInEveryLook()).toEqual([]);
    await userEvent.click(button('Freeze as revision 1'));
    await expect.element(heading('Revision 1')).toBeVisible();
    const [kept] = [...(await rowsOf(store, 'revisions')).values()];
    if (kept === undefined) throw new Error('nothing was frozen');
    expect(kept).toMatchObject({
      task: taskId,
      number: 1,
      why: 'First issue',
      by: { name: 'P. Packer', role: 'packer' },
    });
    expect(kept.content.planText).toBe(session.state().atHand?.text);
    expect(kept.content.result).toEqual(mapResult);
    expect(await contentHash(kept.content, sha256)).toBe(kept.hash);
    await expect.element(page.getByText('is what its hash says')).toBeVisible();
    await expect.element(page.getByText('As revision 1: nothing differs')).toBeVisible();
    // Named once, a person is asked no more; and no undo takes it away.
    expect(session.state().preferences).toMatchObject({ person: 'P. Packer', personRole: 'packer' });
    expect(store.history().undo?.title).not.toMatch(/Freeze/);
  });

  it('says where nothing differs, and refuses while a change is not saved', async () => {
    const opened = await openTask(mapSource, '#/revisions');
    opened.session.prefer({ person: 'P. Packer', personRole: 'packer' });
    plan(opened);
    await freezeAs(1, 'First issue');
    await userEvent.click(button('Freeze as revision 2…'));
    await expect.element(page.getByRole('dialog')).toHaveTextContent(/Nothing differs from revision 1/);
    const { saving } = opened.store;
    const notSaved = { kind: 'not-saved', reason: 'the disk is full' } as const;
    opened.store.saving = () => notSaved;
    await userEvent.fill(field('Why it is frozen'), 'Once more');
    await userEvent.click(button('Freeze as revision 2'));
    await expect.element(page.getByRole('alert')).toHaveTextContent(/NOT SAVED: the disk is full/);
    opened.store.saving = saving;
    expect((await rowsOf(opened.store, 'revisions')).size).toBe(1);
  });

  it('keeps a task with its frozen manifests, and says so', async () => {
    const opened = await openTask(mapSource, '#/revisions');
    opened.session.prefer({ person: 'P. Packer', personRole: 'packer' });
    plan(opened);
    await freezeAs(1, 'First issue');
    window.location.hash = '#/';
    await userEvent.click(page.getByRole('button', { name: /^Remove/ }).first());
    await expect
      .element(page.getByRole('dialog'))
      .toHaveTextContent(/1 frozen manifest of .* is kept .* never removed/);
    expect(
      page
        .getByRole('dialog')
        .getByRole('button', { name: /^Remove/ })
        .elements(),
    ).toEqual([]);
    await userEvent.click(button('Keep it'));
  });
});

describe('frozen manifests held against each other', () => {
  it('tell what came, went, moved and reads otherwise, on the screen, in the file and in print', async () => {
    const opened = await openTask(mapSource, '#/revisions');
    const { host, session } = opened;
    const made: DocumentToPrint[] = [];
    host.makePdf = (document) => {
      made.push(document);
      return Promise.resolve(pdfOfPages(1));
    };
    session.prefer({ person: 'P. Packer', personRole: 'packer' });
    plan(opened);
    await freezeAs(1, 'First issue');
    await edit(opened, 'R-38', { tag: 12, keptAt: 'drawer 3' });
    await expect.element(page.getByText('Differs from revision 1 in 1 point')).toBeVisible();
    plan(opened, other);
    await expect.element(page.getByText('Differs from revision 1 in 3 points')).toBeVisible();
    await freezeAs(2, 'A wipe more');
    await expect.element(page.getByText(/2 lines and 1 thing differ\. 2 lines are the same\./)).toBeVisible();
    expect(cells()).toEqual([
      ['Tool tetherT-07', 'moved to another bag', '1 piece in Common box', '1 piece in Lead’s bag'],
      ['WipesW-10', 'other quantity: 1 more', '2 pieces in Second’s bag', '3 pieces in Second’s bag'],
      ['RatchetR-38', 'tag', 'not said', '12'],
      ['kept at', 'not said', 'drawer 3'],
    ]);
    expect(await axeFaultsInEveryLook()).toEqual([]);
    await userEvent.click(button('Save comparison as CSV…'));
    await expect.poll(() => host.saved.length).toBe(1);
    const file = host.saved[0];
    expect(file?.name).toBe('compared_M-1_1_2.csv');
    const lines = new TextDecoder().decode(file?.bytes).trim().split('\r\n');
    expect(lines[0]).toMatch(/part,what,code,how,Revision 1,Revision 2$/);
    expect(lines).toHaveLength(5);
    await userEvent.selectOptions(field('Held against'), 'open');
    await expect.element(page.getByText(/^Nothing differs\./)).toBeVisible();
    window.location.hash = '#/frozen/2/compared/1';
    await expect.poll(() => made.length).toBeGreaterThan(0);
    expect(made.at(-1)?.title).toBe('Compared: M-1, Revision 1 and Revision 2');
    expect(made.at(-1)?.html).toMatch(/other quantity: 1 more/);
    expect(made.at(-1)?.html).toMatch(/packer<\/bdi>|by P\. Packer, packer: A wipe more/);
  });
});

describe('the sheets of a revision', () => {
  it('are printed from what was frozen, whatever was edited since, with its number and its hash', async () => {
    const opened = await openTask(mapSource, '#/revisions');
    const { host, session, store } = opened;
    const made: DocumentToPrint[] = [];
    const bytes = pdfOfPages(2);
    host.makePdf = (document) => {
      made.push(document);
      return Promise.resolve(bytes);
    };
    session.prefer({ person: 'P. Packer', personRole: 'packer' });
    plan(opened);
    await edit(opened, 'R-38', { tag: 12 });
    await freezeAs(1, 'First issue');
    const [revision] = [...(await rowsOf(store, 'revisions')).values()];
    await edit(opened, 'W-10', { name: 'Wipes of another make', mass: '1 kg' });
    await userEvent.click(page.getByRole('link', { name: 'Manifest of revision 1' }));
    await expect.element(page.getByRole('group', { name: 'Page 1 of 2' })).toBeVisible();
    const printed = made.at(-1)?.html ?? '';
    expect(made.at(-1)?.title).toMatch(/^Manifest: Invented: cover of a pump, Only outing/);
    // As strings of the page's margins stand, signs but letters, figures and blanks are escaped.
    expect(printed).toContain('Revision\\3a  1"');
    const short = `${revision?.hash.slice(0, 4)} ${revision?.hash.slice(4, 8)}`;
    expect(printed.split(`Content ${short}`).length).toBeGreaterThan(1);
    expect(printed).toContain(revision?.hash.slice(0, 8));
    expect(printed).toContain('<bdi>label 12</bdi>');
    expect(printed).toContain('<bdi>Wipes</bdi>');
    expect(printed).not.toContain('another make');
    const before = made.length;
    await userEvent.click(button('Save PDF…'));
    await expect.poll(() => host.saved.length).toBe(1);
    expect(host.saved[0]?.bytes).toBe(bytes);
    expect(host.saved[0]?.name).toBe('manifest_M-1_o_revision_1_' + (revision?.at.slice(0, 10) ?? '') + '.pdf');
    expect(made).toHaveLength(before);
    await userEvent.click(page.getByRole('link', { name: 'Cards of revision 1' }));
    await expect.poll(() => made.at(-1)?.title).toMatch(/^Step cards:/);
    expect(made.at(-1)?.html).toContain(`Content ${short}`);
    expect(made.at(-1)?.html).toContain('Revision\\3a  1"');
    // Where the open plan has no bag any more, its frozen manifest is found all the same.
    window.location.hash = '#/manifest';
    await expect.element(heading('No manifest yet')).toBeVisible();
    await expect.element(page.getByText(/Revision 1 is the newest/)).toBeVisible();
  });

  it('are not made of a revision that is not there', async () => {
    await openTask(mapSource, '#/frozen/7/manifest');
    await expect.element(heading('There is no revision 7 of this task')).toBeVisible();
  });
});

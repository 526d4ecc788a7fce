import { beforeEach, describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { ConflictError, NotSavedError } from '../../renderer/store/store.ts';
import type { Conflict } from '../../renderer/store/store.ts';
import { ChoiceField } from '../../renderer/components/Fields/ChoiceField.tsx';
import { LinesField } from '../../renderer/components/Fields/LinesField.tsx';
import { NumberField } from '../../renderer/components/Fields/NumberField.tsx';
import { TextField } from '../../renderer/components/Fields/TextField.tsx';
import { YesNoField } from '../../renderer/components/Fields/YesNoField.tsx';
import { QuantityField } from '../../renderer/components/QuantityField/QuantityField.tsx';
import { RecordForm } from '../../renderer/components/RecordForm/RecordForm.tsx';
import type { Draft } from '../../renderer/components/RecordForm/draft.ts';
import type { Fault } from '../../renderer/components/RecordForm/faultFields.ts';
import { draftsOnDisk } from '../../renderer/components/RecordForm/draftsOnDisk.ts';
import { bringDraftsBack, keepDraft } from '../../renderer/components/RecordForm/keptDraft.ts';
import { useRecordForm } from '../../renderer/components/RecordForm/useRecordForm.ts';
import { hostileTexts } from './hostileTexts.ts';
import { shown } from './shown.tsx';
import { patience } from '../support/patience.ts';

const initial: Draft = { rev: 3, id: 'k1', code: 'S-18D', length: '2.50 in', parts: 1 };

function faultsOf(draft: Draft): Fault[] {
  return [
    ...(draft['code'] === undefined ? [{ path: 'code', message: 'is missing' }] : []),
    ...(draft['length'] === undefined ? [{ path: 'length', message: 'is missing' }] : []),
  ];
}

interface TestFormProps {
  save: (draft: Draft, over: readonly unknown[]) => Promise<unknown>;
  onSaved?: () => void;
  onLeave?: () => void;
  keepAs?: string;
  isKept?: (draft: Draft) => boolean;
}

const nothing = (): void => undefined;
const never = (): boolean => false;

function TestForm({ save, onSaved = nothing, onLeave = nothing, keepAs, isKept = never }: TestFormProps) {
  const form = useRecordForm({ initial, faultsOf, isKept, ...(keepAs === undefined ? {} : { keepAs }) });
  return (
    <RecordForm
      form={form}
      heading="Edit S-18D"
      saveLabel="Save S-18D"
      save={(over) => save(form.draft, over)}
      onSaved={onSaved}
      onLeave={onLeave}
    >
      <TextField {...form.text('code', 'Code')} />
      <QuantityField kind="length" {...form.text('length', 'Length')} />
      <NumberField whole {...form.number('parts', 'Parts')} />
      <YesNoField optional {...form.yesNo('captive', 'Captive')} />
      <ChoiceField choices={[{ value: 'field', label: 'Field' }]} {...form.choice('kit', 'Kit')} />
      <LinesField optional {...form.lines('settings', 'Settings')} />
    </RecordForm>
  );
}

const saveButton = () => page.getByRole('button', { name: 'Save S-18D' });

/** Where this window keeps what was typed in a form. */
const here = (form: string): string => `bagwright-draft:@${sessionStorage.getItem('bagwright-window') ?? ''}:${form}`;
const formsOnDisk = async () => (await draftsOnDisk()).map(({ name }) => name.replace(/^.*:/, ''));

beforeEach(() => localStorage.clear());

describe('a form', () => {
  it('hands over what was typed, each field in its own type', async () => {
    const save = vi.fn(async (draft: Draft) => draft);
    const onSaved = vi.fn();
    await shown(<TestForm save={save} onSaved={onSaved} />);
    await expect.element(page.getByLabelText('Code')).toHaveFocus();
    await userEvent.fill(page.getByLabelText('Length (with unit)'), '63.5 mm');
    await userEvent.fill(page.getByLabelText('Parts'), '2.');
    await expect.element(page.getByLabelText('Parts')).toHaveValue('2.');
    await userEvent.selectOptions(page.getByLabelText('Captive, optional'), 'No');
    await userEvent.selectOptions(page.getByLabelText('Kit'), 'Field');
    await userEvent.fill(page.getByLabelText('Settings, optional, one on each line'), ' 10 N·m \n\n20 N·m\n');
    await userEvent.click(saveButton());
    await vi.waitFor(() => expect(onSaved).toHaveBeenCalledOnce(), patience);
    expect(save.mock.calls[0]?.[0]).toEqual({
      ...initial,
      length: '63.5 mm',
      parts: 2,
      captive: false,
      kit: 'field',
      settings: ['10 N·m', '20 N·m'],
    });
  });

  it('says what is wrong on top in the same words as at the field, and moves the focus there', async () => {
    const save = vi.fn(async () => undefined);
    await shown(<TestForm save={save} />);
    await userEvent.clear(page.getByLabelText('Code'));
    await userEvent.clear(page.getByLabelText('Length (with unit)'));
    await userEvent.keyboard('{Control>}{Enter}{/Control}');
    await expect.element(page.getByRole('heading', { name: '2 fields to mend' })).toHaveFocus();
    await expect.element(page.getByLabelText('Code')).toHaveAccessibleDescription('Code is missing.');
    await userEvent.click(page.getByRole('button', { name: 'Length is missing.' }));
    await expect.element(page.getByLabelText('Length (with unit)')).toHaveFocus();
    await userEvent.keyboard('2 in');
    await expect.element(page.getByRole('heading', { name: '1 field to mend' })).toBeInTheDocument();
    expect(save).not.toHaveBeenCalled();
  });

  it('says Saving while it waits and saves once', async () => {
    let finish: (() => void) | undefined;
    const save = vi.fn(() => new Promise<void>((resolve) => (finish = resolve)));
    await shown(<TestForm save={save} />);
    await userEvent.click(saveButton());
    await expect.element(page.getByRole('button', { name: 'Saving…' })).toBeInTheDocument();
    await userEvent.keyboard('{Control>}{Enter}{/Control}');
    finish?.();
    await expect.element(saveButton()).toBeInTheDocument();
    expect(save).toHaveBeenCalledOnce();
  });

  it('that was not saved says why and keeps every entry', async () => {
    const save = vi.fn<() => Promise<unknown>>().mockRejectedValueOnce(new NotSavedError('The disk is full.'));
    const onSaved = vi.fn();
    await shown(<TestForm save={save} onSaved={onSaved} />);
    await userEvent.fill(page.getByLabelText('Code'), 'S-18X');
    await userEvent.click(saveButton());
    await expect.element(page.getByRole('alert')).toHaveTextContent('NOT SAVED');
    await expect.element(page.getByRole('alert')).toHaveTextContent('The disk is full.');
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18X');
    expect(onSaved).not.toHaveBeenCalled();
    await userEvent.click(saveButton());
    await vi.waitFor(() => expect(onSaved).toHaveBeenCalledOnce(), patience);
  });

  it('asks on Escape before entries are lost, and leaves at once where there are none', async () => {
    const onLeave = vi.fn();
    await shown(<TestForm save={async () => undefined} onLeave={onLeave} />);
    await userEvent.fill(page.getByLabelText('Code'), 'S-18X');
    await userEvent.keyboard('{Escape}');
    await expect.element(page.getByRole('dialog', { name: 'Leave "Edit S-18D"?' })).toBeInTheDocument();
    await userEvent.keyboard('{Escape}');
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18X');
    expect(onLeave).not.toHaveBeenCalled();
    await userEvent.keyboard('{Escape}');
    await userEvent.click(page.getByRole('button', { name: 'Leave without saving' }));
    expect(onLeave).toHaveBeenCalledOnce();
    await userEvent.click(page.getByLabelText('Code'));
    await userEvent.keyboard('{Escape}');
    expect(onLeave).toHaveBeenCalledTimes(2);
  });

  it('brings entries back that a page lost, until they are saved or given up', async () => {
    const first = await shown(<TestForm save={async () => undefined} keepAs="test" />);
    await userEvent.fill(page.getByLabelText('Code'), 'S-18X');
    await vi.waitFor(() => expect(localStorage.getItem(here('test'))).toContain('S-18X'), patience);
    await first.unmount();
    await shown(<TestForm save={async () => undefined} keepAs="test" />);
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18X');
    await expect.element(page.getByText('Entries that were not saved are back.')).toBeInTheDocument();
    await userEvent.click(page.getByRole('button', { name: 'Begin again from what is kept' }));
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18D');
    expect(localStorage.getItem(here('test'))).toBeNull();
  });

  it('brings back from the disk what the browser’s plain storage has not taken there, and nothing that was given up', async () => {
    const first = await shown(<TestForm save={async () => undefined} keepAs="killed" />);
    await userEvent.fill(page.getByLabelText('Code'), 'S-18X');
    await vi.waitFor(() => expect(localStorage.getItem(here('killed'))).toContain('S-18X'), patience);
    await first.unmount();
    await vi.waitFor(async () => expect(await formsOnDisk()).toContain('killed'), patience);
    // As after `kill -9` of the browser within its first seconds.
    localStorage.clear();
    await bringDraftsBack();
    const second = await shown(<TestForm save={async () => undefined} keepAs="killed" />);
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18X');
    const typed = localStorage.getItem(here('killed')) ?? '';
    await userEvent.click(page.getByRole('button', { name: 'Begin again from what is kept' }));
    await vi.waitFor(
      async () =>
        expect((await draftsOnDisk()).find(({ name }) => name.endsWith(':killed'))).toMatchObject({ text: null }),
      patience,
    );
    await second.unmount();
    // The plain storage as it was before that reached the disk: once, and again after a page that was loaded in between.
    for (let kill = 0; kill < 2; kill += 1) {
      localStorage.setItem(here('killed'), typed);
      await bringDraftsBack();
      expect(localStorage.getItem(here('killed'))).toBeNull();
      await bringDraftsBack();
      await new Promise((resolve) => setTimeout(resolve, 200));
      expect(await formsOnDisk()).toContain('killed');
    }
    // Long after, it is gone there too.
    vi.spyOn(Date, 'now').mockReturnValue(Date.now() + 11 * 60_000);
    await bringDraftsBack();
    vi.restoreAllMocks();
    await vi.waitFor(async () => expect(await formsOnDisk()).not.toContain('killed'), patience);
  });

  it('does not bring back what was saved after all', async () => {
    const at = new Date().toISOString();
    keepDraft('saved', { draft: { ...initial, rev: 2 }, at });
    keepDraft('new', { draft: { id: 'k7', rev: 0, code: 'S-19' }, at });
    const first = await shown(<TestForm save={async () => undefined} keepAs="saved" />);
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18D');
    await expect.element(page.getByText('Entries that were not saved are back.')).not.toBeInTheDocument();
    await first.unmount();
    await shown(<TestForm save={async () => undefined} keepAs="new" isKept={({ id }) => id === 'k7'} />);
    await expect.element(page.getByLabelText('Code')).toHaveValue('S-18D');
    await vi.waitFor(() => expect(localStorage.getItem(here('new'))).toBeNull(), patience);
  });

  it('shows hostile entries as text', async () => {
    await shown(<TestForm save={() => Promise.reject(new NotSavedError(hostileTexts.join(' ')))} />);
    await userEvent.click(saveButton());
    await expect.element(page.getByRole('alert')).toHaveTextContent('<img');
    expect(document.querySelector('[role=alert] img, [role=alert] script')).toBeNull();
  });
});

const kept = { ...initial, rev: 4, length: '70 mm' };
const mine = { ...initial, length: '63.5 mm' };
const conflict = { table: 'items', id: 'k1', mine, kept } as unknown as Conflict;

describe('a conflict', () => {
  it('shows both versions where they differ, and writes nothing until one is chosen', async () => {
    const save = vi
      .fn<TestFormProps['save']>()
      .mockRejectedValueOnce(new ConflictError([conflict]))
      .mockResolvedValue(undefined);
    const onSaved = vi.fn();
    await shown(<TestForm save={save} onSaved={onSaved} />);
    await userEvent.fill(page.getByLabelText('Length (with unit)'), '63.5 mm');
    await userEvent.click(saveButton());
    const dialog = page.getByRole('dialog', { name: 'Changed meanwhile: nothing was saved' });
    await expect.element(dialog).toBeInTheDocument();
    expect([...document.querySelectorAll('.bw-conflict tbody tr')].map((row) => row.textContent)).toEqual([
      'Length70 mm63.5 mm',
    ]);
    await userEvent.click(dialog.getByRole('button', { name: 'Go on editing' }));
    await expect.element(page.getByLabelText('Length (with unit)')).toHaveValue('63.5 mm');
    expect(save).toHaveBeenCalledOnce();
    save
      .mockReset()
      .mockRejectedValueOnce(new ConflictError([conflict]))
      .mockResolvedValue(undefined);
    await userEvent.click(saveButton());
    await userEvent.click(page.getByRole('button', { name: 'Put mine in its place' }));
    await vi.waitFor(() => expect(onSaved).toHaveBeenCalledOnce(), patience);
    expect(save.mock.calls[1]?.[1]).toEqual([conflict]);
  });

  it('leaves with what is kept where that is chosen', async () => {
    const onLeave = vi.fn();
    const save = vi.fn<TestFormProps['save']>().mockRejectedValue(new ConflictError([conflict]));
    await shown(<TestForm save={save} onLeave={onLeave} />);
    await userEvent.click(saveButton());
    await userEvent.click(page.getByRole('button', { name: 'Keep what is kept now' }));
    expect(onLeave).toHaveBeenCalledOnce();
    expect(save).toHaveBeenCalledOnce();
  });
});

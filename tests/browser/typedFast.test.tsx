/** Lists that follow what is typed as soon as there is time: a hand that is faster than they are gets what it typed all the same. */
import { useState } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { SeekField } from '../../renderer/components/SeekField/SeekField.tsx';
import { asText, shownPlan } from './fixtures/plans.ts';
import { openWindow } from './support/openWindow.tsx';
import { shown } from './shown.tsx';

afterEach(() => {
  window.location.hash = '#/';
});

/** React has the text, and the list has not: it is drawn in a task of its own, and none comes between. */
async function typeAndEnter(name: string, text: string): Promise<string[]> {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement)) throw new Error(`${name} has not the focus`);
  const value = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value');
  value?.set?.call(field, text);
  field.dispatchEvent(new InputEvent('input', { bubbles: true }));
  await Promise.resolve();
  await Promise.resolve();
  const options = [...document.querySelectorAll('[role=option]')].map((option) => option.textContent);
  field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
  return options;
}

describe('Find or do', () => {
  it('does what was typed, not what the list shows from before', async () => {
    const { bringIn } = await openWindow();
    await bringIn(asText(shownPlan()));
    for (const [typed, place] of [
      ['deep bolt', '#/steps/deep'],
      ['handbook', '#/handbook'],
    ] as const) {
      await userEvent.keyboard('{Control>}k{/Control}');
      await expect.element(page.getByRole('combobox', { name: 'Find or do' })).toHaveFocus();
      const options = await typeAndEnter('Find or do', typed);
      // Else nothing was tried.
      expect(options.length).toBeGreaterThan(20);
      await expect.poll(() => window.location.hash).toContain(place);
    }
  });

  it('does nothing where nothing holds what was typed', async () => {
    await openWindow();
    await userEvent.keyboard('{Control>}k{/Control}');
    await expect.element(page.getByRole('combobox', { name: 'Find or do' })).toHaveFocus();
    expect((await typeAndEnter('Find or do', 'nothing holds this')).length).toBeGreaterThan(20);
    await expect.element(page.getByText('Nothing here holds “nothing holds this”.')).toBeVisible();
    expect(window.location.hash).toBe('#/');
  });
});

describe('a code that is sought', () => {
  const offers = Array.from({ length: 12 }, (_, at) => ({
    code: `S-${at}`,
    words: at === 7 ? 'Deep socket' : 'Socket',
  }));

  function Sought({ onSubmit }: { onSubmit: () => void }) {
    const [value, setValue] = useState('');
    return (
      <form
        onSubmit={(event) => {
          event.preventDefault();
          onSubmit();
        }}
      >
        <SeekField id="f" label="Item" value={value} offers={offers} onChange={setValue} />
      </form>
    );
  }

  it('is the one that was typed for, not the first of the list from before', async () => {
    const submitted = vi.fn();
    await shown(<Sought onSubmit={submitted} />);
    const field = page.getByRole('combobox', { name: 'Item' });
    await userEvent.click(field);
    await expect.element(page.getByRole('option', { name: /S-11/ })).toBeVisible();
    expect(await typeAndEnter('Item', 'deep')).toHaveLength(12);
    await expect.element(field).toHaveValue('S-7');
    await userEvent.fill(field, 'none of them');
    await expect.element(page.getByRole('listbox')).not.toBeInTheDocument();
    expect(await typeAndEnter('Item', 'S-1')).toHaveLength(0);
    await expect.element(field).toHaveValue('S-1');
    expect(submitted).not.toHaveBeenCalled();
  });
});

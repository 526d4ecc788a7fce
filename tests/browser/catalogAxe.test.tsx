import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { render } from 'vitest-browser-react';
import { axeFaults } from './support/axe.ts';
import { openCatalog, socket, torqueTool } from './support/openCatalog.tsx';

const items = [
  socket('S-1', { name: 'Socket 9/16 in', notes: 'Invented.' }),
  socket('S-2', { retired: true }),
  torqueTool('TT-1', { calibrationDue: '2026-11-01' }),
];

describe.each(['light', 'dark'] as const)('the catalog, %s', (scheme) => {
  it('has no fault that axe knows: table, item, form, refusal, dialog', async () => {
    await openCatalog({ items, scheme });
    await userEvent.click(page.getByLabelText('Retired ones too'));
    await userEvent.click(page.getByText('TT-1', { exact: true }));
    expect(await axeFaults()).toEqual([]);
    await userEvent.click(page.getByRole('button', { name: 'Edit', exact: true }));
    await userEvent.fill(page.getByLabelText('Range, most (with unit)'), '75');
    await userEvent.keyboard('{Control>}{Enter}{/Control}');
    await expect.element(page.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
    expect(await axeFaults()).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await expect.element(page.getByRole('dialog')).toBeInTheDocument();
    expect(await axeFaults()).toEqual([]);
  });

  it('has none without a shelf, and where nothing is found', async () => {
    await openCatalog({ shelves: [], scheme });
    await expect.element(page.getByRole('heading', { name: 'No shelf yet' })).toBeInTheDocument();
    expect(await axeFaults()).toEqual([]);
  });

  it('has none with several rows chosen', async () => {
    await openCatalog({ items, scheme });
    await userEvent.click(page.getByText('S-1', { exact: true }));
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    await userEvent.keyboard('{Control>}a{/Control}');
    await expect.element(page.getByRole('heading', { name: '2 items chosen' })).toBeInTheDocument();
    await userEvent.click(page.getByRole('button', { name: 'Set the kit…' }));
    expect(await axeFaults()).toEqual([]);
  });
});

it('is told of a planted fault, so that finding none means something', async () => {
  await render(<p style={{ color: '#ccc', background: '#fff' }}>faint</p>);
  expect(await axeFaults()).toEqual(['color-contrast: p']);
});

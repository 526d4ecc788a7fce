import { useState } from 'react';
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { render } from 'vitest-browser-react';
import { RowGrid } from '../../renderer/components/RowGrid/RowGrid.tsx';
import type { GridRow } from '../../renderer/components/RowGrid/RowGrid.tsx';
import { landing } from '../../renderer/components/RowGrid/landing.ts';
import '../../renderer/styles/base.css';

function rowsOf(count: number): GridRow[] {
  const row = (index: number): GridRow => ({ kind: 'row', id: `r${index}`, cells: () => ({ name: `Row ${index}` }) });
  return [
    { kind: 'group', id: 'g', cells: [{ key: 'title', span: 1, content: 'Group' }] },
    ...Array.from({ length: count }, (_, index) => row(index + 1)),
  ];
}

interface TableProps {
  count: number;
  onOpen?: () => void;
  onEdit?: () => void;
  choosing?: boolean;
}

function Table({ count, onOpen, onEdit, choosing = false }: TableProps) {
  const [selected, setSelected] = useState<string | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  return (
    <div style={{ height: 300, display: 'flex', flexDirection: 'column' }}>
      <button type="button">before</button>
      <RowGrid
        label="Rows"
        columns={[{ key: 'name', label: 'Name', width: '1fr' }]}
        rows={rowsOf(count)}
        selected={selected}
        onSelect={setSelected}
        {...(onOpen === undefined ? {} : { onOpen })}
        {...(onEdit === undefined ? {} : { onEdit })}
        {...(choosing ? { chosen, onChoose: setChosen } : {})}
        empty="Nothing here."
      />
      <button type="button">after</button>
    </div>
  );
}

const focusedIndex = (): string | null => document.activeElement?.getAttribute('aria-rowindex') ?? null;

describe.each([8, 5000])('a table of %i rows', (count) => {
  it('is one tab stop, and keys take another row in hand', async () => {
    await render(<Table count={count} />);
    await userEvent.click(page.getByRole('button', { name: 'before' }));
    await userEvent.keyboard('{Tab}');
    expect(focusedIndex()).toBe('3');
    await userEvent.keyboard('{ArrowDown}');
    expect(focusedIndex()).toBe('4');
    await userEvent.keyboard('{End}');
    expect(focusedIndex()).toBe(String(count + 2));
    await expect.element(page.getByText(`Row ${count}`, { exact: true })).toBeInViewport();
    await userEvent.keyboard('{ArrowDown}');
    expect(focusedIndex()).toBe(String(count + 2));
    await userEvent.keyboard('{Home}');
    expect(focusedIndex()).toBe('3');
    await userEvent.keyboard('{PageDown}');
    expect(Number(focusedIndex())).toBeGreaterThan(4);
    await userEvent.keyboard('{Control>}{End}{/Control}');
    expect(focusedIndex()).toBe(String(count + 2));
    await userEvent.keyboard('{Tab}');
    await expect.poll(() => document.activeElement?.textContent).toBe('after');
    expect(document.querySelectorAll('[role=row][tabindex="0"]')).toHaveLength(1);
  });

  it('says how many rows there are and which is which', async () => {
    await render(<Table count={count} />);
    const grid = document.querySelector('[role=grid]');
    expect(grid?.getAttribute('aria-rowcount')).toBe(String(count + 2));
    const drawn = [...document.querySelectorAll('[role=row]')];
    expect(drawn.length).toBeLessThanOrEqual(60);
    const named = drawn.filter((row) => row.textContent?.startsWith('Row '));
    for (const row of named) expect(`Row ${Number(row.getAttribute('aria-rowindex')) - 2}`).toBe(row.textContent);
  });
});

describe('a table', () => {
  it('keeps the focus in a row scrolled out of view', async () => {
    await render(<Table count={5000} />);
    await userEvent.click(page.getByText('Row 2', { exact: true }));
    document.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();
    document.querySelector('[role=grid]')?.scrollTo(0, 60_000);
    await expect.element(page.getByText('Row 2000', { exact: true })).toBeInTheDocument();
    expect(focusedIndex()).toBe('4');
    await userEvent.keyboard('{ArrowDown}');
    expect(focusedIndex()).toBe('5');
  });

  it('opens the sheet beside on Enter', async () => {
    let opened = 0;
    await render(<Table count={3} onOpen={() => (opened += 1)} />);
    await userEvent.click(page.getByText('Row 2', { exact: true }));
    await userEvent.keyboard('{Enter}');
    expect(opened).toBe(1);
  });

  // The keys of a data grid as the ARIA Authoring Practices Guide of the W3C lists them, those of cells apart; F2 edits.
  it('answers twelve keys', async () => {
    const called: string[] = [];
    await render(<Table count={40} onOpen={() => called.push('open')} onEdit={() => called.push('edit')} choosing />);
    await userEvent.click(page.getByRole('button', { name: 'before' }));
    const [first, last] = [3, 42];
    const landings: [keys: string, row: (from: number) => boolean][] = [
      ['{Tab}', (at) => at === first],
      ['{ArrowDown}', (at) => at === first + 1],
      ['{ArrowUp}', (at) => at === first],
      ['{PageDown}', (at) => at > first + 1 && at < last],
      ['{PageUp}', (at) => at === first],
      ['{End}', (at) => at === last],
      ['{Home}', (at) => at === first],
      ['{Control>}{End}{/Control}', (at) => at === last],
      ['{Control>}{Home}{/Control}', (at) => at === first],
    ];
    for (const [keys, isRight] of landings) {
      await userEvent.keyboard(keys);
      expect([keys, focusedIndex(), isRight(Number(focusedIndex()))]).toEqual([keys, focusedIndex(), true]);
    }
    await userEvent.keyboard('{ArrowDown}{Enter}{F2}');
    expect(called).toEqual(['open', 'edit']);
    await userEvent.keyboard(' ');
    const chosen = (): number => document.querySelectorAll('[role=row][aria-selected=true]').length;
    await userEvent.keyboard('{Control>}a{/Control}');
    expect(chosen()).toBe(40);
    await userEvent.keyboard('{Escape}');
    expect(chosen()).toBe(1);
  });

  it('says so when it has no rows', async () => {
    await render(
      <RowGrid label="Rows" columns={[]} rows={[]} selected={null} onSelect={() => undefined} empty="Nothing here." />,
    );
    await expect.element(page.getByText('Nothing here.')).toBeVisible();
  });

  it('never lands on a heading', () => {
    const rows = [1, 3];
    expect(landing(rows, { from: 1, key: 'ArrowDown', page: 5 })).toBe(3);
    expect(landing(rows, { from: 3, key: 'Home', page: 5 })).toBe(1);
    expect(landing(rows, { from: 1, key: 'q', page: 5 })).toBeNull();
    expect(landing([], { from: -1, key: 'End', page: 5 })).toBeNull();
  });
});

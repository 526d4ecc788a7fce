import { expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { smallPlan } from '../support/smallPlan.ts';
import { axeFaults } from './support/axe.ts';
import { openWindow } from './support/openWindow.tsx';

const field = (label: string | RegExp) => page.getByLabelText(label);
const result = () => document.querySelector('.bw-bench-result')?.textContent ?? '';

async function go(hash: string, heading: string): Promise<void> {
  window.location.hash = hash;
  await expect.element(page.getByRole('heading', { level: 1, name: heading })).toBeInTheDocument();
}

/** What the copy event was given while something is done. */
async function copiedBy(deed: () => Promise<void>): Promise<string> {
  let text = '';
  const onCopy = (event: ClipboardEvent): void => {
    text = event.clipboardData?.getData('text/plain') ?? '';
  };
  // The page stops the event where it fills it; a listener of the same target that stands before it would see nothing yet.
  const setData = DataTransfer.prototype.setData;
  DataTransfer.prototype.setData = function (format: string, data: string): void {
    if (format === 'text/plain') text = data;
    setData.call(this, format, data);
  };
  document.addEventListener('copy', onCopy);
  try {
    await deed();
  } finally {
    DataTransfer.prototype.setData = setData;
    document.removeEventListener('copy', onCopy);
  }
  return text;
}

it('computes as one types, says refusals at their field, keeps entries and results, copies and saves', async () => {
  localStorage.clear();
  const { bringIn, store, host, session } = await openWindow();
  await go('#/bench/setting', 'Setting with an offset head');
  await expect.element(page.getByText('29.0 lbf·ft', { exact: true })).toBeInTheDocument();

  // Live, without leaving the field; what was typed stays as typed.
  await userEvent.fill(field('Head offset E, optional (with unit)'), '4 in');
  await expect.element(page.getByText('26.5 lbf·ft', { exact: true })).toBeInTheDocument();
  await expect.element(field('Head offset E, optional (with unit)')).toHaveValue('4 in');
  await userEvent.fill(field('Callout, least (with unit)'), '40');
  expect(document.querySelector('.bw-bench-form .mantine-InputWrapper-error')).toBeNull();
  await userEvent.tab();
  await expect.element(page.getByText(/"40" has no unit/).first()).toBeInTheDocument();
  await expect.element(field('Callout, least (with unit)')).toHaveAttribute('aria-invalid', 'true');
  await expect.element(page.getByText('Not computed.')).toBeInTheDocument();

  // Sent with a mistake: the summary takes the focus, in the same words, and leads to the field.
  await userEvent.click(page.getByRole('button', { name: 'Keep with a task…' }));
  await expect.element(page.getByRole('heading', { name: '1 field to mend' })).toHaveFocus();
  const said = document.querySelector('.bw-bench-form .mantine-InputWrapper-error')?.textContent;
  expect(document.querySelector('.bw-refused li')?.textContent).toBe(said);
  await userEvent.click(page.getByRole('button', { name: /has no unit/ }));
  await expect.element(field('Callout, least (with unit)')).toHaveFocus();
  expect(await axeFaults()).toEqual([]);
  await userEvent.fill(field('Callout, least (with unit)'), '30 lbf·ft');
  await expect.element(page.getByText('26.5 lbf·ft', { exact: true })).toBeInTheDocument();

  // Entries outlive the hall.
  await go('#/bench/convert', 'Convert a torque');
  await go('#/bench/setting', 'Setting with an offset head');
  await expect.element(field('Head offset E, optional (with unit)')).toHaveValue('4 in');

  const text = await copiedBy(() => userEvent.click(page.getByRole('button', { name: 'Copy', exact: true })));
  expect(text).toContain('Set the tool to: 26.5 lbf·ft (35.9 N·m) (Conforming)');
  expect(text).toContain('Head offset E: 4 in');
  expect(text).toContain('set = applied · L/(L + E cos θ)');
  await expect.element(page.getByText('Copied as text.')).toBeInTheDocument();

  // Kept with the task at hand, word for word, and there again after the entries have changed.
  const task = await bringIn(JSON.stringify(smallPlan()));
  await userEvent.click(page.getByRole('button', { name: `Keep with ${task.task.code}…` }));
  await userEvent.click(page.getByRole('button', { name: `Keep with ${task.task.code}`, exact: true }));
  const link = page.getByRole('link', { name: 'Setting with an offset head, 26.5 lbf·ft (35.9 N·m)' });
  await expect.element(link).toBeInTheDocument();
  expect([...store.table('notes').state().rows.values()]).toMatchObject([
    { task: task.id, sheet: 'setting', typed: { offset: '4 in' }, text, rev: 1 },
  ]);
  await userEvent.click(page.getByRole('button', { name: 'Clear' }));
  await expect.element(page.getByText(/Put in, to see the result: Callout, least/)).toBeInTheDocument();
  await userEvent.click(link);
  await expect.element(page.getByText(/as it was shown then/)).toBeInTheDocument();
  expect(document.querySelector('.bw-bench-text')?.textContent).toBe(text);
  await userEvent.click(page.getByRole('button', { name: 'Put its entries in again' }));
  await expect.element(field('Head offset E, optional (with unit)')).toHaveValue('4 in');

  // The plots: data as a table, and as files of their own.
  session.prefer({ scheme: 'dark' });
  await go('#/bench/preload', 'Torque and preload');
  await expect.element(page.getByRole('img', { name: /^Preload against seating torque/ })).toBeInTheDocument();
  await userEvent.click(page.getByText('As table'));
  await expect.element(page.getByRole('columnheader', { name: 'Least preload' })).toBeVisible();
  expect(await axeFaults()).toEqual([]);
  await userEvent.click(page.getByRole('button', { name: 'Save as SVG…' }));
  await userEvent.click(page.getByRole('button', { name: 'Save as PNG…' }));
  await expect.poll(() => host.saved.length).toBe(2);
  const [svg, png] = host.saved;
  expect(svg?.name).toBe('preload-against-torque.svg');
  const drawing = new DOMParser().parseFromString(new TextDecoder().decode(svg?.bytes), 'image/svg+xml');
  expect(drawing.querySelector('parsererror')).toBeNull();
  expect(drawing.documentElement.textContent).toContain('proof load');
  expect(drawing.documentElement.textContent).toContain('SAE J429');
  // Light colours on a light ground, whatever the window shows; no class or variable is left to explain them.
  expect(drawing.querySelector('[class], [style*="var("]')).toBeNull();
  expect(drawing.querySelector('text[fill="rgb(22, 36, 43)"]')).not.toBeNull();
  expect(drawing.querySelector('text[fill="rgb(0, 0, 0)"]')).toBeNull();
  expect([...(png?.bytes.subarray(1, 4) ?? [])].map((byte) => String.fromCharCode(byte)).join('')).toBe('PNG');
  expect(result()).toContain('Torque and lifting can hurt people.');
});

import { useState } from 'react';
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { QuantityField } from '../../renderer/components/QuantityField/QuantityField.tsx';
import type { EntryKind } from '../../renderer/components/QuantityField/QuantityField.tsx';
import { readEntry } from '../../renderer/components/QuantityField/readEntry.ts';
import { shown } from './shown.tsx';

function Field({ kind, error }: { kind: EntryKind; error?: string }) {
  const [value, setValue] = useState('');
  return <QuantityField id="f" label="Rated torque" kind={kind} value={value} onChange={setValue} error={error} />;
}

describe('a quantity field', () => {
  it('says the other unit while it is typed and keeps the entry as typed', async () => {
    await shown(<Field kind="torque" />);
    const input = page.getByLabelText('Rated torque (with unit)');
    await userEvent.type(input, '45 ft-lb');
    await expect.element(input).toHaveValue('45 ft-lb');
    await expect.element(input).toHaveAccessibleDescription('45 lbf·ft · 61 N·m · kept as typed');
    await expect.element(page.getByRole('textbox')).toBeInTheDocument();
  });

  it('refuses beside itself once the hand has left, and not before', async () => {
    await shown(<Field kind="torque" />);
    const input = page.getByLabelText('Rated torque (with unit)');
    await userEvent.type(input, '165');
    await expect.element(input).not.toHaveAttribute('aria-invalid', 'true');
    await userEvent.tab();
    await expect.element(input).toHaveAttribute('aria-invalid', 'true');
    await expect
      .element(input)
      .toHaveAccessibleDescription('"165" has no unit: write it with one, as "165 N·m" or "165 lbf·ft".');
  });

  it('says what the form found in place of its own words', async () => {
    await shown(<Field kind="length" error="Length is missing." />);
    await expect
      .element(page.getByLabelText('Rated torque (with unit)'))
      .toHaveAccessibleDescription('Length is missing.');
  });
});

describe('an entry', () => {
  it.each<[EntryKind, string, string]>([
    ['length', '2.50 in', '63.50 mm · kept as typed'],
    ['length', '63.5mm', '63.5 mm · 2.5000 in · kept as typed'],
    ['mass', '0.335 lb', '0.1520 kg · kept as typed'],
    ['volume', '0.2 L', '12 in3 · kept as typed'],
    ['torque', '61 N·m', '45.0 lbf·ft · kept as typed'],
    ['drive', '10 mm', '0.394 in · 3/8 in square · kept as typed'],
    ['head-size', '9/16 in', '14.29 mm · kept as typed'],
    ['head-size', 'T27', 'hexalobular size by its name · kept as typed'],
  ])('%s "%s" means %s', (kind, text, said) => {
    expect(readEntry(kind, text)).toEqual({ kind: 'read', said });
  });

  // Every refusal quotes the entry and shows two right spellings.
  it.each<[EntryKind, string]>([
    ['torque', '165'],
    ['torque', '1,250 lbf·in'],
    ['torque', '45 nm'],
    ['torque', '45 kg·m'],
    ['torque', '45 mm'],
    ['torque', 'lbf·ft'],
    ['torque', '-5 N·m'],
    ['torque', '∞ N·m'],
    ['torque', '0x10 N·m'],
    ['torque', '10 N·m 12 N·m'],
    ['length', '½ in'],
    ['length', '165'],
    ['length', '12 furlong'],
    ['length', '3/0 in'],
    ['mass', '2 lbf'],
    ['mass', '1 250 g'],
    ['volume', '3 in'],
    ['drive', '7/16 in'],
    ['drive', '3/8'],
    ['head-size', '14'],
    ['head-size', '3-Apr'],
  ])('%s "%s" is refused, quoted, with two spellings', (kind, text) => {
    const reading = readEntry(kind, text);
    expect(reading.kind).toBe('refused');
    const why = reading.kind === 'refused' ? reading.why : '';
    expect(why.startsWith(`"${text}"`)).toBe(true);
    expect(why).toMatch(/".+" or ".+"|1\/4 in, 3\/8 in/);
  });

  it('of nothing is no refusal: whether it is missing is the form’s to say', () => {
    expect(readEntry('mass', '  ')).toEqual({ kind: 'empty' });
  });
});

import { useState } from 'react';
import { TextInput } from '@mantine/core';
import { Switch } from '../../components/Switch/Switch.tsx';
import { formFault, usualSizes } from './labelForm.ts';
import type { LabelForm, LabelSymbols } from './labelForm.ts';

const symbols = [
  { value: 'both', label: 'Bars and square' },
  { value: 'bars', label: 'Bars' },
  { value: 'square', label: 'Square' },
] as const satisfies { value: LabelSymbols; label: string }[];
const printers = [
  { value: '203', label: '203 dots to the inch' },
  { value: '300', label: '300 dots to the inch' },
] as const;
const ways = [
  { value: 'sheet', label: 'Sheets to cut' },
  { value: 'single', label: 'One by one' },
] as const;

/** What a label carries, for which printer, and how large it is. A size that cannot be is said and not taken. */
export function LabelFields({ form, onForm }: { form: LabelForm; onForm: (form: LabelForm) => void }) {
  return (
    <div className="bw-label-form">
      <Choice name="On the label">
        <Switch
          label="On the label"
          value={form.symbols}
          choices={symbols}
          onChange={(next) => onForm({ ...form, symbols: next, ...usualSizes[next] })}
        />
      </Choice>
      <Choice name="Printer">
        <Switch
          label="Printer"
          value={form.dpi === 203 ? '203' : '300'}
          choices={printers}
          onChange={(next) => onForm({ ...form, dpi: next === '203' ? 203 : 300 })}
        />
      </Choice>
      <Choice name="Printed">
        <Switch label="Printed" value={form.on} choices={ways} onChange={(on) => onForm({ ...form, on })} />
      </Choice>
      <Sizes key={form.symbols} form={form} onForm={onForm} />
    </div>
  );
}

function Choice({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <div className="bw-settings-line">
      <span>{name}</span>
      {children}
    </div>
  );
}

const mmOf = (text: string): number =>
  /^\d{1,3}(?:[.,]\d{1,2})?$/.test(text.trim()) ? Number(text.replace(',', '.')) : NaN;

function Sizes({ form, onForm }: { form: LabelForm; onForm: (form: LabelForm) => void }) {
  const [typed, setTyped] = useState({ wide: String(form.widthMm), high: String(form.heightMm) });
  const asTyped = { ...form, widthMm: mmOf(typed.wide), heightMm: mmOf(typed.high) };
  const fault = formFault(asTyped);
  const type = (next: typeof typed): void => {
    setTyped(next);
    onForm({ ...form, widthMm: mmOf(next.wide), heightMm: mmOf(next.high) });
  };
  return (
    <div className="bw-label-sizes">
      <TextInput
        label="Label width, mm"
        value={typed.wide}
        inputMode="decimal"
        onChange={({ currentTarget: { value } }) => type({ ...typed, wide: value })}
      />
      <TextInput
        label="Label height, mm"
        value={typed.high}
        inputMode="decimal"
        onChange={({ currentTarget: { value } }) => type({ ...typed, high: value })}
      />
      {fault === null ? null : (
        <p className="bw-label-fault" role="alert">
          Not printed: {fault}.
        </p>
      )}
    </div>
  );
}

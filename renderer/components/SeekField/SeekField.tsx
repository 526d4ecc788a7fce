import { useDeferredValue, useMemo, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { TextInput } from '@mantine/core';
import { labelText } from '../Fields/fieldProps.ts';
import type { FieldProps } from '../Fields/fieldProps.ts';
import { offersFor } from './offersFor.ts';
import type { Offer } from './offersFor.ts';
import './SeekField.css';

export interface SeekFieldProps extends FieldProps<string> {
  offers: readonly Offer[];
  onChange: (text: string) => void;
  /** Said of a text that is no offer's code. */
  unknown?: string;
}

/** A code found by typing it, or words of what bears it. Anything else may stand too: the field says that it is unknown. */
export function SeekField(props: SeekFieldProps) {
  const { id, value = '', offers, onChange, error, description, unknown } = props;
  const [open, setOpen] = useState(false);
  const [moved, setMoved] = useState<number | null>(null);
  const asked = useDeferredValue(value);
  const chosen = useMemo(() => offers.find(({ code }) => code === value.trim()), [offers, value]);
  const found = useMemo(() => (open ? offersFor(offers, asked) : []), [open, offers, asked]);
  const listed = open && found.length > 0;
  const at =
    moved === null ? (chosen === undefined && value.trim() !== '' ? 0 : -1) : Math.min(moved, found.length - 1);
  const optionId = (index: number): string => `${id}-option-${index}`;

  const take = (offer: Offer): void => {
    onChange(offer.code);
    setOpen(false);
    setMoved(null);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    // What is shown may lag behind what is typed; what is typed is meant.
    const meant = asked === value || !open ? found : offersFor(offers, value);
    const active = meant[at];
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (!listed) setOpen(true);
      else if (event.key === 'ArrowDown') setMoved(at >= found.length - 1 ? 0 : at + 1);
      else setMoved(at <= 0 ? found.length - 1 : at - 1);
    } else if (event.key === 'Enter' && active !== undefined) {
      event.preventDefault();
      take(active);
    } else if (event.key === 'Escape' && listed) {
      event.preventDefault();
      setOpen(false);
    }
  };
  const below = [
    ...(description === undefined ? [] : [description]),
    ...(chosen !== undefined ? [chosen.words] : value.trim() === '' || unknown === undefined ? [] : [unknown]),
  ].filter((text) => text !== '');

  return (
    <div
      className="bw-seek"
      onBlur={({ currentTarget, relatedTarget }) => {
        if (!currentTarget.contains(relatedTarget)) setOpen(false);
      }}
    >
      <TextInput
        id={id}
        className="bw-field"
        label={labelText(props)}
        description={below.length === 0 ? undefined : below.join(' · ')}
        error={error}
        value={value}
        autoComplete="off"
        spellCheck={false}
        role="combobox"
        aria-autocomplete="list"
        aria-expanded={listed}
        aria-controls={`${id}-list`}
        {...(listed && at >= 0 ? { 'aria-activedescendant': optionId(at) } : {})}
        onChange={({ currentTarget }) => {
          onChange(currentTarget.value);
          setMoved(null);
          setOpen(true);
        }}
        onClick={() => setOpen(true)}
        onKeyDown={onKeyDown}
      />
      {listed ? (
        <ul id={`${id}-list`} role="listbox" aria-label={`${props.label}: found`} className="bw-seek-list">
          {found.map((offer, index) => (
            <li
              key={offer.code}
              id={optionId(index)}
              role="option"
              aria-selected={index === at}
              className="bw-seek-row"
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => take(offer)}
              ref={(element) => {
                if (index === at) element?.scrollIntoView({ block: 'nearest' });
              }}
            >
              <span className="bw-code">{offer.code}</span> <span>{offer.words}</span>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}

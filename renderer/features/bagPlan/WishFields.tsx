import { useMemo, useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { itemName } from '../steps/words.ts';
import {
  itemField,
  noWish,
  quantityField,
  standingFault,
  wishFaults,
  wishField,
  wishText,
  withWish,
} from './planDraft.ts';
import type { PlanDraft, Wish, WishDraft, WishKind } from './planDraft.ts';

export interface WishFieldsProps {
  plan: ResolvedPlan;
  draft: PlanDraft;
  /** Errors of the form as a whole, by field. */
  errorOf: (field: string) => string | undefined;
  onDraft: (draft: PlanDraft) => void;
}

const kinds: { value: WishKind; label: string }[] = [
  { value: 'keep', label: 'Keep always' },
  { value: 'forbid', label: 'Forbid' },
  { value: 'spares', label: 'Add as spare' },
];

const isKind = (value: string): value is WishKind => kinds.some((kind) => kind.value === value);

/** Items that shall be in the bag whatever the search says, or shall not, or shall be there twice. */
export function WishFields({ plan, draft, errorOf, onDraft }: WishFieldsProps) {
  const [asked, setAsked] = useState(false);
  const { wishes, writing } = draft;
  const offers = useMemo(
    () => [...plan.carried.values()].map(({ id }) => ({ code: id, words: itemName(plan, id) })),
    [plan],
  );
  const faults = asked ? wishFaults(plan, writing) : [];
  const fault = (field: string): string | undefined =>
    faults.find((one) => one.field === field)?.message ?? errorOf(field);
  const write = (change: Partial<WishDraft>): void => onDraft({ ...draft, writing: { ...writing, ...change } });
  const add = (): void => {
    const found = wishFaults(plan, writing);
    setAsked(found.length > 0);
    const [first] = found;
    if (first !== undefined) {
      document.getElementById(first.field)?.focus();
      return;
    }
    const { kind, item, quantity, outing } = writing;
    const wish: Wish = { kind, id: item.trim(), quantity: kind === 'forbid' ? 1 : Number(quantity), outing };
    onDraft({ ...draft, wishes: withWish(wishes, wish), writing: { ...noWish, kind, outing } });
    document.getElementById(itemField)?.focus();
  };
  const remove = (at: number): void => {
    onDraft({ ...draft, wishes: wishes.filter((_, index) => index !== at) });
    document.getElementById(itemField)?.focus();
  };
  return (
    <fieldset className="bw-wishes">
      <legend>Kept, forbidden and spare items</legend>
      {wishes.length === 0 ? (
        <p className="bw-second bw-small">None: the search alone decides what lies in the bags.</p>
      ) : (
        <ul className="bw-wish-list" aria-label="Asked for beyond the plan">
          {wishes.map((wish, index) => {
            const wrong = standingFault(plan, wishes, wish, index);
            return (
              <li key={`${wish.kind} ${wish.id} ${wish.outing ?? ''}`} data-wrong={wrong !== null || undefined}>
                <span>
                  {wishText(plan, wish)}
                  {wrong === null ? null : (
                    <span className="bw-wish-wrong" id={`${wishField(index)}-wrong`}>
                      {wrong}
                    </span>
                  )}
                </span>
                <button
                  type="button"
                  id={wishField(index)}
                  className="bw-link"
                  aria-label={`Remove: ${wishText(plan, wish)}`}
                  {...(wrong === null ? {} : { 'aria-describedby': `${wishField(index)}-wrong` })}
                  onClick={() => remove(index)}
                >
                  Remove
                </button>
              </li>
            );
          })}
        </ul>
      )}
      <div
        role="group"
        aria-label="Item to ask for"
        className="bw-plan-fields"
        onKeyDown={(event) => {
          // Enter in these fields adds the item; it does not send the form around them.
          if (event.key !== 'Enter' || event.defaultPrevented || !(event.target instanceof HTMLInputElement)) return;
          event.preventDefault();
          add();
        }}
      >
        <NativeSelect
          label="What"
          data={kinds}
          value={writing.kind}
          onChange={({ currentTarget: { value } }) => {
            if (isKind(value)) write({ kind: value });
          }}
        />
        <SeekField
          id={itemField}
          label="Item of the stock"
          value={writing.item}
          offers={offers}
          unknown="not in this task’s stock"
          error={fault(itemField)}
          onChange={(item) => write({ item })}
        />
        {writing.kind === 'forbid' ? null : (
          <TextInput
            id={quantityField}
            className="bw-wish-quantity"
            label="Pieces"
            inputMode="numeric"
            autoComplete="off"
            value={writing.quantity}
            error={fault(quantityField)}
            onChange={({ currentTarget: { value } }) => write({ quantity: value })}
          />
        )}
        {plan.outings.length < 2 ? null : (
          <NativeSelect
            label="On"
            data={[
              { value: '', label: 'every outing' },
              ...plan.outings.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            value={writing.outing ?? ''}
            onChange={({ currentTarget: { value } }) => write({ outing: value === '' ? null : value })}
          />
        )}
        <span className="bw-plan-buttons">
          <Button onClick={add}>Add item</Button>
        </span>
      </div>
    </fieldset>
  );
}

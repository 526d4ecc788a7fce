import { useState } from 'react';
import type { KeyboardEvent } from 'react';
import { Button } from '@mantine/core';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { orderOfText, orderRules, proposeOrder } from '../../engine/pattern/index.ts';
import type { OrderRule, PatternPoint } from '../../engine/pattern/index.ts';
import { positionsIn } from './patternDraft.ts';

export interface OrderFieldsProps {
  form: RecordFormState;
  /** The pattern as it is written. */
  text: string;
  count: number;
  /** Null as long as the pattern cannot be read, or there is none. */
  points: readonly PatternPoint[] | null;
}

const rules: readonly { rule: OrderRule; label: string }[] = [
  { rule: 'star', label: 'Propose a star' },
  { rule: 'spiral', label: 'Propose a spiral' },
];

const sameOrder = (one: readonly string[], other: readonly string[]): boolean =>
  one.length === other.length && one.every((position, at) => position === other[at]);

/** The order of tightening: proposed by a rule, typed as a list, or one position moved earlier or later. */
export function OrderFields({ form, text, count, points }: OrderFieldsProps) {
  const { id, label, error, value: order = [], onChange } = form.lines('order', 'Order of tightening');
  const [typed, setTyped] = useState(() => order.join(', '));
  const shown = sameOrder(orderOfText(typed), order) ? typed : order.join(', ');
  const [said, setSaid] = useState('');
  const take = (next: readonly string[]): void => onChange(next.length === 0 ? undefined : [...next]);
  const propose = (rule: OrderRule): void => {
    if (points === null) return;
    take(proposeOrder(rule, points));
    setSaid(orderRules[rule]);
  };
  const positions = positionsIn(text, count);
  if (order.length === 0 && positions?.length === 1) return null;
  return (
    <div className="bw-order">
      <TextField
        id={id}
        label={label}
        value={shown}
        error={error}
        description={`Each position once, as “1, 4, 2, 3”${positions === null ? '' : `; of ${positions.length}`}`}
        optional
        onChange={(next) => {
          setTyped(next);
          take(orderOfText(next));
        }}
      />
      <div className="bw-order-deeds">
        {rules.map(({ rule, label: words }) => (
          <Button
            key={rule}
            size="xs"
            aria-disabled={points === null}
            data-disabled={points === null}
            title={points === null ? 'The pattern must be read first' : orderRules[rule]}
            onClick={() => propose(rule)}
          >
            {words}
          </Button>
        ))}
        {order.length === 0 ? null : (
          <Button size="xs" onClick={() => take([])}>
            Take the order away
          </Button>
        )}
      </div>
      <p className="bw-second bw-small" role="status">
        {said !== '' && order.length > 0
          ? `${said} A proposal: the procedure governs.`
          : points === null
            ? 'An order is proposed where the pattern says where positions lie.'
            : ''}
      </p>
      {order.length < 2 ? null : <OrderList order={order} onOrder={take} />}
    </div>
  );
}

/** One Tab stop: arrows choose a position, with Alt they move it. */
function OrderList({ order, onOrder }: { order: readonly string[]; onOrder: (order: readonly string[]) => void }) {
  const [chosen, setChosen] = useState(0);
  const at = Math.min(chosen, order.length - 1);
  const move = (by: number): void => {
    const to = at + by;
    const position = order[at];
    if (position === undefined || to < 0 || to >= order.length) return;
    onOrder(order.toSpliced(at, 1).toSpliced(to, 0, position));
    setChosen(to);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 }[event.key];
    if (by !== undefined && event.altKey) move(by);
    else if (by !== undefined) setChosen(Math.max(0, Math.min(order.length - 1, at + by)));
    else if (event.key === 'Home') setChosen(0);
    else if (event.key === 'End') setChosen(order.length - 1);
    else return;
    event.preventDefault();
  };
  return (
    <div className="bw-order-list">
      <div
        role="listbox"
        aria-label="Order of tightening, one by one"
        aria-orientation="horizontal"
        aria-activedescendant={`order-${at}`}
        tabIndex={0}
        onKeyDown={onKeyDown}
      >
        {order.map((position, index) => (
          <div
            key={`${position} ${index}`}
            id={`order-${index}`}
            role="option"
            aria-selected={index === at}
            aria-label={`${index + 1}: position ${position}`}
            onClick={() => setChosen(index)}
          >
            <span className="bw-order-at">{index + 1}</span>
            <b>{position}</b>
          </div>
        ))}
      </div>
      <div className="bw-order-deeds">
        <Button size="xs" aria-disabled={at === 0} data-disabled={at === 0} onClick={() => move(-1)}>
          Earlier
        </Button>
        <Button
          size="xs"
          aria-disabled={at === order.length - 1}
          data-disabled={at === order.length - 1}
          onClick={() => move(1)}
        >
          Later
        </Button>
        <span className="bw-second bw-small">
          <kbd>Alt</kbd> with arrows moves the chosen one
        </span>
      </div>
    </div>
  );
}

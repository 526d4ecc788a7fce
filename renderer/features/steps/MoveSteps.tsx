import { useEffect, useId, useState } from 'react';
import { Button, TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { countOf, numbersText } from './words.ts';

export interface MoveStepsProps {
  /** Numbers of the steps that are moved. */
  numbers: readonly number[];
  /** How many steps the task has. */
  most: number;
  /** Why they cannot get that number; null once they have it. */
  onMove: (number: number) => Promise<string | null>;
  onClose: () => void;
}

/** Steps put where a typed number says: the alternative to dragging them far. */
export function MoveSteps({ numbers, most, onMove, onClose }: MoveStepsProps) {
  const id = useId();
  const [text, setText] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  // Once the dialog has the focus, which it first gives to its own button.
  useEffect(() => {
    const timer = setTimeout(() => document.getElementById(id)?.focus());
    return () => clearTimeout(timer);
  }, [id]);
  const what = numbers.length === 1 ? `step ${numbers[0]}` : `steps ${numbersText([...numbers])}`;
  const move = async (): Promise<void> => {
    const number = /^\s*\d{1,9}\s*$/.test(text) ? Number(text) : 0;
    if (number < 1 || number > most) {
      setFault(
        `New number: ${text.trim() === '' ? 'is missing' : `"${text.trim()}" is no step`}; the task has 1 to ${most}.`,
      );
      document.getElementById(id)?.focus();
      return;
    }
    const why = await onMove(number);
    if (why === null) onClose();
    else setFault(why);
  };
  return (
    <Dialog title={`Move ${what}`} onClose={onClose}>
      <form
        className="bw-deed"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void move();
        }}
      >
        <TextInput
          id={id}
          className="bw-field"
          label="New number"
          description={
            numbers.length === 1
              ? 'Moved up it comes before the step that has this number now, moved down after it; with what is done if it fails.'
              : 'The first of them gets this number, the others follow it in their order, each with what is done if it fails.'
          }
          value={text}
          error={fault}
          inputMode="numeric"
          autoComplete="off"
          onChange={({ currentTarget }) => setText(currentTarget.value)}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Move {numbers.length === 1 ? 'it' : countOf(numbers.length, 'step')}
          </Button>
          <Button onClick={onClose}>Leave</Button>
        </div>
      </form>
    </Dialog>
  );
}

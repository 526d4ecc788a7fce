import { useId, useState } from 'react';
import { Button } from '@mantine/core';
import { preferencesKey } from '../../../../shared-types/records/window.ts';
import { TextField } from '../../../components/Fields/TextField.tsx';
import { useTable } from '../../session/useStore.ts';

export interface LeaveApartProps {
  codes: string;
  label: string;
  onLeave: (said: { why: string; person?: string }) => void;
}

/** Why things that look like one are two: asked before it is remembered. */
export function LeaveApart({ codes, label, onLeave }: LeaveApartProps) {
  const id = useId();
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  const [asked, setAsked] = useState(false);
  const person = useTable('preferences').rows.get(preferencesKey)?.person.trim() ?? '';
  if (!open)
    return (
      <p className="bw-form-foot">
        <Button size="compact-sm" onClick={() => setOpen(true)}>
          {label}
        </Button>
      </p>
    );
  const said = why.trim();
  const fault = said === '' ? 'Why is missing.' : said.length > 2000 ? 'Why is longer than 2000 characters.' : null;
  const leave = (): void => {
    setAsked(true);
    if (fault === null) onLeave({ why: said, ...(person === '' ? {} : { person }) });
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        leave();
      }}
    >
      <TextField
        id={id}
        label={`Why ${codes} stay as they are`}
        description="As “two makes, kept apart on purpose”; said here until one of them is changed"
        value={why}
        error={asked ? (fault ?? undefined) : undefined}
        onChange={setWhy}
      />
      <p className="bw-form-foot">
        <Button size="compact-sm" type="submit" variant="filled">
          Leave as they are
        </Button>
        <Button size="compact-sm" onClick={() => setOpen(false)}>
          Back
        </Button>
      </p>
    </form>
  );
}

import { useState } from 'react';
import { Button, TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';

export interface NameDialogProps {
  title: string;
  name: string;
  onName: (name: string) => void;
  onClose: () => void;
}

/** Asks for the name of a list. */
export function NameDialog({ title, name: before, onName, onClose }: NameDialogProps) {
  const [name, setName] = useState(before);
  const [asked, setAsked] = useState(false);
  return (
    <Dialog title={title} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          if (name.trim() !== '') onName(name.trim());
        }}
      >
        <TextInput
          className="bw-field"
          label="Name of the list"
          autoComplete="off"
          maxLength={2000}
          value={name}
          error={asked && name.trim() === '' ? 'Name of the list is missing.' : undefined}
          onChange={({ currentTarget }) => setName(currentTarget.value)}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Keep the name
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </div>
      </form>
    </Dialog>
  );
}

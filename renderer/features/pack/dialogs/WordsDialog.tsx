import { useState } from 'react';
import { Button, Textarea } from '@mantine/core';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';

export interface WordsDialogProps {
  title: string;
  label: string;
  button: string;
  /** What comes of it. */
  said: string;
  gloved: boolean;
  onWords: (words: string) => void;
  onClose: () => void;
}

/** Asks for words, and nothing else. */
export function WordsDialog({ title, label, button, said, gloved, onWords, onClose }: WordsDialogProps) {
  const [words, setWords] = useState('');
  const [asked, setAsked] = useState(false);
  return (
    <Dialog title={title} onClose={onClose} className={`bw-pack-dialog${gloved ? ' bw-pack-gloved' : ''}`}>
      <form
        className="bw-accept"

        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          if (words.trim() !== '') onWords(words.trim());
        }}
      >
        <p className="bw-second">{said}</p>
        <Textarea
          className="bw-field"
          label={label}
          autosize
          minRows={2}
          maxRows={8}
          maxLength={2000}
          value={words}
          error={asked && words.trim() === '' ? `${label} is missing.` : undefined}
          onChange={({ currentTarget: { value } }) => setWords(value)}
        />
        <div className="bw-form-foot">
          <Button className="bw-pack-big" type="submit" variant="filled">
            {button}
          </Button>
          <Button className="bw-pack-big" onClick={onClose}>
            Leave it
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

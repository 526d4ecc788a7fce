import { useState } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { BenchNote } from '../../../shared-types/records/note.ts';
import { dayAndClockText } from '../../store/clock.ts';
import { copyText } from './copyText.ts';

export interface KeptNoteProps {
  note: BenchNote;
  notice: ReactNode;
  /** Puts its entries into the fields again. */
  onAgain: () => void;
  onRemove: () => Promise<void>;
}

/** A result as it was kept, word for word: what the program would say of it today is another matter. */
export function KeptNote({ note, notice, onAgain, onRemove }: KeptNoteProps) {
  const [said, setSaid] = useState('');
  return (
    <section className="bw-bench-result bw-bench-kept" aria-label={`Kept: ${note.name}`} tabIndex={0}>
      <h1>{note.name}</h1>
      <p className="bw-second">Kept {dayAndClockText(new Date(note.keptAt))}, as it was shown then.</p>
      {notice}
      <div className="bw-task-buttons">
        <Button onClick={onAgain}>Put its entries in again</Button>
        <Button onClick={() => setSaid(copyText(note.text) ? 'Copied as text.' : 'The browser did not take it.')}>
          Copy
        </Button>
        <Button onClick={() => void onRemove()}>Remove {note.name}</Button>
      </div>
      <p role="status" className="bw-second bw-small">
        {said}
      </p>
      <pre className="bw-bench-text">{note.text}</pre>
    </section>
  );
}

import { useState } from 'react';
import { Button } from '@mantine/core';
import { useOpening } from '../session/useStore.ts';
import './recovery.css';

/** Over the sheet: what the opening brought over or put aside, until it is read. */
export function OpeningNotice() {
  const opening = useOpening();
  const [read, setRead] = useState<typeof opening | null>(null);
  if (opening.kind !== 'ready' || opening.notice === null || opening === read) return null;
  return (
    <section className="bw-opened" aria-label="What was found at the start">
      <p role="status">{opening.notice}</p>
      <Button onClick={() => setRead(opening)}>I have read it</Button>
    </section>
  );
}

import { useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import { hostEnded } from '../../../shared-types/journal.ts';
import type { Store } from '../../store/store.ts';
import './recovery.css';

export interface ElsewhereBannerProps {
  store: Store;
  /** Why this window does not write. */
  reason: string;
}

const lookAgainMs = 15_000;

/** The other window may have been closed since: whoever is at this one need not ask for what is free. */
function useFreeRight(store: Store, reason: string): void {
  useEffect(() => {
    if (reason === hostEnded) return undefined;
    const look = (): void => {
      if (document.hasFocus()) void store.writeIfFree();
    };
    window.addEventListener('focus', look);
    const timer = setInterval(look, lookAgainMs);
    return () => {
      window.removeEventListener('focus', look);
      clearInterval(timer);
    };
  }, [store, reason]);
}

/** Over the sheet of a window that does not write: it reads on, and may take the saving over. */
export function ElsewhereBanner({ store, reason }: ElsewhereBannerProps) {
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
  useFreeRight(store, reason);
  const takeOver = (): void => {
    setBusy(true);
    setFailed(null);
    store
      .writeHere()
      .catch((error: unknown) => setFailed(error instanceof Error ? error.message : String(error)))
      .finally(() => setBusy(false));
  };
  return (
    <section className="bw-readonly" aria-label="Read only">
      <p>
        <strong>Read only.</strong> {reason} Changes made here are not saved.
      </p>
      <Button onClick={takeOver} disabled={busy}>
        Save from this window
      </Button>
      {failed === null ? null : <p role="alert">Saving was not taken over: {failed}</p>}
    </section>
  );
}

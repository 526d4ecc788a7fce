import { useState } from 'react';
import { Button } from '@mantine/core';
import type { Store } from '../../store/store.ts';
import './recovery.css';

export interface ElsewhereBannerProps {
  store: Store;
  /** Why this window does not write. */
  reason: string;
}

/** Over the sheet of a window that does not write: it reads on, and may take the saving over. */
export function ElsewhereBanner({ store, reason }: ElsewhereBannerProps) {
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
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

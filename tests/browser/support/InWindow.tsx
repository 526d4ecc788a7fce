import { useMemo } from 'react';
import type { ReactNode } from 'react';
import { SessionContext } from '../../../renderer/features/session/SessionContext.ts';
import { StoreContext } from '../../../renderer/features/session/useStore.ts';
import { createSession } from '../../../renderer/store/session.ts';
import type { Store } from '../../../renderer/store/store.ts';

/** What a place finds around it: the store, and a session on it. */
export function InWindow({ store, children }: { store: Store; children: ReactNode }) {
  const session = useMemo(() => createSession(store), [store]);
  return (
    <StoreContext value={store}>
      <SessionContext value={session}>{children}</SessionContext>
    </StoreContext>
  );
}

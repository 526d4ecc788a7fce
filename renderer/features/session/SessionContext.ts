import { createContext, use, useSyncExternalStore } from 'react';
import type { SaveState, Saver } from '../../store/saver.ts';
import type { Session, SessionState } from '../../store/session.ts';

export const SessionContext = createContext<{ session: Session; saver: Saver } | null>(null);

function around(context: { session: Session; saver: Saver } | null): { session: Session; saver: Saver } {
  if (context === null) throw new Error('The session is used outside of its provider.');
  return context;
}

export function useSession(): Session {
  return around(use(SessionContext)).session;
}

export function useSessionState(): SessionState {
  const session = useSession();
  return useSyncExternalStore(session.subscribe, session.state);
}

export function useSaving(): { state: SaveState; retry: () => void } {
  const { saver } = around(use(SessionContext));
  return { state: useSyncExternalStore(saver.subscribe, saver.state), retry: saver.retry };
}

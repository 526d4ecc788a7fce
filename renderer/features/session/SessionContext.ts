import { createContext, use, useSyncExternalStore } from 'react';
import type { Session, SessionState } from '../../store/session.ts';

export const SessionContext = createContext<Session | null>(null);

export function useSession(): Session {
  const session = use(SessionContext);
  if (session === null) throw new Error('The session is used outside of its provider.');
  return session;
}

export function useSessionState(): SessionState {
  const session = useSession();
  return useSyncExternalStore(session.subscribe, session.state);
}

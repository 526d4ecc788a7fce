import { MantineProvider } from '@mantine/core';
import { useColorScheme } from '@mantine/hooks';
import type { Host } from '../shared-types/host.ts';
import type { Planning } from './features/bag/planning.ts';
import { SessionContext, useSessionState } from './features/session/SessionContext.ts';
import { Window } from './features/session/Window.tsx';
import type { Saver } from './store/saver.ts';
import type { Session } from './store/session.ts';
import { resolver, theme } from './theme.ts';

export interface AppProps {
  session: Session;
  saver: Saver;
  planning: Planning;
  host: Host;
}

/** The page's policy lets only styles with its nonce in; Mantine's own need it. */
function styleNonce(): string {
  return document.querySelector<HTMLMetaElement>('meta[property="csp-nonce"]')?.nonce ?? '';
}

function Themed({ host, planning }: Pick<AppProps, 'host' | 'planning'>) {
  const { ready, preferences } = useSessionState();
  const system = useColorScheme('light', { getInitialValueInEffect: false });
  const scheme = preferences.scheme === 'follow' ? system : preferences.scheme;
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme} getStyleNonce={styleNonce}>
      {ready ? <Window host={host} planning={planning} /> : <p role="status">Opening what was kept…</p>}
    </MantineProvider>
  );
}

export function App({ session, saver, planning, host }: AppProps) {
  return (
    <SessionContext value={{ session, saver }}>
      <Themed host={host} planning={planning} />
    </SessionContext>
  );
}

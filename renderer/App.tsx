import { MantineProvider } from '@mantine/core';
import { useColorScheme } from '@mantine/hooks';
import type { Host } from '../shared-types/host.ts';
import type { Planning } from './features/bag/planning.ts';
import { OpeningPages } from './features/session/OpeningPages.tsx';
import { SessionContext, useSessionState } from './features/session/SessionContext.ts';
import { useHostInfo } from './features/session/useHostInfo.ts';
import { StoreContext } from './features/session/useStore.ts';
import { Window } from './features/session/Window.tsx';
import type { Session } from './store/session.ts';
import type { Store } from './store/store.ts';
import { resolver, theme } from './theme.ts';

export interface AppProps {
  store: Store;
  session: Session;
  planning: Planning;
  host: Host;
  now: () => Date;
}

/** The page's policy lets only styles with its nonce in; Mantine's own need it. */
function styleNonce(): string {
  return document.querySelector<HTMLMetaElement>('meta[property="csp-nonce"]')?.nonce ?? '';
}

function Themed({ host, planning, now }: Pick<AppProps, 'host' | 'planning' | 'now'>) {
  const info = useHostInfo(host);
  const { preferences } = useSessionState();
  const system = useColorScheme('light', { getInitialValueInEffect: false });
  const scheme = preferences.scheme === 'follow' ? system : preferences.scheme;
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolver} forceColorScheme={scheme} getStyleNonce={styleNonce}>
      <OpeningPages host={host} info={info}>
        <Window host={host} info={info} planning={planning} now={now} />
      </OpeningPages>
    </MantineProvider>
  );
}

export function App({ store, session, planning, host, now }: AppProps) {
  return (
    <StoreContext value={store}>
      <SessionContext value={session}>
        <Themed host={host} planning={planning} now={now} />
      </SessionContext>
    </StoreContext>
  );
}

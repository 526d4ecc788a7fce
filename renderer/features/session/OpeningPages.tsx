import type { ReactNode } from 'react';
import type { Host, HostInfo } from '../../../shared-types/host.ts';
import { HinderedPage } from '../recovery/HinderedPage.tsx';
import { OpeningPage } from '../recovery/OpeningPage.tsx';
import { RecoveringPage } from '../recovery/RecoveringPage.tsx';
import { useOpening, useStore } from './useStore.ts';

export interface OpeningPagesProps {
  host: Host;
  info: HostInfo | null;
  /** The work itself, shown once journal and database agree. */
  children: ReactNode;
}

/** Nothing of the work is shown before it is known to be whole. */
export function OpeningPages({ host, info, children }: OpeningPagesProps) {
  const store = useStore();
  const opening = useOpening();
  const folder = info?.dataFolder ?? null;
  if (opening.kind === 'ready') return children;
  if (opening.kind === 'opening') return <OpeningPage doing={opening.doing} />;
  if (opening.kind === 'recovering') return <RecoveringPage done={opening.done} of={opening.of} />;
  const { hindrance, failed } = opening;
  return <HinderedPage store={store} host={host} folder={folder} hindrance={hindrance} failed={failed} />;
}

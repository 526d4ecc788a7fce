import { useMemo, useSyncExternalStore } from 'react';
import { placeAddress, readPlace } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';

export function goTo(place: Place, how: 'push' | 'replace' = 'push'): void {
  const address = placeAddress(place);
  if (how === 'push') {
    window.location.hash = address;
    return;
  }
  window.history.replaceState(null, '', address);
  window.dispatchEvent(new HashChangeEvent('hashchange'));
}

const onChange = (listener: () => void): (() => void) => {
  window.addEventListener('hashchange', listener);
  return () => window.removeEventListener('hashchange', listener);
};

export function usePlace(): Place {
  const address = useSyncExternalStore(onChange, () => window.location.hash);
  return useMemo(() => readPlace(address), [address]);
}

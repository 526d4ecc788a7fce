import { useEffect, useEffectEvent, useSyncExternalStore } from 'react';
import type { Asking } from './asking.ts';

/** Fulfils what is asked of a sheet as soon as the sheet is ready for it. */
export function useAsked<Wish>(asking: Asking<Wish>, fulfil: (wish: Wish) => void, ready = true): void {
  const wish = useSyncExternalStore(asking.subscribe, asking.wish);
  const answer = useEffectEvent((asked: Wish) => {
    asking.take();
    fulfil(asked);
  });
  useEffect(() => {
    if (wish !== null && ready) answer(wish);
  }, [wish, ready]);
}

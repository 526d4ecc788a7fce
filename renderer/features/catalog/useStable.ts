import { useCallback, useLayoutEffect, useRef } from 'react';

/** The same function for as long as it is shown, which does what the newest one does: a memoised part stays as it is. */
export function useStable<Given extends unknown[]>(deed: (...given: Given) => void): (...given: Given) => void {
  const newest = useRef(deed);
  useLayoutEffect(() => {
    newest.current = deed;
  });
  return useCallback((...given: Given) => newest.current(...given), []);
}

import { useEffect, useState } from 'react';
import type { Host, HostInfo } from '../../../shared-types/host.ts';

/** What the program says of itself; null while it has not answered. */
export function useHostInfo(host: Host): HostInfo | null {
  const [info, setInfo] = useState<HostInfo | null>(null);
  useEffect(() => {
    let wanted = true;
    host.info().then(
      (answer) => wanted && setInfo(answer),
      // Without an answer the folder stays unnamed, and the window says so where it would stand.
      () => undefined,
    );
    return () => void (wanted = false);
  }, [host]);
  return info;
}

import { useEffect, useState } from 'react';
import type { TypedLook } from '../../../shared-types/inspection.ts';

/** Everything about the row in hand; the one before stays until it is here. */
export function useLook<Look extends TypedLook>(
  desk: { look: (of: string, key: string) => Promise<Look | null> },
  of: string,
  turn: number | null,
  key: string | null,
): Look | null {
  const [held, setHeld] = useState<{ of: string; look: Look | null } | null>(null);
  useEffect(() => {
    if (key === null || turn === null) return undefined;
    let wanted = true;
    void desk.look(of, key).then((look) => {
      if (wanted) setHeld({ of, look });
    });
    return () => {
      wanted = false;
    };
  }, [desk, of, turn, key]);
  return key === null || held === null || held.of !== of || held.look?.key !== key ? null : held.look;
}

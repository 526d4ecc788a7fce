import { useEffect, useState } from 'react';
import type { CalloutLook } from '../../../shared-types/inspection.ts';
import type { CalloutDesk } from '../../workers/callouts.ts';

/** Everything about the row in hand; the one before stays until it is here. */
export function useLook(desk: CalloutDesk, of: string, turn: number | null, key: string | null): CalloutLook | null {
  const [held, setHeld] = useState<{ of: string; look: CalloutLook | null } | null>(null);
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

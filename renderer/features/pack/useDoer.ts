import { useMemo } from 'react';
import type { Doer } from '../../../shared-types/records/revision.ts';
import { useSessionState } from '../session/SessionContext.ts';

/** Who acts, by the settings; `named` only with a name and a role. */
export function useDoer(): { doer: Doer; named: boolean } {
  const { preferences } = useSessionState();
  const { person, personRole = '' } = preferences;
  return useMemo(() => {
    const doer = { name: person.trim(), role: personRole.trim() };
    return { doer, named: doer.name !== '' && doer.role !== '' };
  }, [person, personRole]);
}

import { useState } from 'react';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { usualReader } from '../../engine/tag/index.ts';
import { useScanner } from '../scan/useScanner.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { revisionRead } from './revisionRead.ts';

/** Opens the frozen manifest whose printed label is read, wherever the focus is; says why where it is none of this task. */
export function useManifestLabel(revisions: readonly Revision[], isOn = true): string {
  const { preferences } = useSessionState();
  const [said, setSaid] = useState('');
  useScanner(
    preferences.scanner ?? usualReader,
    (reading) => {
      const found = revisionRead(reading, revisions);
      if ('refused' in found) setSaid(`Nothing opened: ${found.refused}.`);
      else {
        setSaid(`Revision ${found.number} opened by its label.`);
        goTo({ at: 'revisions', number: String(found.number) });
      }
    },
    isOn,
  );
  return said;
}

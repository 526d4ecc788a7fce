import { useCallback, useState } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { ConflictPanel } from '../../components/ConflictPanel/ConflictPanel.tsx';
import type { RecordConflict } from '../../components/ConflictPanel/ConflictPanel.tsx';
import { conflictsIn, reasonOf, whatRemains } from '../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { overKept } from '../../store/overKept.ts';
import type { Act } from '../../store/store.ts';
import { useStore } from '../session/useStore.ts';

interface Refused {
  act: Act;
  reason: string | null;
  conflicts: readonly RecordConflict[];
  /** Of what is kept, as far as that is known. */
  remains: string;
}

/** Does a thing that has no form: true once it is kept. What was refused is said, with the way on. */
export function useAct(): { run: (act: Act) => Promise<boolean>; notice: ReactNode } {
  const store = useStore();
  const [refused, setRefused] = useState<Refused | null>(null);
  const run = useCallback(
    async (act: Act): Promise<boolean> => {
      try {
        await store.commit(act);
        setRefused(null);
        return true;
      } catch (error) {
        const conflicts = conflictsIn(error);
        const reason = conflicts === null ? reasonOf(error) : null;
        setRefused({ act, reason, conflicts: conflicts ?? [], remains: whatRemains(error) });
        return false;
      }
    },
    [store],
  );
  if (refused === null) return { run, notice: null };
  const { act, reason, conflicts, remains } = refused;
  const drop = (): void => setRefused(null);
  const notice =
    reason === null ? (
      <ConflictPanel
        conflicts={conflicts}
        onEdit={drop}
        onKeep={drop}
        onMine={() => void run(overKept(act, conflicts))}
      />
    ) : (
      <div className="bw-form-notsaved" role="alert">
        <StateMark state="not-saved" />
        <p>
          <b>{act.title}:</b> {reason} {remains}
        </p>
        <div className="bw-form-foot">
          <Button size="xs" onClick={() => void run(act)}>
            Try again
          </Button>
          <Button size="xs" onClick={drop}>
            Leave it
          </Button>
        </div>
      </div>
    );
  return { run, notice };
}

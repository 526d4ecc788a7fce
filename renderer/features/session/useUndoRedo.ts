import type { UndoRedoProps } from '../../components/UndoRedo/UndoRedo.tsx';
import { refuseUndo } from './refuseUndo.ts';
import { useSession } from './SessionContext.ts';
import { useHistoryState, useStore } from './useStore.ts';

/** Undo and Redo of the store; why one did not happen goes to the list of faults. */
export function useUndoRedo(): UndoRedoProps {
  const store = useStore();
  const session = useSession();
  const { undo, redo } = useHistoryState();
  return {
    undo,
    redo,
    onUndo: () => void store.undo().catch((error: unknown) => refuseUndo(session, 'Undo', error)),
    onRedo: () => void store.redo().catch((error: unknown) => refuseUndo(session, 'Redo', error)),
  };
}

import { Button } from '@mantine/core';
import type { EntryHead } from '../../../shared-types/journal.ts';
import styles from './UndoRedo.module.css';

export interface UndoRedoProps {
  /** What each would do; no button where there is nothing. */
  undo: EntryHead | null;
  redo: EntryHead | null;
  onUndo: () => void;
  onRedo: () => void;
}

/** Undo and Redo, each with the title of what it turns round. */
export function UndoRedo({ undo, redo, onUndo, onRedo }: UndoRedoProps) {
  const classNames = { root: styles['deed'] ?? '', label: styles['title'] ?? '' };
  return (
    <>
      {undo === null ? null : (
        <Button classNames={classNames} onClick={onUndo} title={`Undo: ${undo.title}`}>
          Undo: {undo.title}
        </Button>
      )}
      {redo === null ? null : (
        <Button classNames={classNames} onClick={onRedo} title={`Redo: ${redo.title}`}>
          Redo: {redo.title}
        </Button>
      )}
    </>
  );
}

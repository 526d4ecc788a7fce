import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { conflictsIn, reasonOf } from '../../components/RecordForm/refusedSave.ts';
import { ConflictPanel } from '../../components/ConflictPanel/ConflictPanel.tsx';
import type { RecordConflict } from '../../components/ConflictPanel/ConflictPanel.tsx';
import { conflictWords } from './conflictWords.ts';

export interface DeedDialogProps {
  title: string;
  /** Verb and object; null where it cannot be done, and the text says why. */
  deed: string | null;
  /** Does it; `over` are the conflicts decided for it. */
  run: (over: readonly RecordConflict[]) => Promise<unknown>;
  onDone: () => void;
  onClose: () => void;
  children: ReactNode;
}

/** A deed with its consequences, before it is done. What could not be saved says so here and changes nothing. */
export function DeedDialog({ title, deed, run, onDone, onClose, children }: DeedDialogProps) {
  const [saving, setSaving] = useState(false);
  const [reason, setReason] = useState<string | null>(null);
  const [conflicts, setConflicts] = useState<readonly RecordConflict[] | null>(null);
  const alert = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (reason !== null) alert.current?.focus();
  }, [reason]);
  const start = async (over: readonly RecordConflict[]): Promise<void> => {
    if (saving) return;
    setSaving(true);
    setReason(null);
    setConflicts(null);
    try {
      await run(over);
      onDone();
    } catch (error) {
      setSaving(false);
      const found = conflictsIn(error);
      if (found === null) setReason(reasonOf(error));
      else setConflicts(found);
    }
  };
  if (conflicts !== null) {
    return (
      <ConflictPanel
        conflicts={conflicts}
        words={conflictWords}
        onKeep={onClose}
        onMine={() => void start(conflicts)}
        onEdit={() => setConflicts(null)}
      />
    );
  }
  return (
    <Dialog title={title} onClose={onClose}>
      <div className="bw-deed">
        {reason === null ? null : (
          <div ref={alert} className="bw-form-notsaved" role="alert" tabIndex={-1}>
            <StateMark state="not-saved" />
            <p>{reason}</p>
          </div>
        )}
        {children}
        <div className="bw-form-foot">
          {deed === null ? null : (
            <Button variant="filled" aria-disabled={saving || undefined} onClick={() => void start([])}>
              {saving ? 'Saving…' : deed}
            </Button>
          )}
          <Button onClick={onClose}>Leave as it is</Button>
        </div>
      </div>
    </Dialog>
  );
}

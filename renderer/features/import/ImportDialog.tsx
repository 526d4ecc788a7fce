import { useEffect, useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { Refusal } from '../../../shared-types/errors.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import { RefusedError } from '../../engine/errors.ts';
import { readPlanFile } from '../../engine/records/readPlanFile.ts';
import type { PlanFile } from '../../engine/records/readPlanFile.ts';
import { ImportPage } from './ImportPage.tsx';
import { useKeptWork } from './useKeptWork.ts';
import './import.css';

export interface ImportDialogProps {
  /** A plan file as it was chosen or dropped; nothing of it is written before the person says so. */
  file: { name: string; text: string };
  onOpenTask: (id: string) => void;
  onClose: () => void;
}

type Reading = { kind: 'read'; content: PlanFile } | { kind: 'refused'; refusal: Refusal };

function reading({ name, text }: { name: string; text: string }): Reading {
  try {
    return { kind: 'read', content: readPlanFile(text, name) };
  } catch (error) {
    if (error instanceof RefusedError) return { kind: 'refused', refusal: error.refusal };
    throw error;
  }
}

/** A plan file at the door: what it holds beside what is kept, the choices, and one button that writes it. */
export function ImportDialog({ file, onOpenTask, onClose }: ImportDialogProps) {
  const read = useMemo(() => reading(file), [file]);
  // Another file begins anew, though it may have the same name.
  const [shown, setShown] = useState({ file, turn: 0 });
  if (shown.file !== file) setShown({ file, turn: shown.turn + 1 });
  const kept = useKeptWork();
  // The list of faults takes the focus when it appears; the dialog would take it back by opening after it.
  const [open, setOpen] = useState(false);
  useEffect(() => setOpen(true), []);
  return (
    <Dialog title={`Bring in ${file.name}`} onClose={onClose} className="bw-import">
      {!open ? null : read.kind === 'refused' ? (
        <ErrorSummary
          name={file.name}
          verb="was not brought in"
          refusal={read.refusal}
          remains="Nothing of it was written. What is kept stays as it was. Mend the file and bring it in again."
          onClose={onClose}
        />
      ) : kept.kind === 'loading' ? (
        <p role="status">Reading what is kept, to compare the file with it…</p>
      ) : kept.kind === 'fault' ? (
        <>
          <p role="alert">What is kept cannot be read, so the file cannot be compared with it: {kept.reason}</p>
          <Button onClick={onClose}>Leave the file</Button>
        </>
      ) : (
        <ImportPage
          key={shown.turn}
          fileName={file.name}
          content={read.content}
          kept={kept.kept}
          onOpenTask={onOpenTask}
          onClose={onClose}
        />
      )}
    </Dialog>
  );
}

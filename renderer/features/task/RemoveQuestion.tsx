import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';

export interface RemoveQuestionProps {
  /** What goes: "step 12", "outing 1". */
  what: string;
  /** What else goes or changes with it. */
  children?: ReactNode;
  /** Absent while it is not known yet what goes with it. */
  onRemove?: () => void;
  onStay: () => void;
}

/** Asked before something goes; it names the thing and the consequences. */
export function RemoveQuestion({ what, children, onRemove, onStay }: RemoveQuestionProps) {
  return (
    <Dialog title={`Remove ${what}?`} onClose={onStay}>
      {children}
      <p>Undo brings it back.</p>
      <div className="bw-form-foot">
        <Button onClick={onStay}>Keep it</Button>
        <Button
          variant="filled"
          aria-disabled={onRemove === undefined}
          data-disabled={onRemove === undefined}
          onClick={() => onRemove?.()}
        >
          Remove {what}
        </Button>
      </div>
    </Dialog>
  );
}

export interface RemoveRefusedProps {
  what: string;
  children: ReactNode;
  onStay: () => void;
  /** What keeps it here never goes. */
  forGood?: boolean;
}

/** In place of removing something that is still used. */
export function RemoveRefused({ what, children, onStay, forGood = false }: RemoveRefusedProps) {
  return (
    <Dialog title={`${what} cannot be removed${forGood ? '' : ' yet'}`} onClose={onStay}>
      {children}
      <div className="bw-form-foot">
        <Button variant="filled" onClick={onStay}>
          Keep it
        </Button>
      </div>
    </Dialog>
  );
}

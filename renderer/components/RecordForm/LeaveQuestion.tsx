import { Button } from '@mantine/core';
import { Dialog } from '../Dialog/Dialog.tsx';

export interface LeaveQuestionProps {
  /** The form's heading: "Edit S-18D". */
  what: string;
  onStay: () => void;
  onLeave: () => void;
}

/** Asked before entries are lost. */
export function LeaveQuestion({ what, onStay, onLeave }: LeaveQuestionProps) {
  return (
    <Dialog title={`Leave "${what}"?`} onClose={onStay}>
      <p>What you typed here is not saved. Leaving loses it; what was kept before stays as it is.</p>
      <div className="bw-form-foot">
        <Button variant="filled" onClick={onStay}>
          Go on editing
        </Button>
        <Button onClick={onLeave}>Leave without saving</Button>
      </div>
    </Dialog>
  );
}

import { Button } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';

/** A label that counts nothing stops everything until someone has seen it. */
export function Stopped({ words, onSeen }: { words: string; onSeen: () => void }) {
  return (
    <Dialog title="Not counted" onClose={onSeen}>
      <p role="alert">
        <StateMark state="missing" text="Not counted" size={28} />
      </p>
      <p dir="auto">{words}</p>
      <div className="bw-form-foot">
        <Button variant="filled" size="lg" onClick={onSeen}>
          Seen: go on
        </Button>
      </div>
    </Dialog>
  );
}

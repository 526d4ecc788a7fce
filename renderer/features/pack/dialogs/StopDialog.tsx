import { Button } from '@mantine/core';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { StateMark } from '../../../components/StateMark/StateMark.tsx';
import { useSaveState, useStore } from '../../session/useStore.ts';
import type { Stop } from '../packingDesk.ts';

export interface StopDialogProps {
  stop: Stop;
  /** Codes that were read meanwhile. */
  queued: number;
  gloved: boolean;
  onSeen: () => void;
}

/** Nothing more is counted until this was seen. */
export function StopDialog({ stop, queued, gloved, onSeen }: StopDialogProps) {
  const store = useStore();
  const saving = useSaveState();
  const notSaved = stop.word === 'NOT SAVED';
  return (
    <Dialog
      bare
      title={stop.word}
      onClose={onSeen}
      className={`bw-pack-dialog bw-pack-stop${gloved ? ' bw-pack-gloved' : ''}`}
    >
      <div role="alert" className="bw-pack-stopped">
        <h2>
          <StateMark state={notSaved ? 'not-saved' : 'missing'} text={stop.word} size={44} />
        </h2>
        <p className="bw-pack-stopwords">{stop.words}.</p>
        {queued === 0 ? null : <p className="bw-second">{queued} more read since wait, and are counted after this.</p>}
        <div className="bw-form-foot">
          {notSaved && saving.kind === 'not-saved' ? (
            <Button className="bw-pack-big" onClick={() => store.saveAgain()}>
              Save again
            </Button>
          ) : null}
          <Button className="bw-pack-big" variant="filled" onClick={onSeen}>
            I have seen it: go on
          </Button>
        </div>
      </div>
    </Dialog>
  );
}

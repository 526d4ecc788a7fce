import type { ReactNode } from 'react';
import { Button } from '@mantine/core';

export interface RecordActionsProps {
  /** "step", "outing". */
  what: string;
  onEdit: () => void;
  onCopy?: () => void;
  canUp?: boolean;
  canDown?: boolean;
  onMove?: (by: -1 | 1) => void;
  onRemove: () => void;
  /** Further deeds, before the last. */
  children?: ReactNode;
}

/** What can be done with the record in hand; each is in the palette too, and has its key in the list. */
export function RecordActions(props: RecordActionsProps) {
  const { what, onEdit, onCopy, canUp, canDown, onMove, onRemove, children } = props;
  return (
    <div className="bw-task-buttons">
      <Button size="xs" onClick={onEdit} aria-keyshortcuts="F2">
        Edit {what}
      </Button>
      {onCopy === undefined ? null : (
        <Button size="xs" onClick={onCopy}>
          Copy
        </Button>
      )}
      {onMove === undefined ? null : (
        <>
          <MoveButton label="Move up" shortcut="Alt+ArrowUp" can={canUp === true} onClick={() => onMove(-1)} />
          <MoveButton label="Move down" shortcut="Alt+ArrowDown" can={canDown === true} onClick={() => onMove(1)} />
        </>
      )}
      {children}
      <Button size="xs" onClick={onRemove} aria-keyshortcuts="Delete">
        Remove…
      </Button>
    </div>
  );
}

/** At its end it stays where the focus is, and says that there is no further. */
function MoveButton(props: { label: string; shortcut: string; can: boolean; onClick: () => void }) {
  const { label, shortcut, can, onClick } = props;
  return (
    <Button
      size="xs"
      aria-disabled={!can}
      data-disabled={!can}
      aria-keyshortcuts={shortcut}
      onClick={() => {
        if (can) onClick();
      }}
    >
      {label}
    </Button>
  );
}

import { Button } from '@mantine/core';

export interface StepActionsProps {
  canUp: boolean;
  canDown: boolean;
  onEdit: () => void;
  onCopy: () => void;
  onMove: (by: -1 | 1) => void;
  onRemove: () => void;
}

/** What can be done with the step in hand; each is in the palette too, and has its key in the list. */
export function StepActions({ canUp, canDown, onEdit, onCopy, onMove, onRemove }: StepActionsProps) {
  return (
    <div className="bw-step-actions">
      <Button size="xs" onClick={onEdit} aria-keyshortcuts="F2">
        Edit step
      </Button>
      <Button size="xs" onClick={onCopy}>
        Copy
      </Button>
      <MoveButton label="Move up" shortcut="Alt+ArrowUp" can={canUp} onClick={() => onMove(-1)} />
      <MoveButton label="Move down" shortcut="Alt+ArrowDown" can={canDown} onClick={() => onMove(1)} />
      <Button size="xs" onClick={onRemove} aria-keyshortcuts="Delete">
        Remove…
      </Button>
    </div>
  );
}

/** At the end of its outing it stays where the focus is, and says that there is no further. */
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

import { Button } from '@mantine/core';

export interface RecordDeedsProps {
  /** How many rows are chosen together. */
  marked: number;
  onEdit: () => void;
  onCopy: () => void;
  onRemove: () => void;
  onAccept: () => void;
  onWatchOut: () => void;
}

/** What can be done with the record in hand. */
export function RecordDeeds({ marked, onEdit, onCopy, onRemove, onAccept, onWatchOut }: RecordDeedsProps) {
  return (
    <>
      <Button size="xs" aria-keyshortcuts="F2" onClick={onEdit}>
        Edit
      </Button>
      <Button size="xs" onClick={onCopy}>
        Copy
      </Button>
      <Button size="xs" aria-keyshortcuts="Delete" onClick={onRemove}>
        Remove{marked > 1 ? ` ${marked}` : ''}…
      </Button>
      <Button size="xs" onClick={onWatchOut}>
        Write a watch-out…
      </Button>
      {marked < 2 ? null : (
        <Button size="xs" onClick={onAccept}>
          Accept findings of {marked}…
        </Button>
      )}
    </>
  );
}

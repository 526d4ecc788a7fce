import { useEffect, useState } from 'react';
import type { Finding } from '../../../shared-types/judged.ts';
import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { refusalOf } from '../../store/session.ts';
import { AcceptSeveralDialog } from './AcceptSeveralDialog.tsx';
import type { AcceptSeveralDialogProps } from './AcceptSeveralDialog.tsx';
import { openOn } from './acceptSeveral.ts';
import type { OpenFinding, RowTable } from './acceptSeveral.ts';
import { allRows } from './allRows.ts';

export interface AcceptRowsProps extends Pick<AcceptSeveralDialogProps, 'person' | 'onAccept' | 'onClose'> {
  table: RowTable;
  /** The rows chosen. */
  rows: readonly KeptCallout[];
  /** Rows of their list. */
  count: number;
  judgedRows: (
    from: number,
    count: number,
  ) => Promise<readonly { key: string; row: { findings: readonly Finding[] } | null }[]>;
}

/** Accepts what is open on the rows chosen, once what was found of them is read. */
export function AcceptRows({ table, rows, count, judgedRows, person, onAccept, onClose }: AcceptRowsProps) {
  const [items, setItems] = useState<OpenFinding[] | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    allRows(count, judgedRows).then(
      (found) => wanted && setItems(openOn(table, rows, found)),
      (error: unknown) => wanted && setFault(refusalOf(error).message),
    );
    return () => void (wanted = false);
    // What is accepted is what was found when the question was asked.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, []);
  if (items !== null && items.length > 0)
    return <AcceptSeveralDialog items={items} person={person} onAccept={onAccept} onClose={onClose} />;
  return (
    <Dialog title="Accept findings of the rows chosen" onClose={onClose}>
      {fault !== null ? (
        <p role="alert">What was found cannot be read: {fault}</p>
      ) : items === null ? (
        <p role="status">Reading what was found…</p>
      ) : (
        <p>Nothing is open on the rows chosen: nothing was found, or all of it is accepted.</p>
      )}
    </Dialog>
  );
}

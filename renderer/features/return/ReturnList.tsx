import { useCallback, useMemo, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import type { OutingThatLeft } from '../../engine/return/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { PdfSheet } from '../manifest/PdfSheet.tsx';
import { usePdf } from '../manifest/usePdf.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { listDocument } from '../record/recordPrint.ts';
import type { TaskRecord } from '../record/useTaskRecord.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { returnList } from './returnList.ts';

export interface ReturnListProps {
  went: OutingThatLeft;
  frozen: Frozen;
  record: TaskRecord;
  atHand: TaskAtHand;
  host: Host;
  now: () => Date;
}

/** The return list as the very PDF that is printed and saved. */
export function ReturnList({ went, frozen, record, atHand, host, now }: ReturnListProps) {
  const session = useSession();
  const { paper } = useSessionState().preferences;
  const { discrepancies } = record;
  const { code, name } = atHand.task;
  const { revision, outing, events } = went;
  const head = events.at(-1)?.hash ?? revision.hash;
  const [clock] = useState(() => now);
  // What the list says and when it was so: a later look at the same is of the same time.
  const asked = useMemo(
    () => ({ list: returnList({ went, frozen, discrepancies, task: name }), dataTime: isoWithOffset(clock()) }),
    [went, frozen, discrepancies, name, clock],
  );
  const document = useCallback(
    (means: PrintMeans) =>
      listDocument({
        ...{ ...means, ...asked, paper },
        margins: {
          left: [`Outing: ${asked.list.beneath}`, `Task: ${code}, ${name}`],
          middle: [
            `Revision ${revision.number}, ${shortHash(revision.hash)}`,
            `Record ${events.at(-1)?.no ?? 0}, ${shortHash(head)}`,
          ],
        },
      }),
    [asked, paper, code, name, revision, events, head],
  );
  const { pdf, again } = usePdf(host, document);
  return (
    <>
      <div className="bw-pane-bar">
        <a href={placeAddress({ at: 'return', outing })}>Return of {asked.list.beneath}</a>
      </div>
      <PdfSheet
        label="Return list"
        word="return list"
        heading={`Return list, ${asked.list.beneath}`}
        host={host}
        pdf={pdf}
        again={again}
        name={`return_${code}_${outing}_${asked.dataTime.slice(0, 10)}.pdf`}
        pagesLabel="The return list as it will be printed"
        paper={paper}
        onPaper={(next) => session.prefer({ paper: next })}
      />
    </>
  );
}

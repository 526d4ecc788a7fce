import { Suspense, lazy, useCallback, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import type { ToFreeze } from '../../engine/frozen/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { usePdf } from '../manifest/usePdf.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { comparedDocument } from './comparedDocument.ts';
import { comparisonRows, summaryText } from './comparisonRows.ts';
import { calledText, openNumber, whenText } from './revisionWords.ts';
import { useCompared } from './useCompared.ts';

const PdfSheet = lazy(async () => ({ default: (await import('../manifest/PdfSheet.tsx')).PdfSheet }));

export interface ComparedSheetProps {
  one: Revision;
  /** Null: the task as it stands. */
  other: Revision | null;
  open: ToFreeze | null;
  task: TaskAtHand;
  host: Host;
  now: () => Date;
}

/** Two frozen manifests held against each other, as the very PDF that is printed and saved. */
export function ComparedSheet({ one: asked, other, open, task, host, now }: ComparedSheetProps) {
  const session = useSession();
  const { paper } = useSessionState().preferences;
  const [dataTime] = useState(() => isoWithOffset(now()));
  // What is not frozen yet is later than whatever is.
  const isEarlier = other !== null && other.number < asked.number;
  const [one, two] = isEarlier ? [other, asked] : [asked, other];
  const compared = useCompared(one, two ?? open);
  const { code, name } = task.task;
  const document = useCallback(
    (means: PrintMeans) => {
      if (compared?.kind !== 'compared') throw new Error(compared?.reason ?? 'They are still being read.');
      const rows = comparisonRows(compared.found, compared.names);
      return comparedDocument({
        ...{ ...means, rows, paper, dataTime, task: { code, name } },
        heads: [calledText(one), calledText(two)],
        said: [saidOf(one), saidOf(two)],
        summary: summaryText(compared.found),
      });
    },
    [compared, one, two, paper, dataTime, code, name],
  );
  const { pdf, again } = usePdf(host, document);
  const numbers = `${one.number}_${two === null ? openNumber : two.number}`;
  return (
    <Suspense fallback={<p className="bw-pane-detail">Opening the comparison…</p>}>
      <div className="bw-pane-bar">
        <a href={placeAddress({ at: 'revisions', number: String(asked.number) })}>Revision {asked.number}</a>
      </div>
      <PdfSheet
        label="Comparison"
        word="comparison"
        heading={`${calledText(one)} and ${calledText(two).replace(/^./, (letter) => letter.toLowerCase())}`}
        host={host}
        pdf={pdf}
        again={again}
        name={`compared_${code}_${numbers}_${dataTime.slice(0, 10)}.pdf`}
        pagesLabel="The comparison as it will be printed"
        paper={paper}
        onPaper={(next) => session.prefer({ paper: next })}
      />
    </Suspense>
  );
}

function saidOf(one: Revision | null): string {
  return one === null ? 'not frozen' : `frozen ${whenText(one.at)} by ${one.by.name}, ${one.by.role}: ${one.why}`;
}

import { useState } from 'react';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { isoWithOffset } from './isoWithOffset.ts';
import type { PrintedRevision } from './printedRevision.ts';
import { PdfSheet } from './PdfSheet.tsx';
import { useManifestPdf } from './useManifestPdf.ts';

export interface ManifestSheetProps {
  plan: ResolvedPlan;
  result: BagResult;
  fileName: string;
  /** Id of the outing whose manifest this is. */
  outing: string;
  units: UnitsShown;
  host: Host;
  /** Who prepares it, as they call themselves. */
  person?: string | undefined;
  paper?: DocumentToPrint['paper'] | undefined;
  onPaper?: ((paper: DocumentToPrint['paper']) => void) | undefined;
  /** When the data was as printed, ISO with offset; the opening of this sheet where it is not known. */
  dataTime?: string | undefined;
  /** What is carried to each step beyond the plan's own words, by its code. */
  carried?: ReadonlyMap<string, readonly string[]> | undefined;
  /** How the bags of the outing are laid out. */
  map?: MapLayout | undefined;
  /** The frozen manifest that plan and answer are of; absent for the open plan. */
  frozen?: PrintedRevision | undefined;
  /** What earlier outings say, in sentences. */
  known?: readonly string[] | undefined;
}

/** The manifest as the very PDF that is printed and saved. */
export function ManifestSheet(props: ManifestSheetProps) {
  const { plan, result, fileName, outing, units, host, person = '', paper: first = 'A4', onPaper } = props;
  const { dataTime, carried, map, frozen, known } = props;
  const [paper, setPaper] = useState(first);
  const [openedAt] = useState(() => isoWithOffset(new Date()));
  const time = dataTime ?? openedAt;
  const { pdf, again } = useManifestPdf(host, {
    plan,
    result,
    outing,
    units,
    fileName,
    paper,
    dataTime: time,
    person,
    carried,
    map,
    frozen,
    known,
  });
  const holds = result.outings.some(({ id }) => id === outing);
  return (
    <PdfSheet
      label="Manifest"
      word="manifest"
      heading={`Manifest${frozen === undefined ? '' : ` of revision ${frozen.number}`}, ${plan.outings.find(({ id }) => id === outing)?.name ?? outing}`}
      mark={
        result.status === 'infeasible' ? (
          <StateMark
            state="infeasible"
            {...(holds ? { text: 'The plan cannot be done as a whole: this outing only' } : {})}
          />
        ) : (
          <StateMark state={holds && result.status === 'optimal' ? 'proved-least' : 'not-proved'} />
        )
      }
      host={host}
      pdf={pdf}
      again={again}
      name={`manifest_${plan.source.task?.id ?? fileName.replace(/\.[^.]*$/, '')}_${outing}${frozen === undefined ? '' : `_revision_${frozen.number}`}_${time.slice(0, 10)}.pdf`}
      pagesLabel="The manifest as it will be printed"
      paper={paper}
      onPaper={(each) => {
        setPaper(each);
        onPaper?.(each);
      }}
    >
      {holds ? null : <p>There is no bag for this outing. The sheet says why, so that it can be handed on.</p>}
    </PdfSheet>
  );
}

import { Button } from '@mantine/core';
import { useState } from 'react';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { isoWithOffset } from './isoWithOffset.ts';
import { PdfPages } from './PdfPages.tsx';
import { useManifestPdf } from './useManifestPdf.ts';
import classes from './Manifest.module.css';

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
}

type Said = { text: string; address?: string | null } | null;

/** The manifest as the very PDF that is printed and saved. */
export function ManifestSheet(props: ManifestSheetProps) {
  const {
    plan,
    result,
    fileName,
    outing,
    units,
    host,
    person = '',
    paper: firstPaper = 'A4',
    onPaper,
    dataTime,
  } = props;
  const [paper, setPaper] = useState(firstPaper);
  const [openedAt] = useState(() => isoWithOffset(new Date()));
  const [said, setSaid] = useState<Said>(null);
  const time = dataTime ?? openedAt;
  const { pdf, again } = useManifestPdf(host, { plan, result, outing, units, fileName, paper, dataTime: time, person });

  const name = `manifest_${plan.source.task?.id ?? fileName.replace(/\.[^.]*$/, '')}_${outing}_${time.slice(0, 10)}.pdf`;
  const bytes = pdf.state === 'made' ? pdf.bytes : null;
  const attempt = (work: (bytes: Uint8Array) => Promise<Said>): void => {
    if (bytes === null) return;
    setSaid(null);
    work(bytes).then(setSaid, (error: unknown) =>
      setSaid({ text: error instanceof Error ? error.message : String(error) }),
    );
  };
  const print = async (file: Uint8Array): Promise<Said> => {
    const { opened, address } = await host.printPdf({ name, bytes: file });
    return opened
      ? { text: 'Opened for printing.' }
      : { text: 'The manifest could not be opened here. Open it at this address to print it:', address };
  };
  const save = async (file: Uint8Array): Promise<Said> =>
    (await host.saveFile({ name, mediaType: 'application/pdf', bytes: file }))
      ? { text: `Saved as ${name}.` }
      : { text: 'Not saved.' };

  const holds = result.outings.some(({ id }) => id === outing);
  return (
    <section className={classes['sheet']} aria-label="Manifest">
      <div className={classes['head']}>
        <h1>Manifest, {plan.outings.find(({ id }) => id === outing)?.name ?? outing}</h1>
        {result.status === 'infeasible' ? (
          <StateMark
            state="infeasible"
            {...(holds ? { text: 'The plan cannot be done as a whole: this outing only' } : {})}
          />
        ) : (
          <StateMark state={holds && result.status === 'optimal' ? 'proved-least' : 'not-proved'} />
        )}
        <fieldset className={classes['papers']}>
          <legend className="bw-hidden">Paper</legend>
          {(['A4', 'Letter'] as const).map((each) => (
            <label key={each}>
              <input
                type="radio"
                name="manifest-paper"
                checked={paper === each}
                onChange={() => {
                  setPaper(each);
                  onPaper?.(each);
                }}
              />
              {each}
            </label>
          ))}
        </fieldset>
        <Button disabled={bytes === null} onClick={() => attempt(save)}>
          Save PDF…
        </Button>
        <Button variant="filled" disabled={bytes === null} onClick={() => attempt(print)}>
          Print…
        </Button>
      </div>
      <p className={classes['caution']}>
        <b>{cautionLead}</b> {cautionText}
      </p>
      <p role="status" className={classes['said']}>
        {said?.text}
        {said?.address === undefined || said.address === null ? null : (
          <>
            {' '}
            <a href={said.address} target="_blank" rel="noreferrer">
              {said.address}
            </a>
          </>
        )}
      </p>
      {holds ? null : <p>There is no bag for this outing. The sheet says why, so that it can be handed on.</p>}
      {pdf.state === 'making' ? <p>Laying out the pages…</p> : null}
      {pdf.state === 'failed' ? (
        <div role="alert" className={classes['failed']}>
          <p>
            <b>No PDF.</b> {pdf.reason}
          </p>
          <Button onClick={again}>Make it again</Button>
        </div>
      ) : null}
      {bytes === null ? null : <PdfPages bytes={bytes} />}
    </section>
  );
}

import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ReactNode } from 'react';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { PdfPages } from './PdfPages.tsx';
import type { MadePdf } from './usePdf.ts';
import classes from './Manifest.module.css';

export interface PdfSheetProps {
  /** What the sheet is: "Manifest". In a sentence: "manifest". */
  label: string;
  word: string;
  heading: string;
  /** Beside the heading: how good its answer is. */
  mark?: ReactNode;
  /** Said above the pages. */
  children?: ReactNode;
  host: Host;
  pdf: MadePdf;
  again: () => void;
  /** Of the file, with its ending. */
  name: string;
  pagesLabel: string;
  paper: DocumentToPrint['paper'];
  /** Null where the document says its own size. */
  onPaper: ((paper: DocumentToPrint['paper']) => void) | null;
}

type Said = { text: string; address?: string | null } | null;

/** A document as the very PDF that is printed and saved. */
export function PdfSheet(props: PdfSheetProps) {
  const { label, word, heading, mark, children, host, pdf, again, name, pagesLabel, paper, onPaper } = props;
  const [said, setSaid] = useState<Said>(null);
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
      : { text: `The ${word} could not be opened here. Open it at this address to print it:`, address };
  };
  const save = async (file: Uint8Array): Promise<Said> =>
    (await host.saveFile({ name, mediaType: 'application/pdf', bytes: file }))
      ? { text: `Saved as ${name}.` }
      : { text: 'Not saved.' };
  return (
    <section className={classes['sheet']} aria-label={label}>
      <div className={classes['head']}>
        <h1>{heading}</h1>
        {mark}
        {onPaper === null ? null : (
          <fieldset className={classes['papers']}>
            <legend className="bw-hidden">Paper</legend>
            {(['A4', 'Letter'] as const).map((each) => (
              <label key={each}>
                <input type="radio" name={`${word}-paper`} checked={paper === each} onChange={() => onPaper(each)} />
                {each}
              </label>
            ))}
          </fieldset>
        )}
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
      {children}
      {pdf.state === 'making' ? <p>Laying out the pages…</p> : null}
      {pdf.state === 'failed' ? (
        <div role="alert" className={classes['failed']}>
          <p>
            <b>No PDF.</b> {pdf.reason}
          </p>
          <Button onClick={again}>Make it again</Button>
        </div>
      ) : null}
      {bytes === null ? null : <PdfPages bytes={bytes} label={pagesLabel} />}
    </section>
  );
}

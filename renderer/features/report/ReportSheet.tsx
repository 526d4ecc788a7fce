import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { Switch } from '../../components/Switch/Switch.tsx';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { PdfPages } from '../manifest/PdfPages.tsx';
import { subjectWords, type Report } from './report.ts';
import { reportHash } from './reportDocument.ts';
import { reportFile, reportName } from './reportFiles.ts';
import { tableForms, type TableForm } from './tableFile.ts';
import { useReportPdf } from './useReportPdf.ts';
import './report.css';

export interface ReportSheetProps {
  /** Kept as one object as long as it says the same: a new one is laid out anew. */
  report: Report;
  host: Host;
  paper?: DocumentToPrint['paper'] | undefined;
  onPaper?: ((paper: DocumentToPrint['paper']) => void) | undefined;
  /** When the data was as reported, ISO with offset; the opening of this sheet where it is not known. */
  dataTime?: string | undefined;
}

type Said = { text: string; address?: string | null } | null;

const papers = [
  { value: 'A4', label: 'A4' },
  { value: 'Letter', label: 'Letter' },
] as const;

/** A report as the very PDF that is printed and saved, and the same as files for programs. */
export function ReportSheet({ report, host, paper: firstPaper = 'A4', onPaper, dataTime }: ReportSheetProps) {
  const [paper, setPaper] = useState(firstPaper);
  const [form, setForm] = useState<TableForm>('csv');
  const [openedAt] = useState(() => isoWithOffset(new Date()));
  const [said, setSaid] = useState<Said>(null);
  const time = dataTime ?? openedAt;
  const { pdf, again } = useReportPdf(host, { report, paper, dataTime: time });
  const name = `${reportName(report, time)}.pdf`;
  const bytes = pdf.state === 'made' ? pdf.bytes : null;

  const attempt = (work: () => Promise<Said>): void => {
    setSaid(null);
    work().then(setSaid, (error: unknown) => setSaid({ text: error instanceof Error ? error.message : String(error) }));
  };
  const savePdf = async (file: Uint8Array): Promise<Said> =>
    (await host.saveFile({ name, mediaType: 'application/pdf', bytes: file }))
      ? { text: `Saved as ${name}.` }
      : { text: 'Not saved.' };
  const print = async (file: Uint8Array): Promise<Said> => {
    const { opened, address } = await host.printPdf({ name, bytes: file });
    return opened
      ? { text: 'Opened for printing.' }
      : { text: 'The report could not be opened here. Open it at this address to print it:', address };
  };
  const saveForm = async (): Promise<Said> => {
    const [{ version }, hash] = await Promise.all([host.info(), reportHash(report)]);
    const file = reportFile(report, form, { dataTime: time, appVersion: version, hash });
    return (await host.saveFile(file)) ? { text: `Saved as ${file.name}.` } : { text: 'Not saved.' };
  };

  return (
    <section className="bw-report" aria-label="Report">
      <div className="bw-report-head">
        <h1>{subjectWords[report.heading.subject].title}</h1>
        <Switch
          label="Paper"
          value={paper}
          choices={papers}
          onChange={(chosen) => {
            setPaper(chosen);
            onPaper?.(chosen);
          }}
        />
        <Button disabled={bytes === null} onClick={() => bytes !== null && attempt(() => savePdf(bytes))}>
          Save PDF…
        </Button>
        <Button
          variant="filled"
          disabled={bytes === null}
          onClick={() => bytes !== null && attempt(() => print(bytes))}
        >
          Print…
        </Button>
      </div>
      <div className="bw-report-head">
        <NativeSelect
          aria-label="Form of the file"
          className="bw-report-form"
          value={form}
          data={[...tableForms]}
          onChange={({ currentTarget }) =>
            setForm(tableForms.find(({ value }) => value === currentTarget.value)?.value ?? 'csv')
          }
        />
        <Button onClick={() => attempt(saveForm)}>Save findings…</Button>
        <p role="status">
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
      </div>
      <p className="bw-report-caution">
        <b>{cautionLead}</b> {cautionText}
      </p>
      {pdf.state === 'making' ? <p role="status">Laying out the pages…</p> : null}
      {pdf.state === 'failed' ? (
        <div role="alert" className="bw-report-failed">
          <p>
            <b>No PDF.</b> {pdf.reason}
          </p>
          <Button onClick={again}>Make it again</Button>
        </div>
      ) : null}
      {bytes === null ? null : <PdfPages bytes={bytes} label="The report as it will be printed" />}
    </section>
  );
}

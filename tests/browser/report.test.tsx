import '../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { DocumentToPrint, FileToSave, Host } from '../../shared-types/host.ts';
import { ReportSheet } from '../../renderer/features/report/ReportSheet.tsx';
import { judgedReport } from '../support/judgedList.ts';
import { noSnapshots } from './support/noSnapshots.ts';
import { memoryJournal } from '../support/memoryJournal.ts';
import { axeFaults } from './support/axe.ts';
import { hostileTexts } from './hostileTexts.ts';
import { pdfOfPages } from './pdfOfPages.ts';
import { shown } from './shown.tsx';
import { reportDocument } from '../../renderer/features/report/reportDocument.ts';

interface Asked {
  laid: DocumentToPrint[];
  saved: FileToSave[];
  printed: Uint8Array[];
  faults: { pdf: string | null };
}

async function openReport(scheme: 'light' | 'dark' = 'light', fault: string | null = null): Promise<Asked> {
  const asked: Asked = { laid: [], saved: [], printed: [], faults: { pdf: fault } };
  const host: Host = {
    journal: memoryJournal().window(),
    info: () => Promise.resolve({ kind: 'browser-window', version: '0.1.0', dataFolder: '/data' }),
    openText: () => Promise.resolve(null),
    saveFile: (file) => Promise.resolve(asked.saved.push(file) > 0),
    makePdf: (document) => {
      asked.laid.push(document);
      return asked.faults.pdf === null ? Promise.resolve(pdfOfPages(3)) : Promise.reject(new Error(asked.faults.pdf));
    },
    printPdf: ({ bytes }) => Promise.resolve({ opened: asked.printed.push(bytes) > 0, address: null }),
    snapshots: noSnapshots(),
  };
  const report = judgedReport(12);
  await shown(
    <main style={{ background: 'var(--bw-sheet)', height: '760px' }}>
      <ReportSheet report={report} host={host} dataTime="2026-11-25T10:42:00+01:00" />
    </main>,
    { widthPx: 1200, scheme },
  );
  return asked;
}

describe('a report', () => {
  it('shows the very PDF that it saves and prints', async () => {
    const { laid, saved, printed } = await openReport();
    await expect.element(page.getByRole('region', { name: 'The report as it will be printed' })).toBeVisible();
    await expect.element(page.getByText('Page 1 of 3').first()).toBeVisible();
    await userEvent.click(page.getByRole('button', { name: 'Save PDF…' }));
    await userEvent.click(page.getByRole('button', { name: 'Print…' }));
    await expect.element(page.getByText('Opened for printing.')).toBeVisible();
    expect(saved[0]).toMatchObject({
      mediaType: 'application/pdf',
      name: 'callouts_Lamp platform, callouts_2026-11-25.pdf',
    });
    expect(saved[0]?.bytes).toEqual(pdfOfPages(3));
    expect(printed[0]).toEqual(pdfOfPages(3));
    expect(laid).toHaveLength(1);
    await userEvent.click(page.getByText('Letter', { exact: true }));
    await expect.poll(() => laid.map(({ paper }) => paper)).toEqual(['A4', 'Letter']);
  });

  it('is saved in every form it names', async () => {
    const { saved } = await openReport();
    const form = page.getByRole('combobox', { name: 'Form of the file' });
    for (const value of ['csv', 'exact-csv', 'xlsx', 'json']) {
      await userEvent.selectOptions(form, value);
      await userEvent.click(page.getByRole('button', { name: 'Save findings…' }));
      await expect.element(page.getByText(/^Saved as callouts_/)).toBeVisible();
    }
    await expect
      .poll(() => saved.map(({ name }) => name.replace(/^callouts_Lamp platform, callouts_2026-11-25/, '')))
      .toEqual([...['.csv', '_exact.csv', '.xlsx', '.json']]);
    expect(saved.every(({ bytes }) => bytes.length > 500)).toBe(true);
  });

  it('says why there is no PDF, and makes it when asked again', async () => {
    const asked = await openReport('light', 'No browser was found.');
    await expect.element(page.getByRole('alert')).toHaveTextContent(/No PDF\. No browser was found\./);
    await expect.element(page.getByRole('button', { name: 'Print…' })).toBeDisabled();
    asked.faults.pdf = null;
    await userEvent.click(page.getByRole('button', { name: 'Make it again' }));
    await expect.element(page.getByText('Page 1 of 3').first()).toBeVisible();
  });

  it('has no markup of anybody’s in it, whatever was typed', async () => {
    for (const text of hostileTexts) {
      const base = judgedReport(1);
      const [row] = base.rows;
      if (row === undefined) throw new Error('no row');
      const finding = { rule: text, severity: 'reject', message: text, unit: text, value: 1, source: text } as const;
      const report = {
        ...base,
        heading: { ...base.heading, name: text, task: text, site: text, from: text, person: text },
        rows: [{ ...row, id: text, said: [text], findings: [finding], computed: [text], assumptions: [text] }],
        notes: [text],
        unknownColumns: [text],
      };
      const request = { report, paper: 'A4', dataTime: '2026-11-25T10:42:00Z', appVersion: '0', fonts: [] } as const;
      const { html } = await reportDocument(request);
      const made = new DOMParser().parseFromString(html, 'text/html');
      expect(made.querySelectorAll('script,link,img,iframe,object,embed,a[href],form,svg[onload],base')).toHaveLength(
        0,
      );
      expect(made.querySelectorAll('style')).toHaveLength(1);
      expect(
        [...made.querySelectorAll('*')]
          .flatMap(({ attributes }) => [...attributes])
          .filter(({ name }) => name.startsWith('on')),
      ).toEqual([]);
    }
  });
});

it.each(['light', 'dark'] as const)('has no fault that axe knows, %s', async (scheme) => {
  await openReport(scheme);
  await expect.element(page.getByText('Page 1 of 3').first()).toBeVisible();
  expect(await axeFaults()).toEqual([]);
});

import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { contentHash } from '../manifest/contentHash.ts';
import { html, Markup, plainText } from '../manifest/html.ts';
import { marginBoxes, marginName, spoken } from '../manifest/pageFurniture.ts';
import { fontRules, type PrintFace } from '../manifest/printFonts.ts';
import type { PrintedHead } from '../manifest/useJournalHead.ts';
import { sheetStyle } from '../manifest/sheetStyle.ts';
import { subjectWords, type Report } from './report.ts';
import { findingsTable, reportHead } from './reportBody.ts';
import { reportStyle } from './reportStyle.ts';

export interface ReportRequest {
  report: Report;
  paper: 'A4' | 'Letter';
  /** Of the data, ISO with its offset from UTC. */
  dataTime: string;
  appVersion: string;
  fonts: readonly PrintFace[];
  journal?: PrintedHead;
}

/** Fonts and styles stand in the document; it can run nothing and fetch nothing. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:";

/** What a report's content is known by, on paper and in its files. */
export function reportHash(report: Report): Promise<string> {
  return contentHash(JSON.stringify(report));
}

/** A report as one document to print: the same request, the same bytes. */
export async function reportDocument({
  report,
  paper,
  dataTime,
  appVersion,
  fonts,
  journal,
}: ReportRequest): Promise<DocumentToPrint> {
  const hash = await reportHash(report);
  const { heading } = report;
  const words = subjectWords[heading.subject];
  const title = `${words.title}: ${plainText(heading.name)}`;
  const furniture = marginBoxes({
    paper,
    journal,
    left: [words.title, `List: ${marginName(heading.name)}`, `Task: ${marginName(heading.task ?? 'none')}`],
    middle: [`Data of ${spoken(dataTime)}`, `Bagwright ${appVersion}`, `Content ${hash}`],
    right: [
      'Units as written. Numbers compared are exact; shown to six digits, half to even.',
      `Uncontrolled when printed unless checked against content ${hash}.`,
    ],
  });
  const style = new Markup(`${fontRules(fonts)}${furniture}${sheetStyle}${reportStyle}`);
  const body = html`${reportHead(report, dataTime)}${findingsTable(report)}`;
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${new Markup(policy)}" />
        <meta name="bagwright-data-time" content="${dataTime}" />
        <title>${title}</title>
        <style>
          ${style}
        </style>
      </head>
      <body>
        <p class="signs" aria-hidden="true">${[...new Set(body.text)].join('')}</p>
        ${body}
      </body>
    </html> `;
  return { title, html: page.text, paper };
}

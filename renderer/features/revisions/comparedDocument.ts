import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { contentHash } from '../manifest/contentHash.ts';
import { html, plainText } from '../manifest/html.ts';
import type { Markup } from '../manifest/html.ts';
import { caution, typed } from '../manifest/manifestBody.ts';
import { marginBoxes, marginName, spoken } from '../manifest/pageFurniture.ts';
import { printedPage } from '../manifest/printedPage.ts';
import { sheetStyle } from '../manifest/sheetStyle.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import type { ComparisonRow } from './comparisonRows.ts';

export interface ComparedPrint extends PrintMeans {
  task: { code: string; name: string };
  /** What the two are called, the earlier first, and who froze each, when and why. */
  heads: readonly [string, string];
  said: readonly [string, string];
  summary: string;
  rows: readonly ComparisonRow[];
  paper: DocumentToPrint['paper'];
  /** When they were compared, ISO with its offset. */
  dataTime: string;
}

/** Two frozen manifests, or one and the task as it stands, as one document to print: the same request, the same bytes. */
export async function comparedDocument(request: ComparedPrint): Promise<DocumentToPrint> {
  const { task, heads, said, summary, rows, paper, dataTime, fonts, appVersion, journal } = request;
  const hash = await contentHash(JSON.stringify({ heads, said, summary, rows }));
  const both = `${heads[0]} and ${heads[1]}`;
  const title = `Compared: ${plainText(`${task.code}, ${both}`)}`;
  const furniture = marginBoxes({
    ...{ paper, journal },
    left: ['Compared', marginName(both), `Task: ${marginName(`${task.code}, ${task.name}`)}`],
    middle: [`Compared ${spoken(dataTime)}`, `Bagwright ${appVersion}`, `Content ${hash}`],
    right: ['Quantities as typed.', `Uncontrolled when printed unless checked against content ${hash}.`],
  });
  const body = html`<p class="small">Frozen manifests compared</p>
    <h1>${typed(task.name)}<br /><span class="outing">${both}</span></h1>
    <p class="lead"><b>${summary}</b></p>
    ${said.map((one, at) => html`<p class="small"><b>${heads[at] ?? ''}</b>: ${typed(one)}</p> `)} ${caution()}
    ${rows.length === 0 ? null : table(rows, heads)}
    <p class="end">End of comparison, ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}.</p>`;
  return printedPage({ title, paper, dataTime, fonts, style: `${furniture}${sheetStyle}`, body });
}

function table(rows: readonly ComparisonRow[], heads: readonly [string, string]): Markup {
  const parts = [...new Set(rows.map(({ part }) => part))];
  return html`<table class="steps">
    <colgroup>
      <col style="width:50mm" />
      <col style="width:38mm" />
      <col />
      <col />
    </colgroup>
    <thead>
      <tr>
        <th scope="col">What</th>
        <th scope="col">How</th>
        <th scope="col">${heads[0]}</th>
        <th scope="col">${heads[1]}</th>
      </tr>
    </thead>
    ${parts.map(
      (part) =>
        html`<tbody>
          <tr class="band">
            <th scope="rowgroup" colspan="4">${part}</th>
          </tr>
          ${rows.filter((row) => row.part === part).map(tableRow)}
        </tbody> `,
    )}
  </table> `;
}

function tableRow({ what, code, how, was, is }: ComparisonRow): Markup {
  const name = what === '' || what === code ? null : html`${typed(what)}<br />`;
  return html`<tr>
    <th scope="row">${name}${code === '' ? null : html`<span class="code small">${typed(code)}</span>`}</th>
    <td>${how}</td>
    <td>${typed(was)}</td>
    <td>${typed(is)}</td>
  </tr> `;
}

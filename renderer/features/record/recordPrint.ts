import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { contentHash } from '../manifest/contentHash.ts';
import { html, plainText } from '../manifest/html.ts';
import type { Markup, Part } from '../manifest/html.ts';
import { caution, typed } from '../manifest/manifestBody.ts';
import { marginBoxes, marginName, spoken } from '../manifest/pageFurniture.ts';
import { printedPage } from '../manifest/printedPage.ts';
import { sheetStyle } from '../manifest/sheetStyle.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';

/** A column of a printed list: its head, its width in mm where it is not the rest, and whether figures stand in it. */
export interface PrintedColumn {
  head: string;
  mm?: number;
  figures?: boolean;
}

/** Rows under a heading of their own. */
export interface PrintedGroup {
  called: string;
  rows: readonly (readonly Part[])[];
}

/** A list as it is printed: the same content is the same text, and its hash names it. */
export interface PrintedList {
  /** "Return list" */
  sheet: string;
  heading: string;
  /** Under the heading, smaller. */
  beneath: string;
  said: readonly Part[];
  columns: readonly PrintedColumn[];
  groups: readonly PrintedGroup[];
  /** Where there are no rows. */
  none: string;
  /** Who signs: "Counted in by". */
  signs: readonly string[];
  /** "End of return list, 27 lines." */
  end: string;
}

export interface ListPrint extends PrintMeans {
  list: PrintedList;
  paper: DocumentToPrint['paper'];
  /** Of the data, ISO with its offset from UTC. */
  dataTime: string;
  /** Lines of the title block: task, outing; and of its middle: revision, its content's hash. */
  margins: { left: readonly string[]; middle: readonly string[] };
}

/** Rows of a table between two visible breaks. */
const chunkLines = 10;

/** A list of the record as one document to print: the same request, the same bytes. */
export async function listDocument(request: ListPrint): Promise<DocumentToPrint> {
  const { list, paper, dataTime, margins, appVersion, fonts, journal } = request;
  const body = html`<p class="small">${list.sheet}</p>
    <h1>${typed(list.heading)}<br /><span class="outing">${typed(list.beneath)}</span></h1>
    ${list.said.map((text) => html`<p>${text}</p>`)} ${caution()}${tableOf(list)}${signatures(list.signs)}
    <p class="end">${list.end}</p> `;
  const hash = await contentHash(body.text);
  const furniture = marginBoxes({
    ...{ paper, journal },
    left: [list.sheet, ...margins.left.map(marginName)],
    middle: [...margins.middle, `Data of ${spoken(dataTime)}`, `Bagwright ${appVersion}`, `Content ${hash}`],
    right: ['Pieces and parts are counted.', `Uncontrolled when printed unless checked against content ${hash}.`],
  });
  const title = `${list.sheet}: ${plainText(list.heading)}, ${plainText(list.beneath)}`;
  return printedPage({ title, paper, dataTime, fonts, style: `${furniture}${sheetStyle}${listStyle}`, body });
}

const listStyle = `.list td,.list tbody th{vertical-align:top}.list td{font-size:9.5pt;line-height:12.4pt}.signs{grid-template-columns:repeat(auto-fit,minmax(50mm,1fr))}`;

function tableOf({ columns, groups, none }: PrintedList): Markup {
  if (groups.every(({ rows }) => rows.length === 0)) return html`<p><b>${none}</b></p>`;
  return html`<table class="steps list">
    <colgroup>
      ${columns.map(({ mm }) => (mm === undefined ? html`<col />` : html`<col style="width:${mm}mm" />`))}
    </colgroup>
    <thead>
      <tr>
        ${columns.map(({ head, figures }) => html`<th scope="col" class="${figures === true ? 'num' : ''}">${head}</th>`)}
      </tr>
    </thead>
    ${groups.flatMap((group) => bodiesOf(group, columns))}
  </table> `;
}

function bodiesOf({ called, rows }: PrintedGroup, columns: readonly PrintedColumn[]): Markup[] {
  const bodies: Markup[] = [];
  for (let from = 0; from < rows.length; from += chunkLines) {
    const chunk = rows.slice(from, from + chunkLines);
    const lines = from === 0 ? '' : `, from line ${from + 1}`;
    bodies.push(
      html`<tbody>
        <tr class="${from === 0 ? 'band' : 'part'}">
          <th scope="rowgroup" colspan="${columns.length}">${typed(called)}${lines}</th>
        </tr>
        ${chunk.map(
          (cells) =>
            html`<tr>
              ${cells.map((cell, at) => html`<td class="${columns[at]?.figures === true ? 'num' : ''}">${cell}</td>`)}
            </tr> `,
        )}
      </tbody> `,
    );
  }
  return bodies;
}

function signatures(signs: readonly string[]): Part {
  if (signs.length === 0) return null;
  return html`<div class="sign signs">
    ${signs.map(
      (sign) =>
        html`<div>
          <b>${sign}</b><i>Name</i><i>Signature</i>
          <div class="two"><i>Date</i><i>Time</i></div>
        </div> `,
    )}
  </div> `;
}

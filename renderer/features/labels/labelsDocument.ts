import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { RefusedError } from '../../engine/errors.ts';
import { groupedTag } from '../../engine/tag/index.ts';
import { contentHash } from '../manifest/contentHash.ts';
import { html, Markup, plainText, shortened } from '../manifest/html.ts';
import { caution, typed } from '../manifest/manifestBody.ts';
import { marginBoxes, marginName, spoken } from '../manifest/pageFurniture.ts';
import { printedPage } from '../manifest/printedPage.ts';
import { sheetStyle } from '../manifest/sheetStyle.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { countOf } from '../steps/words.ts';
import { formFault, labelPlaces, onPages, sheetRoom } from './labelForm.ts';
import type { Box, LabelForm, LabelPlaces, SheetRoom } from './labelForm.ts';
import type { Label } from './labels.ts';
import { labelsStyle } from './labelsStyle.ts';
import { symbolPath } from './symbolPaths.ts';

export interface LabelsRequest {
  labels: readonly Label[];
  form: LabelForm;
  paper: DocumentToPrint['paper'];
  /** What the labels are for: a shelf, a bag, a revision. */
  source: string;
  /** "Revision 3", "not frozen", or a dash where there is none. */
  revision: string;
  /** Of the data, ISO with its offset from UTC. */
  dataTime: string;
}

/** So much of a name is laid out at all, in signs and by their width in ems; what does not fit is cut where it ends. */
const nameSigns = 400;
const nameEms = 120;

const mm = (value: number): string => `${Math.round(value * 1000) / 1000}mm`;
const boxStyle = ({ leftMm, topMm, widthMm, heightMm }: Box): string =>
  `left:${mm(leftMm)};top:${mm(topMm)};width:${mm(widthMm)};height:${mm(heightMm)}`;

function cut(text: string): Markup {
  return typed(shortened(text.length > nameSigns ? `${text.slice(0, nameSigns)}…` : text, nameEms));
}

function labelMarkup(label: Label, places: LabelPlaces, at: Box): Markup {
  const { words, digits, nameLines, square } = places;
  const tag = html`<span class="tag">${groupedTag(label.text)}</span>`;
  const what = html`<b class="what">${cut(label.code)}</b>`;
  const said = html`<span class="said">${cut(label.said)}</span>`;
  const name = html`<span class="name" style="-webkit-line-clamp:${nameLines}">${cut(label.name)}</span>`;
  return html`<div class="label" style="${boxStyle(at)}">
    <div class="words" style="${boxStyle(words)}">
      ${square === null ? html`<span class="row">${what}${said}</span>${name}` : html`${what}${name}${said}`}${digits === null ? tag : null}
    </div>
    ${digits === null ? null : html`<div class="digits" style="${boxStyle(digits)}">${tag}</div>`}
  </div>`;
}

/** One page of labels: all bars and squares in one drawing in dots, the words of each over it. */
function pageMarkup(labels: readonly Label[], places: LabelPlaces, columns: number, on: LabelForm['on']): Markup {
  const { width, height, dots } = places;
  const rows = Math.ceil(labels.length / columns);
  const placed = labels.map((label, at) => ({
    label,
    x: (at % columns) * width,
    y: Math.floor(at / columns) * height,
  }));
  const [across, down] = [width * Math.min(columns, labels.length), height * rows];
  const paths = placed.map(
    ({ label, x, y }) => html`<path d="${new Markup(symbolPath(label.text, places, { x, y }))}"></path>`,
  );
  const edges = placed.map(
    ({ x, y }) =>
      html`<rect
        x="${x}"
        y="${y}"
        width="${width}"
        height="${height}"
        fill="none"
        stroke="#999"
        stroke-width="1"
      ></rect>`,
  );
  // The outermost edges lie on the drawing's own, which the page's grid of pixels may cut: on sheets there is room for them.
  const spare = on === 'single' ? 0 : 2;
  return html`<section class="page" style="height:${mm(down * dots.dotMm)}">
    <svg
      role="img"
      aria-label="Bars and squares of ${countOf(labels.length, 'label')}; each carries the digits written on it"
      width="${mm((across + spare) * dots.dotMm)}"
      height="${mm((down + spare) * dots.dotMm)}"
      viewBox="0 0 ${across + spare} ${down + spare}"
      shape-rendering="crispEdges"
    >
      ${on === 'single' ? null : edges}${paths}
    </svg>
    ${placed.map(({ label, x, y }) =>
      labelMarkup(label, places, {
        ...{ leftMm: x * dots.dotMm, topMm: y * dots.dotMm },
        ...{ widthMm: width * dots.dotMm, heightMm: height * dots.dotMm },
      }),
    )}
  </section>`;
}

/** How the labels lie on their pages; or why they cannot be printed so. */
export function labelSheets({
  labels,
  form,
  paper,
}: Pick<LabelsRequest, 'labels' | 'form' | 'paper'>):
  | { pages: Label[][]; places: LabelPlaces; columns: number }
  | { fault: string } {
  const fault = formFault(form);
  if (fault !== null) return { fault };
  const places = labelPlaces(form);
  const room: SheetRoom | { fault: string } =
    form.on === 'single' ? { columns: 1, firstRows: 1, otherRows: 1 } : sheetRoom(places, paper);
  if ('fault' in room) return room;
  return { pages: onPages(labels, room), places, columns: room.columns };
}

/** Labels as one document to print: the same request, the same bytes. Sheets carry the caution and a title block, single labels have no room. */
export async function labelsDocument(request: LabelsRequest & PrintMeans): Promise<DocumentToPrint> {
  const { labels, form, paper, source, revision, dataTime, appVersion, fonts, journal } = request;
  const sheets = labelSheets(request);
  if ('fault' in sheets) throw new RefusedError({ code: 'out-of-range', message: sheets.fault });
  if (labels.length === 0 && form.on === 'single')
    throw new RefusedError({ code: 'missing-field', message: 'no label to print: nothing chosen has a label number' });
  const { pages, places, columns } = sheets;
  const title = `Labels: ${plainText(source)}`;
  const hash = await contentHash(JSON.stringify({ labels, form }));
  const furniture =
    form.on === 'single'
      ? `@page{size:${mm(form.widthMm)} ${mm(form.heightMm)};margin:0}`
      : marginBoxes({
          paper,
          journal,
          left: ['Labels', `For: ${marginName(source)}`, countOf(labels.length, 'label')],
          middle: [
            `Revision: ${revision}`,
            `Data of ${spoken(dataTime)}`,
            `Bagwright ${appVersion}`,
            `Content ${hash}`,
          ],
          right: [
            `For a printer of ${form.dpi} dots to the inch. Print at 100 %, not fitted to the page.`,
            `Uncontrolled when printed unless checked against content ${hash}.`,
          ],
        });
  const body = pages.map((page) => pageMarkup(page, places, columns, form.on));
  return printedPage({
    ...{ title, paper, dataTime, fonts },
    style: `${sheetStyle}${labelsStyle}${furniture}`,
    body: form.on === 'single' ? html`${body}` : html`${headingMarkup(request)}${body}`,
  });
}

function headingMarkup({ labels, source, form }: LabelsRequest): Markup {
  const said =
    labels.length === 0
      ? 'No label: nothing chosen has a label number.'
      : `${countOf(labels.length, 'label')}, for a printer of ${form.dpi} dots to the inch. Print at 100 %, not fitted to the page; scan one of each sheet before it is used.`;
  return html`<div class="heading">
    <h1>Labels: ${typed(shortened(source, 60))}</h1>
    <p class="lead small">${said}</p>
    ${caution()}
  </div>`;
}

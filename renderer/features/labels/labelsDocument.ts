import type { DocumentToPrint } from '../../../shared-types/host.ts';
import { RefusedError } from '../../engine/errors.ts';
import { groupedTag } from '../../engine/tag/index.ts';
import { contentHash } from '../manifest/contentHash.ts';
import { html, Markup, plainText, shortened } from '../manifest/html.ts';
import type { Part } from '../manifest/html.ts';
import { caution } from '../manifest/manifestBody.ts';
import { marginBoxes, marginName, spoken } from '../manifest/pageFurniture.ts';
import { printedPage } from '../manifest/printedPage.ts';
import { sheetStyle } from '../manifest/sheetStyle.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { typed } from '../report/typed.ts';
import { countOf } from '../steps/words.ts';
import { formFault, labelPlaces, onPages, sheetRoom } from './labelForm.ts';
import { headLabels } from './headLabels.ts';
import type { LabelForm, LabelPlaces, SheetRoom } from './labelForm.ts';
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

function cut(text: string): Part {
  return typed(shortened(text.length > nameSigns ? `${text.slice(0, nameSigns)}…` : text, nameEms));
}

/** Beside the bars the piece stands in the line of the code, to the right. */
function wordsOf(label: Label, { square }: LabelPlaces): Markup {
  const code = html`<b>${cut(label.code)}</b>`;
  const name = html`<span>${cut(label.name)}</span>`;
  const said = html`<i>${cut(label.said)}</i>`;
  const words = square === null ? html`${said}${code}${name}` : html`${code}${name}${said}`;
  return html`${words}<u>${groupedTag(label.text)}</u>`;
}

const saidOf = (labels: readonly Label[]): string =>
  `Bars and squares of ${countOf(labels.length, 'label')}; each carries the digits written on it`;

/** One label by itself, and its page. */
function singleMarkup(label: Label, places: LabelPlaces): Markup {
  const { width, height, dots } = places;
  return html`<section class="page label">
    <svg
      role="img"
      aria-label="${saidOf([label])}"
      width="${mm(width * dots.dotMm)}"
      height="${mm(height * dots.dotMm)}"
      viewBox="0 0 ${width} ${height}"
      shape-rendering="crispEdges"
    >
      <path d="${new Markup(symbolPath(label.text, places, { x: 0, y: 0 }))}"></path></svg
    >${wordsOf(label, places)}
  </section> `;
}

/** One page of labels: all bars and squares are one path in dots, all edges another, and the words of each lie over them. */
function pageMarkup(labels: readonly Label[], places: LabelPlaces, columns: number): Markup {
  const { width, height, dots } = places;
  const placed = labels.map((label, at) => ({
    label,
    x: (at % columns) * width,
    y: Math.floor(at / columns) * height,
  }));
  const [across, down] = [width * Math.min(columns, labels.length), height * Math.ceil(labels.length / columns)];
  const symbols = placed.map(({ label, x, y }) => symbolPath(label.text, places, { x, y })).join('');
  const edges = placed.map(({ x, y }) => `M${x} ${y}h${width}v${height}h${-width}z`).join('');
  // The outermost edges lie on the drawing's own, which the page's grid of pixels may cut: there is room for them.
  const spare = 2;
  return html`<section class="page" style="height:${mm(down * dots.dotMm)}">
    <svg
      role="img"
      aria-label="${saidOf(labels)}"
      width="${mm((across + spare) * dots.dotMm)}"
      height="${mm((down + spare) * dots.dotMm)}"
      viewBox="0 0 ${across + spare} ${down + spare}"
      shape-rendering="crispEdges"
    >
      <path d="${new Markup(edges)}" fill="none" stroke="#999" stroke-width="1"></path>
      <path d="${new Markup(symbols)}"></path>
    </svg>
    ${placed.map(
      ({ label, x, y }) =>
        html`<div class="label" style="left:${mm(x * dots.dotMm)};top:${mm(y * dots.dotMm)}">
          ${wordsOf(label, places)}
        </div>`,
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

/** Labels as one document to print: the same request, the same bytes. Sheets carry the caution and a title block; before single labels go those that carry them. */
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
  const content =
    form.on === 'single'
      ? html`${headLabels({ count: labels.length, source, hash, journal }, form).map(headMarkup)}${labels.map((label) => singleMarkup(label, places))}`
      : html`${headingMarkup(request)}${pages.map((page) => pageMarkup(page, places, columns))}`;
  const signs = html`<p class="signs" aria-hidden="true">${[...new Set(content.text)].join('')}<i>0123456789</i></p>`;
  return printedPage({
    ...{ title, paper, dataTime, fonts },
    style: `${sheetStyle}${labelsStyle(places, form)}${furniture}`,
    body: html`${signs}${content}`,
  });
}

const headMarkup = (lines: readonly string[]): Markup =>
  html`<section class="page label head">${lines.map((line) => html`<span>${line}</span>`)}</section> `;

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

import type { FrozenThing, Revision } from '../../../shared-types/records/revision.ts';
import { groupedTag, manifestTag, qrModules, qrQuiet, tagText } from '../../engine/tag/index.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import { html, type Markup } from './html.ts';
import { typed } from './manifestBody.ts';
import { spoken } from './pageFurniture.ts';

/** The frozen manifest that a document is printed of. A document of the open plan has none. */
export type PrintedRevision = Pick<Revision, 'number' | 'hash' | 'at' | 'by' | 'why' | 'content' | 'broughtIn'>;

/** As every page names it. */
export function revisionCell(frozen: PrintedRevision | undefined): string {
  return frozen === undefined ? 'not frozen' : String(frozen.number);
}

/** By what a page's content is known: of a frozen manifest the same on manifest, cards and lists. */
export function contentCell(frozen: PrintedRevision | undefined, own: string): string {
  return frozen === undefined ? own : shortHash(frozen.hash);
}

/** Modules of half a millimetre and more are read from any printer's page. */
const moduleMm = 0.6;

/** The square that names this very manifest, with its white around. */
function squareOf(text: string): Markup {
  const rows = qrModules(text);
  const side = rows.length + 2 * qrQuiet;
  const path = rows
    .flatMap((modules, y) => modules.flatMap((isDark, x) => (isDark ? [`M${x + qrQuiet} ${y + qrQuiet}h1v1h-1z`] : [])))
    .join('');
  return html`<svg
    class="square"
    role="img"
    aria-label="Square that carries ${groupedTag(text)}"
    viewBox="0 0 ${side} ${side}"
    style="width:${side * moduleMm}mm;height:${side * moduleMm}mm"
    shape-rendering="crispEdges"
  >
    <path d="${path}" />
  </svg>`;
}

/** Who froze it, when and why, and the whole hash, so that paper holds what the program must find again; on the first page. */
export function frozenWords({ number, at, by, why, hash }: PrintedRevision): Markup {
  const text = tagText(manifestTag({ number, hash }));
  return html`<div class="frozen">
    ${squareOf(text)}
    <p class="small">
      <b>Revision ${number}</b>, frozen ${spoken(at)} by ${typed(by.name)}, ${typed(by.role)}: ${typed(why)}<br />Content,
      SHA-256: <span class="code">${hash.replaceAll(/(.{8})(?=.)/g, '$1 ')}</span><br />Label of this manifest:
      <span class="code">${groupedTag(text)}</span>; a reader opens it under Frozen manifests.
    </p>
  </div> `;
}

/** What the catalog said of a thing beyond the plan when it was frozen: by what one piece is told from another. */
export function thingWords({ tag, serial, calibrationDue, parts }: FrozenThing): string {
  return [
    ...(tag === undefined ? [] : [`label ${tag}`]),
    ...(serial === undefined ? [] : [`serial ${serial}`]),
    ...(calibrationDue === undefined ? [] : [`calibration due ${calibrationDue}`]),
    ...(parts === 1 ? [] : [`${parts} parts each`]),
  ].join(', ');
}

import { silhouetteOf } from '../../components/BagMap/silhouette.ts';
import { piecesExtent } from '../../engine/bagMap/mapBlocks.ts';
import type { LaidBlock, MapBag, MapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { countOf } from '../steps/words.ts';
import { html } from './html.ts';
import type { Markup } from './html.ts';
import { typed } from './manifestBody.ts';

const paperMm = 180;
/** What a page has room for beside its heading; more of one bag or pocket is not torn over two. */
const heightMostMm = 205;
const letterPx = 7.6;
const labelLeastMm = 2.9;

/** The bags laid open, to one scale: what lies where, pocket by pocket. */
export function bagMapFigures(plan: ResolvedPlan, { bags, pxPerMmLeast: pxPerMm }: MapLayout): Markup {
  const longestPx = Math.max(...bags.map(({ lengthMm }) => lengthMm * pxPerMm));
  const mmPerPx = Math.min(0.36, paperMm / longestPx);
  const fontPx = Math.max(12, labelLeastMm / mmPerPx);
  return html`<h2>Bag map</h2>
    <p class="small">
      Each bag laid open as long as its longest size, 1 mm on paper for ${Math.round(10 / (mmPerPx * pxPerMm)) / 10} mm;
      each piece as long and wide as its own figures say.
    </p>
    ${bags.map((bag) =>
      stretchesOf(bag).map(({ name, fromMm, toMm, blocks }) => {
        const [widthPx, heightPx] = [bag.lengthMm * pxPerMm, (toMm - fromMm) * pxPerMm];
        const called = html`${typed(bag.bag.name)}${bag.bag.name === bag.bag.id ? null : ` (${bag.bag.id})`}${name === null ? null : html`, pocket ${typed(name)}`}`;
        if (heightPx * mmPerPx > heightMostMm)
          return html`<p>
            <b>${called}</b>: ${countOf(blocks.length, 'line')}, too much to be drawn to this scale on one page.
          </p> `;
        return html`<figure class="bag">
          <figcaption><b>${called}</b>${blocks.length === 0 ? ': nothing lies in it' : null}</figcaption>
          <svg
            viewBox="-1 -1 ${widthPx + 2} ${heightPx + 2}"
            style="width:${(widthPx + 2) * mmPerPx}mm;height:${(heightPx + 2) * mmPerPx}mm"
            role="img"
            aria-label="${blocks.map(({ block }) => block.label).join(', ')}"
          >
            <rect class="field" width="${widthPx}" height="${heightPx}" />
            ${blocks.map((one) => blockMarkup(plan, { ...one, yMm: one.yMm - fromMm }, { pxPerMm, fontPx }))}
          </svg>
        </figure> `;
      }),
    )} `;
}

/** A bag's pockets one by one; a bag without named pockets whole. */
function stretchesOf({ pockets, blocks, depthMm }: MapBag): {
  name: string | null;
  fromMm: number;
  toMm: number;
  blocks: LaidBlock[];
}[] {
  if (pockets.length === 0) return [{ name: null, fromMm: 0, toMm: depthMm, blocks }];
  return pockets.map(({ name, beginMm, endMm }) => ({
    ...{ name, fromMm: beginMm, toMm: endMm },
    blocks: blocks.filter(({ pocket }) => pocket === name),
  }));
}

function blockMarkup(
  plan: ResolvedPlan,
  { block, xMm, yMm, turned, widthMm }: LaidBlock,
  { pxPerMm, fontPx }: { pxPerMm: number; fontPx: number },
): Markup {
  const { outer, inner } = silhouetteOf(plan, block.item, block.piece, pxPerMm);
  const { stepXMm, stepYMm, heightMm } = piecesExtent(block, turned);
  const across = turned ? Math.ceil(block.drawn / block.columns) : block.columns;
  const letters = Math.max(3, Math.floor(((widthMm * pxPerMm + 0.5) * 12) / fontPx / letterPx));
  const count = block.label.slice(block.item.length);
  const label =
    block.label.length <= letters
      ? block.label
      : `${block.item.slice(0, Math.max(1, letters - 1 - count.length))}…${count}`;
  return html`<g transform="translate(${xMm * pxPerMm} ${yMm * pxPerMm})">
    ${Array.from({ length: block.drawn }, (_, index) => {
      const x = (index % across) * stepXMm * pxPerMm;
      const y = Math.floor(index / across) * stepYMm * pxPerMm;
      const at = turned ? `translate(${x + block.piece.acrossMm * pxPerMm} ${y}) rotate(90)` : `translate(${x} ${y})`;
      return html`<g transform="${at}">
        ${outer.map((d) => html`<path class="piece" d="${d}" />`)}${inner.map((d) => html`<path class="within" d="${d}" />`)}
      </g> `;
    })}<text x="0" y="${heightMm * pxPerMm + fontPx}" font-size="${fontPx}">${label}</text>
  </g> `;
}

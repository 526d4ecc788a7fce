import type { CardTurn } from '../../engine/cards/index.ts';
import type { PatternPoint } from '../../engine/pattern/index.ts';
import { lineHeightPx } from '../../components/StackDrawing/labels.ts';
import type { Dimension, PlacedText } from '../../components/StackDrawing/labels.ts';
import { arc, onCircle } from '../../components/StackDrawing/outline.ts';
import type { Outline } from '../../components/StackDrawing/outline.ts';
import type { StackLayout } from '../../components/StackDrawing/stackLayout.ts';
import { html, type Markup } from '../manifest/html.ts';

/** The window's layout of a stack, painted for paper: the same places, greys for its tokens. */
export function stackDrawing(layout: StackLayout, spoken: string): Markup {
  const { widthPx, heightPx, acrossHole: across, scale } = layout;
  const half = scale.lengthPx / 2;
  return html`<svg
    class="stack"
    viewBox="0 0 ${widthPx} ${heightPx}"
    role="img"
    aria-label="${spoken}"
    style="--wide:${layout.widePx}px"
  >
    ${hatchings()}${layout.outlines.map(outlineMarkup)}${layout.witness.map((d) => html`<path class="thin" d="${d}" />`)}${
      across === null
        ? null
        : html`<path class="thin" d="M${across.x} ${across.top}V${across.bottom}" /><path
              class="arrow"
              d="M${across.x} ${across.top}l-1.5 9h3z"
            /><path class="arrow" d="M${across.x} ${across.bottom}l-1.5 -9h3z" />`
    }${layout.dimensions.map(dimensionMarkup)}${layout.notes.map((note) => textMarkup(note))}${layout.balloons.map(
      ({ number, x, y, elbowY, toX, toY, text }) =>
        html`<path class="thin" d="M${x} ${y + 11}V${elbowY}L${toX} ${toY}" /><circle
            class="arrow"
            cx="${toX}"
            cy="${toY}"
            r="2.5"
          /><circle class="balloon" cx="${x}" cy="${y}" r="11" /><text
            class="label strong bare"
            x="${x}"
            y="${y + 4.5}"
            text-anchor="middle"
            >${number}</text
          >${textMarkup(text)}`,
    )}
    <rect class="dark" x="${scale.x}" y="${scale.y - 5}" width="${half}" height="5" />
    <rect class="light" x="${scale.x + half}" y="${scale.y - 5}" width="${half}" height="5" />
    <text class="label" x="${scale.x + scale.lengthPx + 8}" y="${scale.y}">0 to ${scale.text}</text>
  </svg> `;
}

/** Two neighbouring parts are hatched opposite ways. A document has one set. */
function hatchings(): Markup {
  const sets = [
    { name: 'cutHost', turn: 45, gap: 9 },
    { name: 'cutPlate', turn: -45, gap: 9 },
    { name: 'cutSocket', turn: -45, gap: 4.5 },
    { name: 'short', turn: 45, gap: 5 },
    { name: 'jam', turn: -45, gap: 4 },
  ];
  return html`<defs>
    ${sets.map(
      ({ name, turn, gap }) =>
        html`<pattern
          id="${name}"
          width="${gap}"
          height="${gap}"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(${turn})"
        >
          <rect class="ground-${name}" width="${gap}" height="${gap}" /><path class="cut" d="M0 0V${gap}" />
        </pattern>`,
    )}
  </defs>`;
}

function outlineMarkup({ d, ink, fill }: Outline): Markup {
  return html`<path class="${ink} fill-${fill}" d="${d}" />`;
}

function textMarkup({ x, y, anchor, lines }: PlacedText): Markup {
  return html`<text class="label" x="${x}" y="${y}" text-anchor="${anchor}"
    >${lines.map((line, index) => html`<tspan x="${x}" dy="${index === 0 ? 0 : lineHeightPx}">${line}</tspan>`)}</text
  >`;
}

function dimensionMarkup({ fromPx, toPx, y, text, inside }: Dimension): Markup {
  const reach = text.anchor === 'end' ? fromPx - 14 : toPx + 14;
  const line = inside ? `M${fromPx} ${y}H${toPx}` : `M${Math.min(fromPx, reach)} ${y}H${Math.max(toPx, reach)}`;
  const ends = inside
    ? html`<path class="arrow" d="M${fromPx} ${y}l9 -1.5v3z" /><path class="arrow" d="M${toPx} ${y}l-9 -1.5v3z" />`
    : html`<circle class="arrow" cx="${fromPx}" cy="${y}" r="2.2" /><circle
          class="arrow"
          cx="${toPx}"
          cy="${y}"
          r="2.2"
        />`;
  return html`<path class="thin" d="${line}" />${ends}${textMarkup(text)}`;
}

/** Hundredths of a px are more than paper shows. */
const px = (value: number): number => Math.round(value * 100) / 100;

const arrowPx = 60;

/** Which way to turn, as the worker sees it: three quarters of a circle with its arrow. */
export function turnDrawing({ turn }: CardTurn): Markup {
  const [middle, radius] = [arrowPx / 2, 20];
  const way = turn === 'clockwise' ? 1 : -1;
  const [from, to] = [-135 * way, 120 * way];
  const [x, y] = onCircle([middle, middle], radius, to);
  const along = ((to + way * 90) * Math.PI) / 180;
  const out = (to * Math.PI) / 180;
  const [ax, ay] = [Math.sin(along), -Math.cos(along)];
  const [ox, oy] = [Math.sin(out), -Math.cos(out)];
  const tip = [x + 13 * ax, y + 13 * ay];
  const feet = [1, -1].map((side) => [x + side * 7 * ox, y + side * 7 * oy]);
  const points = [tip, ...feet].map((one) => one.map((value) => px(value)).join(',')).join(' ');
  return html`<svg class="turn" viewBox="0 0 ${arrowPx} ${arrowPx}" role="img" aria-label="Turn ${turn}">
    <path class="way" d="${arc([middle, middle], radius, from, to)}" />
    <polygon class="head" points="${points}" />
    <circle class="head" cx="${middle}" cy="${middle}" r="3" />
  </svg>`;
}

/** On a card, and on a page of its own, in px of the window: 0.23 mm each, so that texts stand at 8 pt. */
const patternSizes = { card: 200, page: 740 } as const;
/** Nearer than this, one mark would hide the next. */
const apartPx = 13;

/** Where the positions lie as the worker sees them, to scale; in each the place it has in the order. */
export function patternDrawing(
  points: readonly PatternPoint[],
  order: readonly string[],
  size: keyof typeof patternSizes,
): Markup | null {
  const patternPx = patternSizes[size];
  const place = new Map(order.map((position, at) => [position, at + 1]));
  const [xs, ys] = [points.map(({ xMm }) => xMm), points.map(({ yMm }) => yMm)];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const span = Math.max(right - left, high - low, 1e-9);
  const room = patternPx - 2 * 34;
  const per = points.length === 1 ? 1 : room / span;
  const at = (x: number, y: number): [number, number] => [
    patternPx / 2 + (x - (left + right) / 2) * per,
    patternPx / 2 - (y - (low + high) / 2) * per,
  ];
  const nearest = nearestOf(points) * per;
  if (nearest < apartPx) return null;
  const radius = Math.min(13, Math.max(6, nearest * 0.46));
  const middle = patternPx / 2;
  return html`<svg
    class="pattern ${size}"
    viewBox="0 0 ${patternPx} ${patternPx}"
    role="img"
    aria-label="${order.length === 0 ? 'Positions, in no order' : `Positions in their order: ${order.join(', ')}`}"
  >
    <path class="centre fill-none" d="M6 ${middle}H${patternPx - 6}M${middle} 6V${patternPx - 6}" />
    ${points.map(({ position, xMm, yMm }) => {
      const [x, y] = at(xMm, yMm);
      const [dx, dy] = [x - middle, y - middle];
      const length = Math.max(Math.hypot(dx, dy), 1e-9);
      const out = radius + 9;
      const [nx, ny] = dx === 0 && dy === 0 ? [x + out, y] : [x + (dx / length) * out, y + (dy / length) * out];
      return html`<circle class="visible fill-brass" cx="${px(x)}" cy="${px(y)}" r="${px(radius)}" /><text
          class="label strong bare"
          x="${px(x)}"
          y="${px(y + 4.5)}"
          text-anchor="middle"
          >${place.get(position) ?? ''}</text
        ><text class="label" x="${px(nx)}" y="${px(ny + 4.5)}" text-anchor="middle">${position}</text>`;
    })}
  </svg>`;
}

/** How near the two nearest positions lie. */
function nearestOf(points: readonly PatternPoint[]): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const [at, one] of points.entries())
    for (const other of points.slice(at + 1))
      nearest = Math.min(nearest, Math.hypot(one.xMm - other.xMm, one.yMm - other.yMm));
  return nearest;
}

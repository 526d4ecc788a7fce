/** Text of drawings in px. Widths are taken on the wide side: a label may stand loose, it may not collide. */
const labelSizePx = 12.5;
export const lineHeightPx = 15;

const wide = new Set('MWmw@%—①');
const narrow = new Set("iljtfrI.,:;'|!()[] ·");

export function textWidthPx(text: string, sizePx: number = labelSizePx): number {
  let ems = 0;
  for (const letter of text) ems += wide.has(letter) ? 0.92 : narrow.has(letter) ? 0.4 : 0.63;
  return ems * sizePx;
}

/** "6.44 in (163.5 mm)" as two lines, the authority above. */
export function twoLines(text: string): string[] {
  const bracket = text.indexOf(' (');
  return bracket < 0 ? [text] : [text.slice(0, bracket), text.slice(bracket + 1)];
}

export interface PlacedText {
  x: number;
  y: number;
  anchor: 'start' | 'middle' | 'end';
  lines: string[];
}

export interface Extent {
  left: number;
  right: number;
}

/** `share`: how wide its texts are against the wide side. */
export function extentOf(text: PlacedText, share = 1): Extent {
  const width = share * Math.max(...text.lines.map((line) => textWidthPx(line)));
  const left = text.anchor === 'start' ? text.x : text.anchor === 'end' ? text.x - width : text.x - width / 2;
  return { left, right: left + width };
}

/** A dimension between two witness lines, ISO 129: text breaking the line where it fits, beside it where it does not. */
export interface Dimension {
  fromPx: number;
  toPx: number;
  y: number;
  text: PlacedText;
  /** Text inside the span; else the arrows point in from outside. */
  inside: boolean;
  filled: boolean;
}

const arrowPx = 9;

export function dimension(input: {
  fromPx: number;
  toPx: number;
  y: number;
  text: string;
  /** Where the text goes when the span is too narrow for it. */
  beside: 'left' | 'right';
  /** Beside its span it stands in two lines, the authority above. */
  twoLined?: boolean | undefined;
  filled?: boolean;
}): Dimension {
  const { fromPx, toPx, y, text, beside } = input;
  const inside = toPx - fromPx >= textWidthPx(text) + 2 * arrowPx + 12;
  const lines = !inside && input.twoLined === true ? twoLines(text) : [text];
  const baseline = y + 4 - (lines.length - 1) * (lineHeightPx / 2);
  const outsideGap = arrowPx + 10;
  const place: PlacedText = inside
    ? { x: (fromPx + toPx) / 2, y: baseline, anchor: 'middle', lines: [text] }
    : beside === 'left'
      ? { x: fromPx - outsideGap, y: baseline, anchor: 'end', lines }
      : { x: toPx + outsideGap, y: baseline, anchor: 'start', lines };
  return { fromPx, toPx, y, text: place, inside, filled: input.filled ?? false };
}

/** Centres pushed apart to at least `gapPx`, in order, within the two ends; the least movement a sweep gives. */
export function spread(wanted: readonly number[], widths: readonly number[], ends: Extent, gapPx: number): number[] {
  const half = widths.map((w) => w / 2);
  const at = [...wanted];
  let free = ends.left;
  for (let i = 0; i < at.length; i += 1) {
    at[i] = Math.max(at[i] ?? 0, free + (half[i] ?? 0));
    free = (at[i] ?? 0) + (half[i] ?? 0) + gapPx;
  }
  let limit = ends.right;
  for (let i = at.length - 1; i >= 0; i -= 1) {
    at[i] = Math.min(at[i] ?? 0, limit - (half[i] ?? 0));
    limit = (at[i] ?? 0) - (half[i] ?? 0) - gapPx;
  }
  return at;
}

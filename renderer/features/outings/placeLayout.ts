import type { Whereabouts } from '../../../shared-types/outing.ts';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import { rowKey } from './followedLines.ts';
import type { FollowedLine } from './followedLines.ts';

export interface PlaceRow {
  key: string;
  where: Whereabouts;
  y: number;
  heightPx: number;
}

export interface DrawnLine {
  line: FollowedLine;
  path: string;
  /** Which of the line styles, by its place in the list. */
  style: number;
  label: { x: number; y: number; text: string };
}

export interface PlaceLayout {
  rows: PlaceRow[];
  drawn: DrawnLine[];
  heightPx: number;
}

const trackPx = 20;
const rowEdgePx = 8;
const labelPx = 12.5;
/** Two lines of a name. */
const rowLeastPx = 36;
const orderOf = ['bag', 'hand', 'place', 'site', 'used', 'nowhere'];

interface Track {
  row: string;
  track: number;
  fromX: number;
  toX: number;
}

/** A row for each place, as high as the lines need that lie in it at one time; each line steps from row to row. */
export function placeLayout(input: {
  lines: readonly FollowedLine[];
  topPx: number;
  leftPx: number;
  rightPx: number;
  at: (minutes: number) => number;
  labelOf: (line: FollowedLine) => string;
}): PlaceLayout {
  const { lines, topPx, leftPx, rightPx, at, labelOf } = input;
  const wheres = new Map<string, Whereabouts>();
  for (const { stays } of lines) for (const { where } of stays) wheres.set(rowKey(where), where);
  const keys = [...wheres.keys()].toSorted(
    (a, b) => orderOf.indexOf(wheres.get(a)?.at ?? '') - orderOf.indexOf(wheres.get(b)?.at ?? ''),
  );
  const taken: Track[] = [];
  const tracked = lines.map((line, index) => {
    // Steps of two lines at one minute are drawn side by side.
    const nudge = (index % 5) * 3 - 6;
    const longest = line.stays.reduce(
      (best, stay, which) => {
        const length = stay.toMin - stay.fromMin;
        return length > best.length ? { which, length } : best;
      },
      { which: 0, length: -1 },
    ).which;
    const text = labelOf(line);
    const widthPx = textWidthPx(text, labelPx) + 8;
    const segments = line.stays.map((stay, which) => {
      const fromX = which === 0 ? at(stay.fromMin) : at(stay.fromMin) + nudge;
      const toX = which === line.stays.length - 1 ? at(stay.toMin) : at(stay.toMin) + nudge;
      const labelX = Math.max(leftPx + 2, Math.min(fromX + 4, rightPx - widthPx));
      const isLabelled = which === longest;
      const row = rowKey(stay.where);
      const span = {
        fromX: isLabelled ? Math.min(fromX, labelX) : fromX,
        toX: isLabelled ? Math.max(toX, labelX + widthPx) : toX,
      };
      const track = freeTrack(taken, row, span.fromX - 3, span.toX + 3);
      taken.push({ row, track, ...span });
      return { row, track, fromX, toX: Math.max(toX, fromX), labelX };
    });
    return { line, segments, longest, text };
  });
  let y = topPx;
  const rows = keys.flatMap((key): PlaceRow[] => {
    const where = wheres.get(key);
    if (where === undefined) return [];
    const tracks = Math.max(...taken.filter(({ row }) => row === key).map(({ track }) => track + 1));
    const row = { key, where, y, heightPx: Math.max(rowLeastPx, tracks * trackPx + rowEdgePx) };
    y += row.heightPx;
    return [row];
  });
  const tops = new Map(rows.map((row) => [row.key, row.y]));
  const yOf = (segment: { row: string; track: number }): number =>
    (tops.get(segment.row) ?? topPx) + rowEdgePx / 2 + segment.track * trackPx + 15;
  const drawn = tracked.flatMap(({ line, segments, longest, text }, style): DrawnLine[] => {
    const named = segments[longest];
    if (named === undefined) return [];
    const path = segments
      .map(
        (segment, which) => `${which === 0 ? `M${segment.fromX} ${yOf(segment)}` : `V${yOf(segment)}`}H${segment.toX}`,
      )
      .join('');
    return [{ line, path, style, label: { x: named.labelX, y: yOf(named) - 4, text } }];
  });
  return { rows, drawn, heightPx: y - topPx };
}

function freeTrack(taken: readonly Track[], row: string, fromX: number, toX: number): number {
  const meeting = taken.filter((one) => one.row === row && one.fromX < toX && one.toX > fromX);
  let track = 0;
  while (meeting.some((one) => one.track === track)) track += 1;
  return track;
}

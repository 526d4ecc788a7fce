import type { AsRunLine, CalloutLine, JudgedLine, LineState, LineView } from '../../../shared-types/inspection.ts';

const stateRank: Record<LineState, number> = { nonconforming: 0, unreadable: 1, indeterminate: 2, conforming: 3 };

/**
 * Which lines are shown, and in which order.
 *
 * @returns places in `lines`; equal ones stay in the order of the table
 */
export function orderOf(lines: readonly CalloutLine[], view: LineView): Uint32Array<ArrayBuffer> {
  return ordered(lines, view, { text: textOf, key: keyOf });
}

/**
 * The same of what was recorded.
 *
 * @returns places in `lines`; equal ones stay in the order of the table
 */
export function orderOfRecords(lines: readonly AsRunLine[], view: LineView): Uint32Array<ArrayBuffer> {
  return ordered(lines, view, { text: recordText, key: recordKey });
}

type SortKey = string | number | null;

function ordered<Line extends JudgedLine>(
  lines: readonly Line[],
  view: LineView,
  of: { text: (line: Line) => string; key: (line: Line, sort: LineView['sort']) => SortKey },
): Uint32Array<ArrayBuffer> {
  const words = view.text.toLowerCase().split(/\s+/).filter(Boolean);
  const shown: number[] = [];
  for (const [at, line] of lines.entries()) if (isShown(line, view) && hasWords(line, words, of.text)) shown.push(at);
  if (view.sort === 'position') return Uint32Array.from(view.down ? shown.toReversed() : shown);
  const keyAt = (at: number): SortKey => {
    const line = lines[at];
    return line === undefined ? null : (commonKey(line, view.sort) ?? of.key(line, view.sort));
  };
  const keys = new Map(shown.map((at) => [at, keyAt(at)]));
  const turn = view.down ? -1 : 1;
  shown.sort((a, b) => {
    const [one, other] = [keys.get(a) ?? null, keys.get(b) ?? null];
    if (one === other) return a - b;
    // What has nothing to sort by stands last, whichever way.
    if (one === null || other === null) return one === null ? 1 : -1;
    return one < other ? -turn : turn;
  });
  return Uint32Array.from(shown);
}

function isShown(line: JudgedLine, view: LineView): boolean {
  if (view.state !== 'all' && line.state !== view.state) return false;
  if (view.acceptance === 'open' && line.open === 0) return false;
  if (view.acceptance === 'accepted' && line.accepted === 0) return false;
  const { rule, severity } = view;
  if (rule !== null || severity !== 'all') {
    const fired = line.findings.some(
      (finding) => (rule === null || finding.rule === rule) && (severity === 'all' || finding.severity === severity),
    );
    if (!fired) return false;
  }
  return true;
}

function hasWords<Line>(line: Line, words: readonly string[], textOfLine: (line: Line) => string): boolean {
  if (words.length === 0) return true;
  const text = textOfLine(line);
  return words.every((word) => text.includes(word));
}

function textOf({ id, thread, band, findings }: CalloutLine): string {
  const torque = 'text' in band ? band.text : `${band.min} ${band.max}`;
  return `${id}\n${thread}\n${torque}\n${findings.map(({ rule }) => rule).join(' ')}`.toLowerCase();
}

function recordText({ callout, position, cycle, serial, time, findings }: AsRunLine): string {
  const rules = findings.map(({ rule }) => rule).join(' ');
  return `${callout}\n${position}\n${cycle}\n${serial}\n${time}\n${rules}`.toLowerCase();
}

function commonKey({ id, state, open, findings }: JudgedLine, sort: LineView['sort']): SortKey {
  switch (sort) {
    case 'id':
      return numbered(id);
    case 'state':
      return stateRank[state] * 2 + (open > 0 ? 0 : 1);
    case 'findings':
      return findings.length;
    default:
      return null;
  }
}

function keyOf(line: CalloutLine, sort: LineView['sort']): SortKey {
  if (sort === 'thread') return numbered(line.thread);
  return sort === 'torque' ? line.minNm : null;
}

function recordKey(line: AsRunLine, sort: LineView['sort']): SortKey {
  switch (sort) {
    case 'place':
      return numbered(line.position);
    case 'cycle':
      return line.cycleNumber;
    case 'running':
      return line.runningNm;
    case 'breakaway':
      return line.breakawayNm;
    case 'torque':
      return line.finalNm;
    case 'serial':
      return line.serial === '' ? null : numbered(line.serial);
    case 'time':
      return line.time === '' ? null : line.time;
    default:
      return null;
  }
}

/** Letters by their letters, numbers as numbers: C-9 before C-10. */
function numbered(text: string): string {
  return text.toLowerCase().replaceAll(/\d+/g, (digits) => digits.padStart(9, '0'));
}

import type { CalloutLine, LineState, LineView } from '../../../shared-types/inspection.ts';

const stateRank: Record<LineState, number> = { nonconforming: 0, unreadable: 1, indeterminate: 2, conforming: 3 };

/**
 * Which lines are shown, and in which order.
 *
 * @returns places in `lines`; equal ones stay in the order of the table
 */
export function orderOf(lines: readonly CalloutLine[], view: LineView): Uint32Array {
  const words = view.text.toLowerCase().split(/\s+/).filter(Boolean);
  const shown: number[] = [];
  for (const [at, line] of lines.entries()) if (isShown(line, view, words)) shown.push(at);
  if (view.sort === 'position') return Uint32Array.from(view.down ? shown.toReversed() : shown);
  const keys = new Map(shown.map((at) => [at, keyOf(lines[at], view.sort)]));
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

function isShown(line: CalloutLine, view: LineView, words: readonly string[]): boolean {
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
  if (words.length === 0) return true;
  const text = textOf(line);
  return words.every((word) => text.includes(word));
}

function textOf({ id, thread, band, findings }: CalloutLine): string {
  const torque = 'text' in band ? band.text : `${band.min} ${band.max}`;
  return `${id}\n${thread}\n${torque}\n${findings.map(({ rule }) => rule).join(' ')}`.toLowerCase();
}

function keyOf(line: CalloutLine | undefined, sort: LineView['sort']): string | number | null {
  if (line === undefined) return null;
  switch (sort) {
    case 'id':
      return numbered(line.id);
    case 'thread':
      return numbered(line.thread);
    case 'torque':
      return line.minNm;
    case 'state':
      return stateRank[line.state] * 2 + (line.open > 0 ? 0 : 1);
    case 'findings':
      return line.findings.length;
    case 'position':
      return null;
  }
}

/** Letters by their letters, numbers as numbers: C-9 before C-10. */
function numbered(text: string): string {
  return text.toLowerCase().replaceAll(/\d+/g, (digits) => digits.padStart(9, '0'));
}

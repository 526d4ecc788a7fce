import type { LineState } from '../../../shared-types/inspection.ts';
import type { Finding, Severity } from '../../../shared-types/judged.ts';
import type { AcceptedFinding, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { acceptanceOf, cellNamed } from '../../engine/inspection/index.ts';
import { recordName } from '../asrun/recordActs.ts';
import type { FoundList } from './useFound.ts';

/** One finding of the task, or one row that no rule could look at. */
export interface FoundLine {
  /** Of the list, the row and the finding. */
  key: string;
  kind: FoundList['kind'];
  list: { id: string; name: string };
  row: string;
  /** Callout's or record's own name. */
  id: string;
  cells: Readonly<Record<string, string>>;
  /** Null where the row cannot be read; `message` says why. */
  finding: Finding | null;
  message: string;
  accepted: AcceptedFinding | null;
}

export interface FindingView {
  text: string;
  severity: Severity | 'unreadable' | 'all';
  acceptance: 'all' | 'open' | 'accepted';
}

const rank = { reject: 0, unreadable: 1, query: 2, note: 3 } as const;

export const severityOf = ({ finding }: FoundLine): keyof typeof rank => finding?.severity ?? 'unreadable';

/**
 * Every finding of the lists, worst first, those of one severity in the order of their lists; a note decides nothing and is none of them.
 *
 * @param keptOf - a row as it is kept, for what was accepted of them
 */
export function findingLines(
  lists: readonly FoundList[],
  keptOf: (key: string) => Pick<KeptCallout, 'accepted'> | undefined,
): FoundLine[] {
  const lines: FoundLine[] = [];
  for (const list of lists) {
    const { kind } = list;
    const of = { id: list.id, name: list.name };
    for (const { key, cells, row, refusals } of list.rows) {
      const id =
        kind === 'steps'
          ? cellNamed(cells, 'step')
          : kind === 'callouts'
            ? cellNamed(cells, 'id') || 'Callout without id'
            : recordName(cells);
      const common = { kind, list: of, row: key, id, cells };
      if (row === null) {
        const message = refusals.map((one) => one.message).join('; ') || 'the row cannot be read';
        lines.push({ ...common, key: `${key} unreadable`, finding: null, message, accepted: null });
        continue;
      }
      for (const finding of row.findings) {
        if (finding.severity === 'note') continue;
        const accepted = acceptanceOf(finding, keptOf(key)?.accepted ?? []) ?? null;
        const own = { key: `${key} ${finding.rule} ${finding.message}`, finding, message: finding.message, accepted };
        lines.push({ ...common, ...own });
      }
    }
  }
  return lines.toSorted(
    (a, b) => Number(a.accepted !== null) - Number(b.accepted !== null) || rank[severityOf(a)] - rank[severityOf(b)],
  );
}

/** Which of them a person asks for. */
export function shownFindings(lines: readonly FoundLine[], view: FindingView): FoundLine[] {
  const words = view.text.toLowerCase().split(/\s+/).filter(Boolean);
  return lines.filter((line) => {
    if (view.severity !== 'all' && severityOf(line) !== view.severity) return false;
    if (view.acceptance !== 'all' && (line.accepted === null) !== (view.acceptance === 'open')) return false;
    if (words.length === 0) return true;
    const text = `${line.id}\n${line.list.name}\n${line.finding?.rule ?? ''}\n${line.message}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
}

/** What the rows of some lists are decided to be. */
export function decisionCounts(lists: readonly FoundList[]): Record<LineState, number> {
  const counts = { conforming: 0, nonconforming: 0, indeterminate: 0, unreadable: 0 };
  for (const { rows } of lists) for (const { row } of rows) counts[row?.decision ?? 'unreadable'] += 1;
  return counts;
}

import type { Finding } from '../../../shared-types/judged.ts';
import type { AcceptedFinding, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { acceptanceOf } from '../../engine/inspection/index.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { countOf } from '../steps/words.ts';
import { accepting } from './listActs.ts';

export type RowTable = 'callouts' | 'asRuns';

/** A finding that nobody has accepted, with the row it was found on. */
export interface OpenFinding {
  table: RowTable;
  row: KeptCallout;
  finding: Pick<Finding, 'rule' | 'message' | 'severity'>;
}

const names = { callouts: 'callout', asRuns: 'record' } as const;

/** What is open on some rows: rejects and queries that nobody has accepted. */
export function openOn(
  table: RowTable,
  rows: readonly KeptCallout[],
  found: readonly { key: string; row: { findings: readonly Finding[] } | null }[],
): OpenFinding[] {
  const byKey = new Map(found.map(({ key, row }) => [key, row?.findings ?? []]));
  return rows.flatMap((row) =>
    (byKey.get(row.id) ?? [])
      .filter((finding) => finding.severity !== 'note' && acceptanceOf(finding, row.accepted ?? []) === undefined)
      .map((finding) => ({ table, row, finding })),
  );
}

/** How often each rule is among them, the most frequent first. */
export function rulesAmong(items: readonly OpenFinding[]): { rule: string; count: number }[] {
  const counts = new Map<string, number>();
  for (const { finding } of items) counts.set(finding.rule, (counts.get(finding.rule) ?? 0) + 1);
  return [...counts].map(([rule, count]) => ({ rule, count })).toSorted((a, b) => b.count - a.count);
}

/** "3 findings on 2 callouts" */
export function severalText(items: readonly OpenFinding[]): string {
  const tables = new Set(items.map(({ table }) => table));
  const [table] = tables;
  const rows = new Set(items.map(({ row }) => row.id)).size;
  const one = tables.size === 1 && table !== undefined ? names[table] : 'row';
  return `${countOf(items.length, 'finding')} on ${countOf(rows, one)}`;
}

/** All of them taken as they are, for one reason and by one person: one act, and each stands in its own row as if accepted alone. */
export function acceptSeveral(
  items: readonly OpenFinding[],
  given: Pick<AcceptedFinding, 'reason' | 'person' | 'at'>,
): Act {
  const rows = new Map<string, { table: RowTable; put: KeptCallout }>();
  for (const { table, row, finding } of items) {
    const { put } = rows.get(row.id) ?? { put: row };
    const { rule, message } = finding;
    rows.set(row.id, { table, put: accepting(put, { rule, message, ...given }) });
  }
  const proposals = [...rows.values()].map(({ table, put }): Proposal =>
    table === 'callouts' ? { table, put } : { table, put },
  );
  return { action: 'accept-findings', title: `Accept ${severalText(items)}`, proposals };
}

import type { KeptAsRun, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import type { OpenFinding } from '../judged/acceptSeveral.ts';
import type { FoundLine } from './openFindings.ts';

/** Which of some lines can be accepted: findings that nobody has accepted, on rows that are kept. What cannot be read is no finding. */
export function acceptableAmong(
  lines: readonly FoundLine[],
  kept: { callouts: ReadonlyMap<string, KeptCallout>; asRuns: ReadonlyMap<string, KeptAsRun> },
): OpenFinding[] {
  return lines.flatMap(({ kind, row: key, finding, accepted }): OpenFinding[] => {
    const table = kind === 'callouts' ? 'callouts' : 'asRuns';
    const row = kept[table].get(key);
    return finding === null || accepted !== null || row === undefined ? [] : [{ table, row, finding }];
  });
}

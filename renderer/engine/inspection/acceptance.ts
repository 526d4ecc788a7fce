import type { Finding } from '../../../shared-types/judged.ts';

interface Accepted {
  rule: string;
  message: string;
}

/**
 * The acceptance that holds for a finding: of the same rule, given when the finding said the same. Where the callout, or a table behind
 * the rule, has changed what it says, nothing is accepted any more.
 *
 * @returns undefined where none holds
 */
export function acceptanceOf<A extends Accepted>(
  finding: Pick<Finding, 'rule' | 'message'>,
  accepted: readonly A[],
): A | undefined {
  return accepted.find(({ rule, message }) => rule === finding.rule && message === finding.message);
}

/**
 * How many of a row's findings are accepted, and how many that decide something are not. A note decides nothing and is never open.
 *
 * @returns counts; acceptance changes no decision
 */
export function countOpen(
  findings: readonly Finding[],
  accepted: readonly Accepted[],
): { open: number; accepted: number } {
  let [open, taken] = [0, 0];
  for (const finding of findings) {
    if (finding.severity === 'note') continue;
    if (acceptanceOf(finding, accepted) === undefined) open += 1;
    else taken += 1;
  }
  return { open, accepted: taken };
}

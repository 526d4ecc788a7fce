import type { ReactNode } from 'react';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import type { IssueCheck } from '../../engine/packing/index.ts';

const marks: Record<IssueCheck['state'], { mark: MarkState; word: string }> = {
  holds: { mark: 'conforming', word: 'Holds' },
  blocks: { mark: 'nonconforming', word: 'Keeps it back' },
  noted: { mark: 'indeterminate', word: 'Noted' },
};
const worstFirst: Record<IssueCheck['state'], number> = { blocks: 0, noted: 1, holds: 2 };

export interface ChecksTableProps {
  checks: readonly IssueCheck[];
  /** Of each check, where what it is about can be mended. */
  ways: readonly ReactNode[];
}

/** Every check with what there is, what is needed and where that is from; what keeps the bags back stands first. */
export function ChecksTable({ checks, ways }: ChecksTableProps) {
  const inOrder = checks.toSorted((a, b) => worstFirst[a.state] - worstFirst[b.state]);
  return (
    <div className="bw-table-scroll" tabIndex={0} role="region" aria-label="Checks before issue">
      <table className="bw-pack-checks">
        <thead>
          <tr>
            <th scope="col">Check</th>
            <th scope="col">There is</th>
            <th scope="col">Needed</th>
            <th scope="col">State</th>
          </tr>
        </thead>
        <tbody>
          {inOrder.map((check) => (
            <tr key={`${check.what} ${check.need}`} data-check={check.state}>
              <th scope="row">{check.what}</th>
              <td>{check.have}</td>
              <td>
                {check.need}
                {check.source === undefined ? null : <span className="bw-source"> ({check.source})</span>}
                {check.mend === undefined ? null : (
                  <p className="bw-pack-mend">
                    <b>Way on:</b> {check.mend}. {ways[checks.indexOf(check)]}
                  </p>
                )}
              </td>
              <td>
                <StateMark state={marks[check.state].mark} text={marks[check.state].word} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

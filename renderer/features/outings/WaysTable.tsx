import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { whereText } from './courseWords.ts';
import type { FollowedLine } from './followedLines.ts';
import { clockText } from './timelineLayout.ts';

export interface WaysTableProps {
  plan: ResolvedPlan;
  lines: readonly FollowedLine[];
  labelOf: (line: FollowedLine) => string;
  shown: ReadonlySet<string>;
  onShow: (key: string, shown: boolean) => void;
}

/** The same ways as a table, each with whether it is drawn. */
export function WaysTable({ plan, lines, labelOf, shown, onShow }: WaysTableProps) {
  return (
    <details className="bw-course-details">
      <summary>
        As table, and what is drawn: {shown.size} of {lines.length}
      </summary>
      <div className="bw-task-scroll" tabIndex={0} role="group" aria-label="Ways, scrolls sideways where narrow">
        <table className="bw-task-table">
          <caption className="bw-hidden">Where things are over the outing</caption>
          <thead>
            <tr>
              <th scope="col">Drawn</th>
              <th scope="col">What</th>
              <th scope="col">Where, from (h:min)</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <tr key={line.key}>
                <td>
                  <input
                    type="checkbox"
                    className="bw-course-check"
                    aria-label={`Draw ${labelOf(line)}`}
                    checked={shown.has(line.key)}
                    onChange={({ currentTarget }) => onShow(line.key, currentTarget.checked)}
                  />
                </td>
                <td>{labelOf(line)}</td>
                <td>
                  {line.stays
                    .map(({ where, fromMin }) => `${clockText(fromMin)} ${whereText(plan, where)}`)
                    .join(' · ')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

import type { JudgedRow } from '../../../shared-types/judged.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { findingText } from './findingWords.ts';

/** What a row would be judged as it is typed now: nothing of it is kept. */
export function JudgedAlready({
  row,
  units,
}: {
  row: Pick<JudgedRow<unknown>, 'decision' | 'findings'>;
  units: UnitsShown;
}) {
  const found = row.findings.filter(({ severity }) => severity !== 'note');
  return (
    <div className="bw-callout-now" role="status">
      <p>
        As typed now: <StateMark state={row.decision} />
      </p>
      {found.length === 0 ? null : (
        <ul>
          {found.map(({ rule, message }) => (
            <li key={rule + message}>{findingText(message, units)}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

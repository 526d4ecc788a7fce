import type { StackCheck } from '../../engine/stack/judged.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { shownFigure, shownOnce } from './shownText.ts';
import { checkWords } from './words.ts';

/** Each rule with what the stack has, what the step needs, and the margin in the check's own unit. */
export function CheckList({ checks, units }: { checks: StackCheck[]; units: UnitsShown }) {
  return (
    <table className="bw-checks">
      <thead>
        <tr>
          <th scope="col">Check</th>
          <th scope="col">Has</th>
          <th scope="col">Needs</th>
          <th scope="col" className="bw-end">
            Margin
          </th>
          <th scope="col">State</th>
        </tr>
      </thead>
      <tbody>
        {checks.map((check, index) => (
          <tr key={index} data-fails={!check.passes || undefined}>
            <th scope="row" className="bw-word">
              {checkWords[check.check]}
            </th>
            <td data-label="has">{shownFigure(check.check, check.have, units)}</td>
            <td data-label="needs">{shownFigure(check.check, check.need, units)}</td>
            <td className="bw-end" data-label="margin">
              {shownOnce(check.margin, units)}
            </td>
            <td>
              <StateMark
                state={check.passes ? 'conforming' : 'nonconforming'}
                text={check.passes ? 'Meets' : 'Fails'}
              />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

import type { TaskStep } from '../../../shared-types/records/task.ts';
import type { StackChange, StackEffect, StepWithKit } from '../../engine/kits/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { shownFigure } from '../steps/shownText.ts';
import { checkWords } from '../steps/words.ts';

const effectWords: Readonly<Record<StackEffect, string>> = {
  loses: 'Loses its stack',
  gains: 'Gains a stack',
  'other-stack': 'Another stack',
  'other-setting': 'Another setting',
  'other-reach': 'Another spare reach',
  same: 'The same',
};

export interface StackTableProps {
  changes: readonly StackChange[];
  steps: ReadonlyMap<string, TaskStep>;
  /** What the two kits are called in the head. */
  heads: readonly [string, string];
  units: UnitsShown;
}

/** Step by step: the stack with each kit, its setting and spare reach; or why there is none. */
export function StackTable({ changes, steps, heads, units }: StackTableProps) {
  return (
    <div className="bw-task-scroll" role="region" aria-label="Steps with each kit" tabIndex={0}>
      <table className="bw-task-table bw-kits-table">
        <thead>
          <tr>
            <th scope="col">Step</th>
            <th scope="col">What changes</th>
            <th scope="col">{heads[0]}</th>
            <th scope="col">{heads[1]}</th>
          </tr>
        </thead>
        <tbody>
          {changes.map(({ step, effect, mine, theirs }) => (
            <tr key={step}>
              <th scope="row" dir="auto">
                {steps.get(step)?.name ?? step}
              </th>
              <td>
                {effect === 'loses' ? (
                  <StateMark
                    state="not-reached"
                    text={theirs.state === 'not-read' ? 'Lacks what it names' : effectWords.loses}
                  />
                ) : effect === 'gains' ? (
                  <StateMark state="reached" text={effectWords.gains} />
                ) : (
                  effectWords[effect]
                )}
              </td>
              <WithKit one={mine} units={units} />
              <WithKit one={theirs} units={units} />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function WithKit({ one, units }: { one: StepWithKit; units: UnitsShown }) {
  if (one.state === 'by-hand') return <td>By hand</td>;
  if (one.state === 'not-read')
    return (
      <td>
        <StateMark state="no-stack" text="Cannot be read" />
        {one.reasons.map((reason) => (
          <div key={reason} className="bw-second" dir="auto">
            {reason}
          </div>
        ))}
      </td>
    );
  if (one.state === 'not-reached') {
    const [nearest] = one.closest;
    return (
      <td>
        <StateMark state="not-reached" />
        {nearest === undefined ? (
          <div className="bw-second">No tool, extension and socket of it join for this head.</div>
        ) : (
          nearest.fails.map(({ check, have, need }) => (
            <div key={check} className="bw-second">
              {nearest.stack.join(' + ')}
              {nearest.stack.length === 0 ? '' : ': '}
              {checkWords[check]}, has {shownFigure(check, have, units)}, needs {shownFigure(check, need, units)}
            </div>
          ))
        )}
      </td>
    );
  }
  const { setting } = one;
  const setTo = setting === null ? null : `${showNumber(setting.value, 6)} ${setting.unit}`;
  return (
    <td>
      <div className="bw-code">{one.stack.join(' + ')}</div>
      {one.hold === null ? null : <div className="bw-second">held with {one.hold.join(' + ')}</div>}
      {setTo === null ? null : <div>set to {showQuantity(setTo, units)}</div>}
      <div className="bw-second">
        {one.reach === null ? '' : `reach ${shownFigure('reach', one.reach, units)}; `}
        {one.stackCount === 1 ? 'the only stack' : `one of ${one.stackCount} stacks`}
      </div>
    </td>
  );
}

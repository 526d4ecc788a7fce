import { goTo } from '../session/usePlace.ts';
import { countOf } from '../steps/words.ts';
import type { Use } from './siteUses.ts';

/** Which tasks use it, and with which steps; the step of the task in hand is one click away. */
export function UsesList({
  uses,
  what,
  taskAtHand,
}: {
  uses: readonly Use[];
  what: string;
  taskAtHand: string | null;
}) {
  if (uses.length === 0) return <p className="bw-second">No task uses this {what} yet.</p>;
  return (
    <ul className="bw-task-list">
      {uses.map(({ task, steps }) => (
        <li key={task.id}>
          <b>{task.name}</b> <span className="bw-code">{task.code}</span>
          {steps.length === 0 ? (
            <span className="bw-second">names the site</span>
          ) : (
            <span>
              {countOf(steps.length, 'step')}:{' '}
              {steps.slice(0, 40).map(({ number, code, name }, index) => (
                <span key={code}>
                  {index === 0 ? '' : ', '}
                  {task.id === taskAtHand ? (
                    <button type="button" className="bw-link" onClick={() => goTo({ at: 'steps', step: code })}>
                      {number} {name}
                    </button>
                  ) : (
                    `${number} ${name}`
                  )}
                </span>
              ))}
              {steps.length > 40 ? ` and ${steps.length - 40} more` : ''}
            </span>
          )}
        </li>
      ))}
    </ul>
  );
}

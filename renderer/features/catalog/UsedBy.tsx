import type { Item } from '../../../shared-types/records/item.ts';
import type { FitList } from './fits.ts';
import { usageCount } from './usage.ts';
import type { Usage } from './usage.ts';
import { countOf, itemName } from './words.ts';

const listedMost = 24;

/** Codes as a list cut off in words, never in silence. */
function codesText(codes: readonly string[]): string {
  const first = codes.slice(0, listedMost).join(', ');
  return codes.length > listedMost ? `${first} and ${codes.length - listedMost} more` : first;
}

/** The steps, outings and interfaces that name the item, task by task. */
export function UsedBy({ usage }: { usage: Usage }) {
  const tasks = [...new Set([...usage.steps, ...usage.outings].map(({ task }) => task))];
  return (
    <section aria-labelledby="used-by">
      <h2 id="used-by">Used by</h2>
      {usageCount(usage) === 0 ? <p className="bw-second">No step, outing, interface or pack names it.</p> : null}
      <dl>
        {tasks.map((task) => {
          const steps = usage.steps.filter((one) => one.task === task).map(({ step }) => step.code);
          const outings = usage.outings.filter((one) => one.task === task).map(({ outing }) => outing.code);
          return (
            <div key={task.id}>
              <dt>{task.code}</dt>
              <dd>
                {steps.length === 0 ? null : (
                  <div>{`${steps.length === 1 ? 'step' : 'steps'} ${codesText(steps)}`}</div>
                )}
                {outings.length === 0 ? null : (
                  <div>{`${outings.length === 1 ? 'outing' : 'outings'} ${codesText(outings)}`}</div>
                )}
              </dd>
            </div>
          );
        })}
        {usage.interfaces.length === 0 ? null : (
          <div>
            <dt>{countOf(usage.interfaces.length, 'interface')}</dt>
            <dd>{codesText(usage.interfaces.map(({ code }) => code))}</dd>
          </div>
        )}
        {usage.packs.length === 0 ? null : (
          <div>
            <dt>{countOf(usage.packs.length, 'pack')}</dt>
            <dd>{codesText(usage.packs.map(({ code }) => code))}</dd>
          </div>
        )}
      </dl>
    </section>
  );
}

const fitsMost = 6;

/** What of the same shelf it goes together with. */
export function Fits({ lists, onItem }: { lists: readonly FitList[]; onItem: (item: Item) => void }) {
  return lists.map(({ title, items }) => (
    <section key={title} aria-label={title}>
      <h2>{title}</h2>
      {items.length === 0 ? <p className="bw-second">Nothing on this shelf.</p> : null}
      <ul>
        {items.slice(0, fitsMost).map((item) => (
          <li key={item.id}>
            <button type="button" className="bw-link" onClick={() => onItem(item)}>
              {item.code}
            </button>{' '}
            <span className="bw-second">{itemName(item)}</span>
          </li>
        ))}
      </ul>
      {items.length > fitsMost ? <p className="bw-second">and {items.length - fitsMost} more</p> : null}
    </section>
  ));
}

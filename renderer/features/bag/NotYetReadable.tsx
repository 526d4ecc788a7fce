import type { Missing } from '../../engine/records/readableTask.ts';
import { placeAddress } from '../../store/place.ts';
import { countOf } from '../steps/words.ts';

const listedMost = 20;

/** Why no bag is planned: a bag without the steps that cannot be read would look whole and be short. */
export function NotYetReadable({ missing }: { missing: readonly Missing[] }) {
  return (
    <section aria-labelledby="not-yet-readable">
      <h2 id="not-yet-readable">{countOf(missing.length, 'record')} of this task cannot be read yet</h2>
      <p>No bag is planned before they can: it would be short of what they need.</p>
      <ul className="bw-lines">
        {missing.slice(0, listedMost).map(({ table, code, reason }, index) => (
          <li key={index}>
            {table === 'steps' ? (
              <a href={placeAddress({ at: 'steps', step: code })}>Step {code}</a>
            ) : table === 'items' ? (
              <a href={placeAddress({ at: 'catalog' })}>{code}</a>
            ) : (
              <span>{code}</span>
            )}
            <span>{reason}</span>
          </li>
        ))}
      </ul>
      {missing.length > listedMost ? <p className="bw-second">and {missing.length - listedMost} more</p> : null}
    </section>
  );
}

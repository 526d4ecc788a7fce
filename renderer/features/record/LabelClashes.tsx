import type { TagClash } from '../../engine/record/tagClashes.ts';
import { countOf } from '../steps/words.ts';
import type { ClashWay } from './bringIn.ts';

export interface LabelClashesProps {
  clashes: readonly TagClash[];
  renumbered: readonly { thing: string; was: number; is: number }[];
  way: ClashWay | null;
  onWay: (way: ClashWay) => void;
}

/** Label numbers that two copies of the program gave to two things: each is named, and somebody says what becomes of them. */
export function LabelClashes({ clashes, renumbered, way, onWay }: LabelClashesProps) {
  const anew = new Map(renumbered.map(({ thing, is }) => [thing, is]));
  return (
    <section aria-labelledby="label-clashes">
      <h3 id="label-clashes">{countOf(clashes.length, 'label number')} given to another thing here</h3>
      <table className="bw-task-table">
        <thead>
          <tr>
            <th scope="col">Label</th>
            <th scope="col">In the file</th>
            <th scope="col">Here</th>
          </tr>
        </thead>
        <tbody>
          {clashes.map(({ tag, theirs, ours }) => (
            <tr key={theirs.id}>
              <th scope="row">{tag}</th>
              <td>
                <span className="bw-code">{theirs.id}</span> <bdi>{theirs.name}</bdi>
                {anew.has(theirs.id) ? <b> becomes {anew.get(theirs.id)}</b> : null}
              </td>
              <td>
                <span className="bw-code">{ours.code}</span> <bdi>{ours.name}</bdi>, {ours.where}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <fieldset className="bw-record-ways">
        <legend>What becomes of them</legend>
        <label>
          <input type="radio" name="clash-way" checked={way === 'renumber'} onChange={() => onWay('renumber')} />
          <span>
            Give theirs new numbers here: their things need new labels; a label with the old number names our thing
            everywhere.
          </span>
        </label>
        <label>
          <input type="radio" name="clash-way" checked={way === 'keep'} onChange={() => onWay('keep')} />
          <span>
            Keep both: a label with such a number is read as theirs while this manifest is packed or counted in, and as
            ours everywhere else.
          </span>
        </label>
      </fieldset>
    </section>
  );
}

import type { Item } from '../../../shared-types/records/item.ts';
import type { KitComparison, KitPair } from '../../engine/kits/index.ts';
import { placeAddress } from '../../store/place.ts';
import { fieldsOf } from '../catalog/itemFields.ts';
import { countOf, itemName } from '../catalog/words.ts';

const shownMost = 200;

const titleOf = (label: string): string => label.replace(/ \([^)]*\)$/, '');

/** The form's own label of a field; its path where the form has none. */
function labelOf(item: Item, path: string): string {
  if (path === 'kind') return 'Kind';
  if (path === 'retired') return 'Retired';
  const field = fieldsOf(item.kind).find((one) => one.path === path);
  return field === undefined ? path : titleOf(field.label);
}

function ItemLink({ item }: { item: Item }) {
  return (
    <a className="bw-link" href={placeAddress({ at: 'catalog', shelf: item.shelf, item: item.id })}>
      {item.code}
    </a>
  );
}

/** What one kit has and the other has not. */
export function OnlyIn({
  title,
  items,
  needed,
}: {
  title: string;
  items: readonly Item[];
  needed: ReadonlySet<string>;
}) {
  return (
    <section aria-label={title}>
      <h3>
        <bdi>{title}</bdi> <span className="bw-second">{countOf(items.length, 'item')}</span>
      </h3>
      {items.length === 0 ? <p className="bw-second">Nothing.</p> : null}
      <ul className="bw-task-list">
        {items.slice(0, shownMost).map((item) => (
          <li key={item.id} dir="auto">
            <ItemLink item={item} />
            <span>{itemName(item)}</span>
            {needed.has(item.code) ? <b>named by a step, or in its lightest stack</b> : null}
          </li>
        ))}
      </ul>
      {items.length > shownMost ? <p className="bw-second">and {items.length - shownMost} more</p> : null}
    </section>
  );
}

/** Field by field, those of one code and those that are one thing under two codes. */
export function Differing({ compared, heads }: { compared: KitComparison; heads: readonly [string, string] }) {
  const pairs: readonly KitPair[] = [...compared.differ, ...compared.renamed];
  return (
    <section aria-label="What differs">
      <h3>
        What differs{' '}
        <span className="bw-second">
          {countOf(compared.differ.length, 'item')} of one code, {compared.renamed.length} under another code;{' '}
          {compared.same} the same
        </span>
      </h3>
      {pairs.length === 0 ? (
        <p className="bw-second">Nothing that both have differs.</p>
      ) : (
        <div className="bw-task-scroll" role="region" aria-label="Fields that differ" tabIndex={0}>
          <table className="bw-task-table bw-kits-table">
            <thead>
              <tr>
                <th scope="col">Item</th>
                <th scope="col">Field</th>
                <th scope="col">{heads[0]}</th>
                <th scope="col">{heads[1]}</th>
              </tr>
            </thead>
            <tbody>
              {pairs.slice(0, shownMost).map(({ mine, theirs, fields }) => {
                const isRenamed = mine.code !== theirs.code;
                const lines = [
                  ...(isRenamed ? [{ path: 'code', here: mine.code, file: theirs.code, same: false }] : []),
                  ...fields,
                ];
                return lines.map(({ path, here, file, same }, index) => (
                  <tr key={`${mine.id} ${theirs.id} ${path}`}>
                    {index > 0 ? null : (
                      <th scope="rowgroup" rowSpan={lines.length} dir="auto">
                        <ItemLink item={mine} /> <bdi>{itemName(mine)}</bdi>
                        {isRenamed ? <div className="bw-second">the same under another code</div> : null}
                      </th>
                    )}
                    <td>{labelOf(mine, path)}</td>
                    <td dir="auto">{here ?? 'not said'}</td>
                    <td dir="auto">
                      {file ?? 'not said'}
                      {same ? <span className="bw-second"> the same, in another unit</span> : null}
                    </td>
                  </tr>
                ));
              })}
            </tbody>
          </table>
        </div>
      )}
      {pairs.length > shownMost ? <p className="bw-second">and {pairs.length - shownMost} more items</p> : null}
    </section>
  );
}

import type { Item } from '../../../shared-types/records/item.ts';
import { valueAt } from '../../components/RecordForm/draft.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { fieldText } from './fieldText.ts';
import { itemGroups } from './itemFields.ts';

/** In the heading already. */
const said = new Set(['code', 'name', 'notes']);

/** A label without what it says of the way of typing. */
const titleOf = (label: string): string => label.replace(/ \([^)]*\)$/, '');

/** The unit that a label fixes stands with the figure. */
function withUnit(label: string, text: string): string {
  const fixed = / \((deg|MPa|1\/min)\)$/.exec(label)?.[1];
  return fixed === undefined ? text : fixed === 'deg' ? `${text}°` : `${text} ${fixed}`;
}

/** What is known of an item, each figure with its unit; what is not given is not listed. */
export function ItemFacts({ item, units }: { item: Item; units: UnitsShown }) {
  const known = itemGroups[item.kind].map(({ title, fields }) => ({
    title,
    facts: fields.flatMap((field) => {
      const value = valueAt(item, field.path);
      const { path, label } = field;
      const own =
        said.has(path) || value === undefined
          ? []
          : [{ path, title: titleOf(label), text: withUnit(label, fieldText(field, value, units)) }];
      // With its place in the store stands the number on its label, which nobody types.
      const isPlaced = path === 'keptAt' && item.tag !== undefined;
      return isPlaced ? [...own, { path: 'tag', title: 'Label', text: String(item.tag) }] : own;
    }),
  }));
  return (
    <div className="bw-item-facts">
      {known
        .filter(({ facts }) => facts.length > 0)
        .map(({ title, facts }) => (
          <section key={title}>
            <h2>{title}</h2>
            <dl>
              {facts.map(({ path, title: named, text }) => (
                <div key={path}>
                  <dt>{named}</dt>
                  <dd>{text}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
    </div>
  );
}

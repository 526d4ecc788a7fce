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
      return said.has(field.path) || value === undefined ? [] : [{ field, text: fieldText(field, value, units) }];
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
              {facts.map(({ field, text }) => (
                <div key={field.path}>
                  <dt>{titleOf(field.label)}</dt>
                  <dd>{withUnit(field.label, text)}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
    </div>
  );
}

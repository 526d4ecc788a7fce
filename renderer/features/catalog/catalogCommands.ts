import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { askCatalog } from './asks.ts';
import type { CatalogAsk } from './asks.ts';

const titles: readonly [CatalogAsk, string, readonly string[] | null][] = [
  ['find', 'Find in catalog', null],
  ['add', 'Add item', null],
  ['bring-in', 'Bring items in from a table', null],
  ['save', 'Save items as a file', null],
  ['columns', 'Columns and filters of the catalog', null],
  ['views', 'Views of the catalog', null],
  ['doubles', 'Find items kept twice', null],
  ['stock', 'Stock by place', null],
  ['due', 'Calibrations that fall due', null],
];

/** What the finder offers of the catalog, from wherever the person is. */
export function catalogCommands(): Command[] {
  return titles.map(([what, title, keys]) => ({
    id: `catalog-${what}`,
    kind: 'Do',
    title,
    keys,
    hindered: null,
    run: () => {
      goTo({ at: 'catalog' });
      askCatalog(what);
    },
  }));
}

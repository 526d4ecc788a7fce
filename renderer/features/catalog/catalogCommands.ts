import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { askCatalog } from './asks.ts';

/** What the finder offers of the catalog, from wherever the person is. */
export function catalogCommands(): Command[] {
  const ask = (what: 'add' | 'find') => () => {
    goTo({ at: 'catalog' });
    askCatalog(what);
  };
  return [
    { id: 'catalog-find', kind: 'Do', title: 'Find in catalog', keys: null, hindered: null, run: ask('find') },
    { id: 'catalog-add', kind: 'Do', title: 'Add item', keys: null, hindered: null, run: ask('add') },
  ];
}

import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { createAsking } from '../task/asking.ts';

/** Items chosen in the catalog, by key; they stay chosen until others are. */
export const labelsAsked = createAsking<readonly string[]>();

/** To the labels of some items. */
export function askForLabels(items: readonly string[]): void {
  labelsAsked.ask(items);
  goTo({ at: 'labels', from: 'chosen' });
}

/** What the finder offers of labels, from wherever the person is. */
export function labelCommands(): Command[] {
  return [
    {
      ...{ id: 'go-labels', kind: 'Go', title: 'Labels for things and bags', keys: ['g', 'q'], hindered: null },
      run: () => goTo({ at: 'labels' }),
    },
  ];
}

import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { createAsking } from '../task/asking.ts';

export type CalloutWish = 'add' | 'find' | 'open-file' | 'import' | 'report' | 'take-steps';

/** The palette asks for something to be done in the place of the callouts. */
export const calloutAsking = createAsking<CalloutWish>();

/** What the finder offers of the callouts, from wherever the person is. */
export function calloutCommands(hasTask: boolean): Command[] {
  const hindered = hasTask ? null : 'open a task first';
  const ask = (id: string, title: string, wish: CalloutWish): Command => ({
    id,
    kind: 'Do',
    title,
    keys: null,
    hindered,
    run: () => {
      goTo({ at: 'callouts' });
      calloutAsking.ask(wish);
    },
  });
  return [
    {
      id: 'go-callouts',
      kind: 'Go',
      title: 'Callouts',
      keys: ['g', 'l'],
      hindered,
      run: () => goTo({ at: 'callouts' }),
    },
    ask('callout-add', 'Add callout', 'add'),
    ask('callout-find', 'Find in callouts', 'find'),
    ask('callout-import', 'Import callouts…', 'import'),
    ask('callout-report', 'Report on the callouts…', 'report'),
    ask('callout-file', 'Judge a file of callouts…', 'open-file'),
    ask('callout-steps', 'Take the callouts of the steps', 'take-steps'),
  ];
}

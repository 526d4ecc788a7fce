import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { createAsking } from '../task/asking.ts';

/** What the finder may ask of the handbook. */
export const handbookAsking = createAsking<'find'>();

export function handbookCommands(): Command[] {
  return [
    {
      id: 'handbook-find',
      kind: 'Do',
      title: 'Find in the handbook',
      keys: ['f', 'h'],
      hindered: null,
      run: () => {
        goTo({ at: 'handbook' });
        handbookAsking.ask('find');
      },
    },
    {
      id: 'handbook-thread',
      kind: 'Go',
      title: 'Handbook: one thread in every document',
      keys: null,
      hindered: null,
      run: () => goTo({ at: 'handbook', table: 'thread' }),
    },
  ];
}

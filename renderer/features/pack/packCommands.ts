import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';

/** What the finder offers of packing. */
export function packCommands(hasTask: boolean): Command[] {
  const hindered = hasTask ? null : 'open a task first';
  return [
    {
      ...{ id: 'go-pack', kind: 'Go', title: 'Pack', keys: ['g', 'p'], hindered },
      run: () => goTo({ at: 'pack' }),
    },
  ];
}

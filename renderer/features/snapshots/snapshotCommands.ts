import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';

/** What the finder offers of snapshots, from wherever the person is. */
export function snapshotCommands(): Command[] {
  return [
    {
      id: 'go-snapshots',
      kind: 'Go',
      title: 'Snapshots: make one, restore one, bring a file in, save everything, check the database, second folder',
      keys: ['g', 'y'],
      hindered: null,
      run: () => goTo({ at: 'snapshots' }),
    },
  ];
}

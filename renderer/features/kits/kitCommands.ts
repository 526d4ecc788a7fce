import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';

/** What the finder offers of kits, from wherever the person is. */
export function kitCommands(): Command[] {
  return [
    {
      id: 'go-kits',
      kind: 'Go',
      title: 'Kits compared: shelves, field and training kit, tasks, planned bags',
      keys: ['g', 'v'],
      hindered: null,
      run: () => goTo({ at: 'kits' }),
    },
  ];
}

import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { createAsking } from '../task/asking.ts';

export type RecordWish = 'add' | 'find' | 'open-file' | 'tool';

/** The palette asks for something to be done in the place of the records. */
export const recordAsking = createAsking<RecordWish>();

/** What the finder offers of the records, from wherever the person is. */
export function recordCommands(hasTask: boolean): Command[] {
  const hindered = hasTask ? null : 'open a task first';
  const ask = (id: string, title: string, wish: RecordWish): Command => ({
    id,
    kind: 'Do',
    title,
    keys: null,
    hindered,
    run: () => {
      goTo({ at: 'asrun' });
      recordAsking.ask(wish);
    },
  });
  return [
    { id: 'go-asrun', kind: 'Go', title: 'As-run', keys: ['g', 'a'], hindered, run: () => goTo({ at: 'asrun' }) },
    {
      id: 'go-findings',
      kind: 'Go',
      title: 'Findings',
      keys: ['g', 'e'],
      hindered,
      run: () => goTo({ at: 'findings' }),
    },
    ask('record-add', 'Add record', 'add'),
    ask('record-find', 'Find in records', 'find'),
    ask('record-file', 'Judge a file of records…', 'open-file'),
    ask('record-tool', 'Values of a tool, found out of calibration…', 'tool'),
  ];
}

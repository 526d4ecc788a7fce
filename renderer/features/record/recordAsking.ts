import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import type { Place } from '../../store/place.ts';

/** What the finder offers of what comes back, what was done, and what is missing. */
export function outAndBackCommands(hasTask: boolean): Command[] {
  const go = (title: string, place: Place, key: string, hindered: string | null): Command => ({
    ...{ id: `go-${place.at}`, kind: 'Go', title, keys: ['g', key], hindered },
    run: () => goTo(place),
  });
  const needsTask = hasTask ? null : 'open a task first';
  return [
    go('Return', { at: 'return' }, 'r', needsTask),
    go('Record', { at: 'record' }, 'j', needsTask),
    go('Discrepancies', { at: 'discrepancies' }, 'd', null),
  ];
}

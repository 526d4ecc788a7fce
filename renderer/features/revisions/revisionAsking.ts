import type { Command } from '../palette/command.ts';
import { goTo } from '../session/usePlace.ts';
import { createAsking } from '../task/asking.ts';

/** The palette, or another sheet, asks for a manifest to be frozen. */
export const freezeAsking = createAsking<'freeze'>();

/** To where manifests are frozen, with the question already asked. */
export function askToFreeze(): void {
  goTo({ at: 'revisions' });
  freezeAsking.ask('freeze');
}

/** What the finder offers of frozen manifests. */
export function revisionCommands(hasTask: boolean): Command[] {
  const hindered = hasTask ? null : 'open a task first';
  return [
    {
      ...{ id: 'go-revisions', kind: 'Go', title: 'Frozen manifests', keys: ['g', 'z'], hindered },
      run: () => goTo({ at: 'revisions' }),
    },
    {
      ...{ id: 'freeze', kind: 'Do', title: 'Freeze the manifest as the next revision…', keys: ['f', 'r'], hindered },
      run: askToFreeze,
    },
  ];
}

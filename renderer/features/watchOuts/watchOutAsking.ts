import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { goTo } from '../session/usePlace.ts';
import type { Command } from '../palette/command.ts';
import { createAsking } from '../task/asking.ts';

/** What a new watch-out begins with, where it is written. */
export type WatchOutBegun = Partial<Pick<WatchOut, 'text' | 'ties'>> & { learned?: Partial<WatchOut['learned']> };

export type WatchOutWish = { kind: 'write'; begun: WatchOutBegun } | { kind: 'find' };

export const watchOutAsking = createAsking<WatchOutWish>();

/** Writes one from wherever the thing is that it is tied to. */
export function writeWatchOut(begun: WatchOutBegun): void {
  goTo({ at: 'watchouts' });
  watchOutAsking.ask({ kind: 'write', begun });
}

/** What the finder offers, from wherever the person is. */
export function watchOutCommands(): Command[] {
  const act = (id: string, title: string, wish: WatchOutWish): Command => ({
    id,
    kind: 'Do',
    title,
    keys: null,
    hindered: null,
    run: () => {
      goTo({ at: 'watchouts' });
      watchOutAsking.ask(wish);
    },
  });
  return [
    {
      id: 'go-watchouts',
      kind: 'Go',
      title: 'Watch-outs',
      keys: ['g', 'w'],
      hindered: null,
      run: () => goTo({ at: 'watchouts' }),
    },
    act('watch-out-write', 'Write a watch-out', { kind: 'write', begun: {} }),
    act('watch-out-find', 'Find in watch-outs', { kind: 'find' }),
  ];
}

import type { Command } from '../palette/command.ts';
import { createAsking } from '../task/asking.ts';
import { goTo } from '../session/usePlace.ts';
import type { Place } from '../../store/place.ts';
import { benchSheets } from './sheets/index.ts';

/** What the finder may ask of the bench. */
export type BenchWish = 'copy' | 'keep' | 'clear';

export const benchAsking = createAsking<BenchWish>();

/** Every computation by its name, and what can be done with the one at hand. */
export function benchCommands(place: Place): Command[] {
  const hindered = place.at === 'bench' && place.note === undefined ? null : 'go to a computation of the bench first';
  const act = (wish: BenchWish, title: string, keys: string[] | null = null): Command => ({
    id: `bench-${wish}`,
    kind: 'Do',
    title,
    keys,
    hindered,
    run: () => benchAsking.ask(wish),
  });
  return [
    ...benchSheets.map(({ id, name }): Command => ({
      id: `bench-${id}`,
      kind: 'Go',
      title: `Bench: ${name}`,
      keys: null,
      hindered: null,
      run: () => goTo({ at: 'bench', sheet: id }),
    })),
    act('copy', 'Copy the result as text', ['y', 'r']),
    act('keep', 'Keep the result with a task…', ['y', 'k']),
    act('clear', 'Clear the entries of this computation'),
  ];
}

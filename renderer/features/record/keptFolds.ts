import type { OutingEvent } from '../../../shared-types/records/revision.ts';
import { packState } from '../../engine/packing/index.ts';
import { returnState } from '../../engine/return/index.ts';

type Fold<R, S> = (revision: R, events: readonly OutingEvent[], outing: string) => S;

/**
 * A fold that gives again what it gave before, as long as nothing more was done with the revision: events are only ever added, so that
 * their number and the last one's hash say whether they are the same. What it gives is read, and never packed on.
 */
export function keptFold<R extends object, S>(fold: Fold<R, S>): Fold<R, S> {
  const kept = new WeakMap<R, Map<string, { upTo: string; state: S }>>();
  return (revision, events, outing) => {
    const upTo = `${events.length} ${events.at(-1)?.hash ?? ''}`;
    const own = kept.get(revision) ?? new Map<string, { upTo: string; state: S }>();
    const held = own.get(outing);
    if (held?.upTo === upTo) return held.state;
    const state = fold(revision, events, outing);
    kept.set(revision, own.set(outing, { upTo, state }));
    return state;
  };
}

/** For what is looked at after each event, as the job line is: a task of many revisions folds but the one that had it. */
export const returnStateKept: typeof returnState = keptFold(returnState);
export const packStateKept: typeof packState = keptFold(packState);

import { describe, expect, it } from 'vitest';
import type { Deed, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { packState, revisionInWork } from '../../../renderer/engine/packing/index.ts';
import { outingsThatLeft, returnState } from '../../../renderer/engine/return/index.ts';
import { keptFold } from '../../../renderer/features/record/keptFolds.ts';
import { again, allPacked, ben, eventsOf, outing, packingContent } from '../../engine/packing/packingEvents.ts';

const revisions = Array.from(
  { length: 200 },
  (_, index) => ({ id: `r${index}`, number: index + 1, content: packingContent }) as Revision,
);
const left: (Deed | { by: typeof ben; deed: Deed })[] = [
  ...allPacked,
  { kind: 'bag-closed', bag: 'L' },
  { kind: 'bag-closed', bag: 'C' },
  {
    by: ben,
    deed: again('L', [
      ['R-38', 1, 3],
      ['S-13', 2],
    ]),
  },
  {
    by: ben,
    deed: again('C', [
      ['T-07', 4],
      ['S-13', 1],
    ]),
  },
  { kind: 'issued' },
];
const ofAll = revisions.flatMap(({ id }) =>
  eventsOf(left).map((event): OutingEvent => ({ ...event, revision: id, hash: `${id} ${event.no}` })),
);
const back: OutingEvent = {
  ...eventsOf([{ kind: 'back', bag: 'L', item: 'S-13', pieces: 1, parts: 1, place: 'shop' }], left.length + 1)[0],
  ...{ revision: 'r7', hash: 'r7 back' },
} as OutingEvent;

/** The same fold, with how often it was asked. */
function counted<A extends unknown[], S>(fold: (...given: A) => S): { fold: (...given: A) => S; times: () => number } {
  let times = 0;
  return {
    fold: (...given) => {
      times += 1;
      return fold(...given);
    },
    times: () => times,
  };
}

describe('the job line of a task with 200 revisions', () => {
  it('folds each once, then after one event more the one that had it, and says the same as without keeping', () => {
    const { fold, times } = counted(returnState);
    const kept = keptFold(fold);
    const first = outingsThatLeft({ revisions, events: ofAll }, kept);
    expect([first.length, times()]).toEqual([200, 200]);
    outingsThatLeft({ revisions, events: [...ofAll] }, kept);
    expect(times()).toBe(200);
    const after = outingsThatLeft({ revisions, events: [...ofAll, back] }, kept);
    expect(times()).toBe(201);
    expect(after).toEqual(outingsThatLeft({ revisions, events: [...ofAll, back] }));
    expect(after[7]?.state.lines).not.toEqual(first[7]?.state.lines);
  });

  it('asks of packing no more, either', () => {
    const { fold, times } = counted(packState);
    const kept = keptFold((revision: Revision, events: readonly OutingEvent[], of: string) =>
      fold(revision, events, of),
    );
    // All of them out: the newest is the one in work.
    expect(revisionInWork(revisions, ofAll, outing, kept)).toBe(revisions.at(-1));
    // All of them back: every one is asked, and by its events alone.
    const home = revisions.map(({ id }) => ({ ...back, revision: id, deed: { kind: 'return-closed' as const } }));
    expect(revisionInWork(revisions, [...ofAll, ...home], outing, kept)).toBe(revisions.at(-1));
    expect(times()).toBeLessThanOrEqual(1);
    // None out: each is folded, once.
    const packed = ofAll.filter(({ deed }) => deed.kind !== 'issued');
    revisionInWork(revisions, packed, outing, kept);
    const before = times();
    revisionInWork(revisions, [...packed, { ...back, deed: { kind: 'remark', words: 'x' } }], outing, kept);
    expect([before, times()]).toEqual([201, 202]);
  });
});

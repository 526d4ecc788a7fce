/** A manifest made up for packing, and events of it. Nothing here is a hash: chains are tested with the record. */
import type {
  Deed,
  FrozenLine,
  FrozenThing,
  OutingEvent,
  RevisionContent,
} from '../../../shared-types/records/revision.ts';
import { mapResult, mapSource } from '../../support/bagMapPlan.ts';

export const outing = 'o';

const thing = (id: string, more: Partial<FrozenThing> = {}): FrozenThing => ({
  ...{ id, name: `Thing ${id}`, kind: 'gear', parts: 1 },
  ...more,
});
const line = (bag: string, item: string, quantity: number, pocket?: string): FrozenLine => ({
  ...{ outing, bag, item, quantity, because: ['turn'] },
  ...(pocket === undefined ? {} : { pocket }),
});

/** Two bags; a ratchet of three parts, four tethers, a socket that lies in both bags. */
export const packingContent: RevisionContent = {
  planText: JSON.stringify(mapSource),
  result: mapResult,
  things: [
    thing('L', { kind: 'bag' }),
    thing('C', { kind: 'bag' }),
    thing('R-38', { kind: 'driver', parts: 3, tag: 11 }),
    thing('S-13', { kind: 'socket', tag: 12 }),
    thing('T-07', { tag: 13 }),
    thing('W-10', { consumed: true }),
  ],
  lines: [
    line('L', 'R-38', 1, 'A'),
    line('L', 'S-13', 2, 'A'),
    line('C', 'T-07', 4),
    line('C', 'S-13', 1),
    { ...line('C', 'W-10', 5), outing: 'other' },
  ],
  facts: [],
};

export const revision = { content: packingContent };

export const ann = { name: 'Ann Example', role: 'packer' };
export const ben = { name: 'Ben Example', role: 'second counter' };

/** Events numbered from `from`; by Ann where nobody else is named. */
export function eventsOf(deeds: readonly (Deed | { by: typeof ann; deed: Deed })[], from = 1): OutingEvent[] {
  return deeds.map((one, index) => {
    const { by, deed } = 'deed' in one ? one : { by: ann, deed: one };
    const no = from + index;
    return {
      ...{ id: `e${no}`, rev: 1, revision: 'r', no, at: '2026-11-25T10:00:00+00:00', by, outing, deed },
      ...{ prev: '0'.repeat(64), hash: '0'.repeat(64) },
    };
  });
}

export const counted = (bag: string, item: string, pieces: number, parts = pieces, label?: string): Deed => ({
  ...{ kind: 'counted', bag, item, pieces, parts },
  ...(label === undefined ? {} : { label }),
});
export const missing = (bag: string, item: string, pieces: number, parts = pieces): Deed => ({
  ...{ kind: 'missing', bag, item, pieces, parts, reason: 'not on its shelf' },
});
export const takenBack = (of: number): Deed => ({ kind: 'taken-back', of });
export const again = (bag: string, counts: [item: string, pieces: number, parts?: number][]): Deed => ({
  ...{ kind: 'second-count', bag, way: 'blind' },
  counts: counts.map(([item, pieces, parts = pieces]) => ({ item, pieces, parts })),
});

/** Everything of both bags, packed by Ann. */
export const allPacked: Deed[] = [
  counted('L', 'R-38', 1, 3),
  counted('L', 'S-13', 2),
  counted('C', 'T-07', 4),
  counted('C', 'S-13', 1),
];
/** The same counted again by Ben. */
export const allAgain = [
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
];

import { describe, expect, it } from 'vitest';
import type { Deed, OutingEvent } from '../../../shared-types/records/revision.ts';
import { drawsOf } from '../../../renderer/engine/chance/draws.ts';
import { beginPacking, packOn, packState, stateOf } from '../../../renderer/engine/packing/index.ts';
import type { PackState } from '../../../renderer/engine/packing/index.ts';
import {
  again,
  allAgain,
  allPacked,
  ann,
  ben,
  counted,
  eventsOf,
  missing,
  outing,
  packingContent,
  revision,
  takenBack,
} from './packingEvents.ts';

type Given = Parameters<typeof eventsOf>[0];
const after = (deeds: Given): PackState => packState(revision, eventsOf(deeds), outing);
const lineOf = (state: PackState, bag: string, item: string) => {
  const found = state.bags.find(({ id }) => id === bag)?.lines.find(({ line }) => line.item === item);
  if (found === undefined) throw new Error(`no line ${bag} ${item}`);
  return found;
};
const refusedIn = (state: PackState): string[] => state.refused.map(({ reason }) => reason);

describe('what is packed follows from the events alone', () => {
  it('begins with everything to pack, in chunks by pocket, and leaves other outings out', () => {
    const state = after([]);
    expect(state.bags.map(({ id, chunks }) => [id, chunks.map(({ pocket, lines }) => [pocket, lines.length])])).toEqual(
      [
        ['L', [['A', 2]]],
        ['C', [[null, 2]]],
      ],
    );
    expect(state.totals).toEqual({ pieces: 8, packed: 0, missing: 0, open: 8, partial: 0 });
    expect(state.next).toEqual({ bag: 'L', item: 'R-38' });
    expect(state.last).toBeNull();
  });

  it('asks for the parts of a thing of several parts: two of three are not a whole piece', () => {
    const two = after([counted('L', 'R-38', 1, 2)]);
    expect(lineOf(two, 'L', 'R-38')).toMatchObject({ state: 'part', open: { pieces: 0, parts: 1 } });
    expect(two.totals).toMatchObject({ packed: 1, partial: 1 });
    const three = after([counted('L', 'R-38', 1, 2), counted('L', 'R-38', 0, 1)]);
    expect(lineOf(three, 'L', 'R-38').state).toBe('packed');
    const named = after([counted('L', 'R-38', 1, 2), missing('L', 'R-38', 0, 1)]);
    expect(lineOf(named, 'L', 'R-38').state).toBe('missing');
  });

  it('goes on at the line of the last event, a taking back included', () => {
    const state = after([counted('L', 'R-38', 1, 3), counted('C', 'T-07', 1), takenBack(1)]);
    expect(state.last).toEqual({ no: 3, bag: 'L', item: 'R-38' });
    expect(state.next).toEqual({ bag: 'L', item: 'R-38' });
    expect(after([counted('C', 'T-07', 1)]).next).toEqual({ bag: 'C', item: 'T-07' });
    // Round its own bag first, then on to the others.
    expect(after([counted('C', 'S-13', 1)]).next).toEqual({ bag: 'C', item: 'T-07' });
  });

  it.each<[string, Given, string]>([
    ['a thing that is nowhere on the outing', [counted('L', 'W-10', 1)], 'W-10 is not packed on outing o'],
    ['another bag’s thing', [counted('L', 'T-07', 1)], 'T-07 is not packed into L: it belongs in C'],
    ['more than the line has', [counted('L', 'S-13', 2), counted('L', 'S-13', 1)], 'S-13: 3 would be counted of 2'],
    [
      'a label read twice',
      [counted('L', 'S-13', 1, 1, '100012'), counted('L', 'S-13', 1, 1, '100012')],
      'S-13: this label is counted already',
    ],
    [
      'a label read into two bags',
      [counted('L', 'S-13', 1, 1, '100012'), counted('C', 'S-13', 1, 1, '100012')],
      'S-13: this label is counted already',
    ],
    ['nothing', [counted('L', 'S-13', 0)], 'S-13: nothing is counted'],
    [
      'a piece without a part',
      [counted('L', 'R-38', 1, 0)],
      'R-38: 1 piece with 0 of 3 parts: a piece has at least one part',
    ],
    ['too many parts', [counted('L', 'R-38', 1, 4)], 'R-38: 4 parts of 3 would be counted'],
    ['parts without their piece', [counted('L', 'R-38', 0, 1)], 'R-38: 1 parts of 0 would be counted'],
    [
      'what is named missing',
      [missing('C', 'T-07', 4), counted('C', 'T-07', 1)],
      'T-07: 5 would be counted of 4, missing ones among them',
    ],
    [
      'a taking back of a taking back',
      [counted('L', 'S-13', 1), takenBack(1), takenBack(2)],
      'Event 2 is nothing of this outing that could be taken back',
    ],
    ['taking back twice', [counted('L', 'S-13', 1), takenBack(1), takenBack(1)], 'Event 1 is taken back already'],
    ['taking back what never was', [takenBack(7)], 'Event 7 is nothing of this outing that could be taken back'],
    [
      'a piece whose parts came later',
      [counted('L', 'R-38', 1, 2), counted('L', 'R-38', 0, 1), takenBack(1)],
      'R-38: parts were counted after it: take those back first',
    ],
    ['a bag that is not one', [{ kind: 'bag-closed', bag: 'Z' }], 'Z is no bag of outing o'],
    ['opening an open bag', [{ kind: 'bag-opened', bag: 'L', reason: 'x' }], 'Bag L is open'],
  ])('refuses %s, and counts on as if it were not there', (_, deeds, reason) => {
    const state = after(deeds);
    expect(refusedIn(state)).toEqual([reason]);
    const refused = new Set(state.refused.map(({ no }) => no));
    const { fold: _a, refused: _b, ...rest } = state;
    const without = packState(
      revision,
      eventsOf(deeds).filter(({ no }) => !refused.has(no)),
      outing,
    );
    const { fold: _c, refused: _d, ...same } = without;
    expect(rest).toEqual(same);
  });

  it('counts a label again once its event is taken back', () => {
    const state = after([counted('L', 'S-13', 1, 1, 'x'), takenBack(1), counted('C', 'S-13', 1, 1, 'x')]);
    expect(state.refused).toEqual([]);
    expect(lineOf(state, 'C', 'S-13').labels).toEqual(['x']);
  });
});

describe('a bag is closed whole, or with a reason and a second name', () => {
  const short: Given = [counted('L', 'R-38', 1, 3), counted('L', 'S-13', 1)];
  const close = (more: object = {}): Deed => ({ kind: 'bag-closed', bag: 'L', ...more });

  it('whole', () => {
    expect(after([...allPacked, close()]).bags[0]?.closed).toMatchObject({ by: ann });
  });

  it.each<[string, object, string]>([
    ['nothing said', {}, 'Bag L is not whole: S-13: 1 piece to pack. To close it so takes a reason and a second name'],
    [
      'a reason alone',
      { reason: 'lent out' },
      'Bag L is not whole: S-13: 1 piece to pack. To close it so takes a reason and a second name',
    ],
    [
      'a reason of blanks',
      { reason: ' ', second: ben },
      'Bag L is not whole: S-13: 1 piece to pack. To close it so takes a reason and a second name',
    ],
    [
      'the packer as second',
      { reason: 'lent out', second: { ...ben, name: ' ann  EXAMPLE' } },
      ' ann  EXAMPLE packed it: the second name must be of another person',
    ],
  ])('not short with %s', (_, more, reason) => {
    expect(refusedIn(after([...short, close(more)]))).toEqual([reason]);
  });

  it('short with both; named missing pieces are short too', () => {
    expect(after([...short, close({ reason: 'lent out', second: ben })]).bags[0]?.closed).toMatchObject({
      second: ben,
    });
    const named = after([...short, missing('L', 'S-13', 1), close()]);
    expect(refusedIn(named)).toEqual([
      'Bag L is not whole: S-13: 1 piece missing. To close it so takes a reason and a second name',
    ]);
  });

  it('takes nothing in and gives nothing back until it is opened', () => {
    const state = after([
      ...allPacked,
      close(),
      takenBack(2),
      { kind: 'bag-opened', bag: 'L', reason: 'count again' },
      takenBack(2),
    ]);
    expect(refusedIn(state)).toEqual(['Bag L is closed: open it first']);
    expect(lineOf(state, 'L', 'S-13').state).toBe('to-pack');
  });

  it('is told apart by who is meant, not by how the name is written', () => {
    const composed = { name: 'Zoé Example', role: 'packer' };
    const apart = { name: 'zoe\u0301  example', role: 'second' };
    const state = after([
      ...short.map((deed) => ({ by: composed, deed: deed as Deed })),
      { by: ben, deed: close({ reason: 'lent out', second: apart }) },
    ]);
    expect(refusedIn(state)).toHaveLength(1);
  });
});

describe('another person counts again', () => {
  const closeAll: Deed[] = [
    { kind: 'bag-closed', bag: 'L' },
    { kind: 'bag-closed', bag: 'C' },
  ];
  const issue: Deed = { kind: 'issued' };

  it('and the outing leaves', () => {
    const state = after([...allPacked, ...closeAll, ...allAgain, issue]);
    expect(state.refused).toEqual([]);
    expect(state.bags.map(({ second }) => second)).toEqual(['agrees', 'agrees']);
    expect(state.issued?.no).toBe(9);
  });

  it('never the packer', () => {
    const state = after([...allPacked, again('L', [['R-38', 1, 3]])]);
    expect(refusedIn(state)).toEqual(['Ann Example packed bag L: another person must count it again']);
    const carried = packState(
      revision,
      eventsOf([
        { kind: 'carried-over', from: 'r0', counts: [{ bag: 'L', item: 'S-13', pieces: 2, parts: 2, labels: [] }] },
        { by: ben, deed: again('L', [['S-13', 2]]) },
      ]),
      outing,
      [ben.name],
    );
    expect(refusedIn(carried)).toEqual(['Ben Example packed bag L: another person must count it again']);
  });

  it.each<[string, Given, string]>([
    ['a bag is open', [...allPacked], 'Bag L is not closed'],
    ['nobody counted again', [...allPacked, ...closeAll], 'Bag L: R-38 is not counted again'],
    [
      'one part is left out',
      [
        ...allPacked,
        ...closeAll,
        {
          by: ben,
          deed: again('L', [
            ['R-38', 1, 2],
            ['S-13', 2],
          ]),
        },
      ],
      'Bag L: R-38: 1 piece packed, 1 piece with 2 of 3 parts counted again',
    ],
    [
      'something else lies in it',
      [...allPacked, ...closeAll, ...allAgain, { by: ben, deed: again('L', [['W-10', 1]]) }],
      'Bag L: W-10: 1 piece found in it, no line of it',
    ],
  ])('and nothing leaves where %s', (_, deeds, reason) => {
    const state = after([...deeds, issue]);
    expect(refusedIn(state)).toEqual([reason]);
    expect(state.issued).toBeNull();
  });

  const differs = [
    ...allPacked,
    ...closeAll,
    {
      by: ben,
      deed: again('L', [
        ['R-38', 1, 3],
        ['S-13', 1],
      ]),
    },
  ];
  const open: Deed = { kind: 'bag-opened', bag: 'L', reason: 'counted differently' };
  const agreesOnC = {
    by: ben,
    deed: again('C', [
      ['T-07', 4],
      ['S-13', 1],
    ]),
  };

  it('a difference stays until the packer has counted that line again, though the second count is mended', () => {
    const mended = after([...differs, agreesOnC, { by: ben, deed: again('L', [['S-13', 2]]) }, issue]);
    expect(refusedIn(mended)).toEqual([
      'Bag L: S-13: the packer has not counted again what a second count found different',
    ]);
    const recounted = after([
      ...differs,
      ...[agreesOnC, open, takenBack(2), counted('L', 'S-13', 2), closeAll[0] as Deed],
      { by: ben, deed: again('L', [['S-13', 2]]) },
      issue,
    ]);
    expect(recounted.refused).toEqual([]);
    expect(recounted.issued).not.toBeNull();
  });

  it('or has named the rest missing', () => {
    const state = after([
      ...differs,
      ...[agreesOnC, open, takenBack(2), counted('L', 'S-13', 1), missing('L', 'S-13', 1)],
      { kind: 'bag-closed', bag: 'L', reason: 'one is lost', second: ben },
      issue,
    ]);
    expect(state.refused).toEqual([]);
    expect(state.issued).not.toBeNull();
  });

  it('what is out stays as it was, until the issue is taken back; that ends with the first thing that comes back', () => {
    const out = [...allPacked, ...closeAll, ...allAgain, issue];
    expect(refusedIn(after([...out, takenBack(1), counted('L', 'S-13', 1), issue]))).toHaveLength(3);
    expect(after([...out, takenBack(9)]).issued).toBeNull();
    const back: Deed = { kind: 'back', bag: 'L', item: 'S-13', pieces: 1, parts: 1, place: 'bag' };
    expect(refusedIn(after([...out, back, takenBack(9)]))).toEqual(['Some of it has come back: the issue stands']);
    expect(after([...out, back, takenBack(10), takenBack(9)]).issued).toBeNull();
  });
});

describe('any events whatever', () => {
  const [bags, items] = [
    ['L', 'C', 'Z'],
    ['R-38', 'S-13', 'T-07', 'W-10', '?'],
  ];
  /** Mostly what may be, now and then what may not. */
  function randomEvents(seed: number): OutingEvent[] {
    const { uniform } = drawsOf(seed);
    const upTo = (most: number): number => Math.floor(uniform() * (most + 1));
    const of = <T>(list: readonly T[]): T => list[upTo(list.length - 1)] as T;
    const deed = (no: number): Deed => {
      const [bag, item, pieces] = [of(bags), of(items), upTo(2)];
      const parts = item === 'R-38' ? upTo(4) : uniform() < 0.9 ? pieces : upTo(3);
      switch (upTo(9)) {
        case 0:
          return missing(bag, item, pieces, parts);
        case 1:
        case 2:
          return takenBack(1 + upTo(no));
        case 3:
          return { kind: 'bag-closed', bag, ...(uniform() < 0.7 ? { reason: 'so', second: of([ann, ben]) } : {}) };
        case 4:
          return { kind: 'bag-opened', bag, reason: 'so' };
        case 5:
          return again(bag, [[of(items), pieces, parts]]);
        case 6:
          return uniform() < 0.3 ? { kind: 'issued' } : { kind: 'remark', words: 'so', bag, item };
        case 7:
          return { kind: 'carried-over', from: 'r0', counts: [{ bag, item, pieces, parts, labels: [`l${upTo(3)}`] }] };
        default:
          return counted(bag, item, pieces, parts, uniform() < 0.3 ? `l${upTo(5)}` : undefined);
      }
    };
    return eventsOf(Array.from({ length: 60 }, (_, at) => ({ by: of([ann, ben]), deed: deed(at) })));
  }
  const seeds = Array.from({ length: 120 }, (_, seed) => seed);
  const told = ({ fold: _fold, ...state }: PackState): string => JSON.stringify(state);

  it('fold of a beginning, then of the rest, is the fold of all', () => {
    for (const seed of seeds) {
      const events = randomEvents(seed);
      const at = seed % events.length;
      const halves = packOn(packOn(beginPacking(revision, outing), events.slice(0, at)), events.slice(at));
      expect(told(stateOf(halves))).toBe(told(packState(revision, events, outing)));
    }
  });

  it('count what stands, no more than the manifest has, and every label once', () => {
    let some = 0;
    for (const seed of seeds) {
      const events = randomEvents(seed);
      const state = packState(revision, events, outing);
      const refused = new Set(state.refused.map(({ no }) => no));
      const stand = events.filter(({ no }) => !refused.has(no));
      const back = new Set(stand.flatMap(({ deed }) => (deed.kind === 'taken-back' ? [deed.of] : [])));
      const left = stand.filter(({ no }) => !back.has(no));
      // Added up from the events themselves, by nothing of the fold.
      for (const { line, thing, counted: held, missing: named, labels } of state.bags.flatMap(({ lines }) => lines)) {
        const sum = { pieces: 0, parts: 0, lost: 0 };
        for (const { deed } of left) {
          if (deed.kind === 'counted' && deed.bag === line.bag && deed.item === line.item) {
            sum.pieces += deed.pieces;
            sum.parts += deed.parts;
          }
          if (deed.kind === 'missing' && deed.bag === line.bag && deed.item === line.item) sum.lost += deed.pieces;
          if (deed.kind === 'carried-over')
            for (const one of deed.counts)
              if (one.bag === line.bag && one.item === line.item) {
                sum.pieces += one.pieces;
                sum.parts += one.parts;
              }
        }
        expect([held.pieces, held.parts, named.pieces]).toEqual([sum.pieces, sum.parts, sum.lost]);
        expect(held.pieces + named.pieces).toBeLessThanOrEqual(line.quantity);
        expect(held.parts).toBeLessThanOrEqual(held.pieces * thing.parts);
        expect(new Set(labels).size).toBe(labels.length);
        some += held.pieces;
      }
      const { totals } = state;
      expect(totals.packed + totals.missing + totals.open).toBe(totals.pieces);
      expect(totals.pieces).toBe(
        packingContent.lines.reduce((sum, one) => sum + (one.outing === outing ? one.quantity : 0), 0),
      );
    }
    expect(some).toBeGreaterThan(seeds.length);
  });
});

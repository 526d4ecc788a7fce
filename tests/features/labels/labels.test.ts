/** Which labels a thing has, which numbers it gets, and what labels can be made for. */
import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { readTag } from '../../../renderer/engine/tag/index.ts';
import { giveLabelsAct } from '../../../renderer/features/labels/giveLabels.ts';
import {
  formFault,
  labelPlaces,
  leastSize,
  onPages,
  sheetRoom,
  usualSizes,
} from '../../../renderer/features/labels/labelForm.ts';
import type { LabelForm } from '../../../renderer/features/labels/labelForm.ts';
import { labelCount, labelsOf, whyNoLabel } from '../../../renderer/features/labels/labels.ts';
import { labelSources } from '../../../renderer/features/labels/labelSources.ts';
import type { LabelRecords } from '../../../renderer/features/labels/labelSources.ts';

const common = { rev: 1, shelf: 'crew', retired: false, parts: 1, kit: 'both' } as const;
const sized = { drive: '3/8 in', mass: '40 g' } as const;

function socket(code: string, more: Partial<Item> = {}): Item {
  return {
    ...{ ...common, ...sized, id: `id-${code}`, code, kind: 'socket', onHand: 3, length: '26 mm' },
    ...{ opening: { form: 'hex6', size: '10 mm' }, outsideDiameter: '15 mm', ratedTorque: '60 N·m' },
    ...more,
  } as Item;
}
const wipe = (tag?: number): Item => ({
  ...{ ...common, id: 'id-W', code: 'W', kind: 'gear', use: 'consumable', consumed: true, mass: '1 g', onHand: 500 },
  ...(tag === undefined ? {} : { tag }),
});
const bag: Item = { ...common, id: 'id-B', code: 'B', name: 'Hip bag', kind: 'bag', role: 'mast', tag: 9 };

describe('the labels of a thing', () => {
  it('are one for each piece, with its parts, and none before it has a number', () => {
    expect(labelsOf([{ item: socket('S') }])).toEqual([]);
    const item = socket('S', { tag: 41, parts: 2, name: 'Socket' });
    const labels = labelsOf([{ item }]);
    expect(labels.map(({ said }) => said)).toEqual([
      'piece 1 of 3, 2 parts',
      'piece 2 of 3, 2 parts',
      'piece 3 of 3, 2 parts',
    ]);
    expect(labels.map(({ text }) => readTag(text))).toMatchObject(
      [1, 2, 3].map((piece) => ({ tag: { kind: 'item', tag: 41, piece } })),
    );
    expect(labelCount({ item })).toBe(3);
  });

  it('are one for all where pieces are counted by number: what is used up, fasteners, and more than labels can count', () => {
    for (const item of [wipe(5), socket('S', { tag: 5, onHand: 1000 })]) {
      const labels = labelsOf([{ item }]);
      expect(labels.map(({ said }) => said)).toEqual(['counted by number']);
      expect(labels.map(({ text }) => readTag(text))).toMatchObject([{ tag: { kind: 'item', tag: 5, piece: 0 } }]);
    }
  });

  it('say of a bag whose it is, and where it goes', () => {
    const [label] = labelsOf([{ item: bag, outing: 'Outing 1' }]);
    expect(label).toMatchObject({ code: 'B', name: 'Hip bag', said: 'bag, role mast, Outing 1' });
    expect(readTag(label?.text ?? '')).toMatchObject({ tag: { kind: 'bag', tag: 9, piece: 0 } });
  });

  it('are none where none is on hand, which is said', () => {
    const item = socket('S', { tag: 1, onHand: 0 });
    expect([whyNoLabel({ item }), labelsOf([{ item }])]).toEqual(['none on hand', []]);
  });
});

describe('numbers', () => {
  const frozen = [{ content: { things: [{ tag: 77 }, {}] } }] as unknown as Revision[];

  it('are given in the order of the things, above all that were ever given, in one act that stays', () => {
    const things = [socket('A'), wipe()];
    const { act, first, last } = giveLabelsAct(
      things,
      [...things, bag, socket('Z', { tag: 12, retired: true })],
      frozen,
    );
    expect([first, last]).toEqual([78, 79]);
    expect(act).toMatchObject({ title: 'Give labels to 2 things' });
    expect(act.undoable).not.toBe(false);
    expect(act.proposals).toMatchObject([{ put: { code: 'A', tag: 78, rev: 1 } }, { put: { code: 'W', tag: 79 } }]);
  });
});

describe('what labels can be made for', () => {
  const items = new Map([socket('A'), socket('R', { retired: true }), bag, wipe()].map((item) => [item.id, item]));
  const plan = { outings: [{ id: 'one', name: 'First outing' }] };
  const atHand = { id: 't', task: { code: 'T-1', shelves: ['crew'] }, plan } as unknown as LabelRecords['atHand'];
  const lines = [
    { id: 'A', bag: 'B' },
    { id: 'gone', bag: 'B' },
  ];
  const revision = {
    number: 3,
    content: {
      things: [
        { id: 'OLD', record: 'id-A' },
        { id: 'B', record: 'id-B' },
        { id: 'A', record: 'removed' },
      ],
      lines: [
        { item: 'OLD', bag: 'B' },
        { item: 'A', bag: 'B' },
      ],
    },
  } as unknown as Revision;
  const sources = labelSources({
    ...{ shelves: new Map([['crew', { id: 'crew', rev: 1, name: 'Crew' }]]), items, chosen: ['id-W', 'id-B'], atHand },
    ...{
      result: { outings: [{ id: 'one', items: lines }] } as unknown as LabelRecords['result'],
      revisions: [revision],
    },
  });
  const codesOf = (label: string) => {
    const found = sources.find((source) => source.label === label)?.things();
    return [found?.things.map(({ item }) => item.code), found?.gone];
  };

  it('are chosen items, planned bags, frozen manifests and shelves', () => {
    expect(sources.map(({ label, revision: said }) => `${label}; ${said}`)).toEqual([
      'Chosen in the catalog; —',
      'Planned bag of First outing; not frozen',
      'Frozen manifest, revision 3; Revision 3',
      'Shelf Crew; —',
    ]);
    expect(codesOf('Chosen in the catalog')).toEqual([['W', 'B'], []]);
    expect(codesOf('Planned bag of First outing')).toEqual([['B', 'A'], ['gone']]);
    expect(codesOf('Shelf Crew')).toEqual([['A', 'B', 'W'], []]);
  });

  it('are, of a frozen manifest, the things that were frozen, whatever they are called now', () => {
    // What was called OLD is A now; what was called A is gone, and another thing of that name is not it.
    expect(codesOf('Frozen manifest, revision 3')).toEqual([['B', 'A'], ['A']]);
  });
});

describe('a form', () => {
  it('takes the usual sizes on every printer and paper, and what is as small as it says', () => {
    for (const symbols of ['both', 'bars', 'square'] as const)
      for (const dpi of [203, 300] as const) {
        const form: LabelForm = { symbols, dpi, on: 'sheet', ...usualSizes[symbols] };
        expect(formFault(form)).toBeNull();
        for (const paper of ['A4', 'Letter'] as const)
          expect(sheetRoom(labelPlaces(form), paper)).toHaveProperty('columns');
        const least = leastSize(form);
        expect(formFault({ ...form, ...least })).toBeNull();
        expect(formFault({ ...form, ...least, widthMm: least.widthMm - 0.1 })).toContain('mm wide');
        expect(formFault({ ...form, ...least, heightMm: least.heightMm - 0.1 })).toContain('mm high');
        expect(formFault({ ...form, heightMm: Number.NaN })).toContain('a number of mm');
        const { bars, square, height, dots } = labelPlaces({ ...form, ...least });
        if (bars !== null) expect(bars.height * dots.dotMm).toBeGreaterThan(7.4);
        if (square !== null) expect(square.y + 21 * dots.module + dots.moduleQuiet).toBeLessThanOrEqual(height);
      }
  });

  it('lays labels on pages without one lost or twice', () => {
    for (const count of [0, 1, 6, 7, 15, 16, 100]) {
      const labels = Array.from({ length: count }, (_, at) => at);
      const pages = onPages(labels, { columns: 3, firstRows: 2, otherRows: 3 });
      expect(pages.flat()).toEqual(labels);
      expect(pages.length).toBe(count === 0 ? 0 : count <= 6 ? 1 : 1 + Math.ceil((count - 6) / 9));
    }
  });
});

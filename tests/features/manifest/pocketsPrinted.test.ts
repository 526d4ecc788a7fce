import { describe, expect, it } from 'vitest';
import { freeze, mapOfFrozen, readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { packState } from '../../../renderer/engine/packing/index.ts';
import { outingsThatLeft } from '../../../renderer/engine/return/index.ts';
import { bagMapFigures } from '../../../renderer/features/manifest/bagMapFigures.ts';
import { manifestTable } from '../../../renderer/features/manifest/manifestBody.ts';
import { manifestOf } from '../../../renderer/features/manifest/manifestOf.ts';
import { returnList } from '../../../renderer/features/return/returnList.ts';
import { chunksOf } from '../../../renderer/features/return/returnWords.ts';
import { counted, eventsOf } from '../../engine/packing/packingEvents.ts';
import { mapResult } from '../../support/bagMapPlan.ts';
import { revisionOf, stateOfPlan } from '../../support/frozenTask.ts';

const codes = Array.from({ length: 25 }, (_, index) => `G-${String(index + 1).padStart(2, '0')}`);

/** Twenty-five lines in a bag of two pockets. */
async function frozenWith(pocketNames: string | undefined) {
  const state = await stateOfPlan(
    {
      catalog: {
        carryGear: codes.map((id) => ({ id, mass: '0.1 kg', size: '60 mm', onHand: 3 })),
        bags: [{ id: 'L', name: 'Long bag', sizeMax: '600 mm', ...(pocketNames === undefined ? {} : { pocketNames }) }],
      },
      outings: [{ id: 'o', roles: ['lead'], bags: ['L'] }],
      steps: codes.map((id, index) => ({
        ...{ id: `s${index}`, outing: 'o', role: 'lead', action: 'use', gear: [{ id, quantity: 2 }] },
      })),
    },
    {
      result: {
        ...mapResult,
        outings: [
          {
            ...{ id: 'o', massKg: 5, steps: [] },
            items: codes.map((id, index) => ({ id, quantity: 2, bag: 'L', because: [`s${index}`] })),
          },
        ],
      },
    },
  );
  const revision = await revisionOf(state);
  return { revision, frozen: readFrozen(revision), content: freeze(state) };
}

describe('what is printed of a bag with pockets', () => {
  it('the manifest names each pocket over its lines, ten at most, and counts as many pieces as are packed', async () => {
    const { frozen } = await frozenWith('lid; main');
    const map = mapOfFrozen(frozen, 'o');
    if (map === null) throw new Error('no map');
    const { plan, result } = frozen;
    const manifest = manifestOf({ plan, result, outing: 'o', units: 'si', fileName: 'x.json', map });
    if (!('rows' in manifest)) throw new Error(manifest.why);
    const { text } = manifestTable(manifest);
    const heads = [...text.matchAll(/<tr class="part">[^]*?<\/tr>/g)].map(([row]) =>
      row
        .replaceAll(/<[^>]*>/g, '')
        .replaceAll(/\s+/g, ' ')
        .trim(),
    );
    expect(heads).toEqual([
      'Long bag (L), pocket lid, lines 1 to 10 of 13',
      'Long bag (L), pocket lid, lines 11 to 13 of 13',
      'Long bag (L), pocket main, lines 1 to 10 of 12',
      'Long bag (L), pocket main, line 11 of 12',
      'Long bag (L), pocket main, line 12 of 12',
    ]);
    // Every line once, in the order in which it is packed.
    const printed = [...text.matchAll(/<tr class="line">[^]*?<bdi>([^<]*)<\/bdi>/g)].map(([, code]) => code);
    const [bag] = packState({ content: (await frozenWith('lid; main')).content }, [], 'o').bags;
    expect(printed).toEqual(bag?.lines.map(({ line }) => line.item));
    expect(manifest.rows.flatMap(({ lines }) => lines).reduce((sum, { pieces }) => sum + pieces, 0)).toBe(50);
  });

  it('the bag map draws each pocket by its name with each of its pieces, to one scale', async () => {
    for (const [names, figures] of [
      ['lid; main', 2],
      [undefined, 1],
    ] as const) {
      const { frozen } = await frozenWith(names);
      const map = mapOfFrozen(frozen, 'o');
      if (map === null) throw new Error('no map');
      const { text } = bagMapFigures(frozen.plan, map);
      expect(text.match(/<figure/g)).toHaveLength(figures);
      for (const name of names?.split('; ') ?? []) expect(text).toContain(`<bdi>${name}</bdi>`);
      expect(codes.filter((code) => !text.includes(`>${code} × 2<`))).toEqual([]);
      // Two outlines a line.
      expect(text.match(/<g transform="translate\([^)]*\)">\s*<path class="piece"/g)?.length).toBe(50);
      // 600 mm of bag on at most 180 mm of paper.
      const widths = [...text.matchAll(/style="width:([\d.]+)mm/g)].map(([, mm]) => Number(mm));
      expect(new Set(widths).size).toBe(1);
      expect(Math.max(...widths)).toBeLessThanOrEqual(181);
    }
  });

  it('the return asks by pocket, on the screen and on paper', async () => {
    const { revision, frozen } = await frozenWith('lid; main');
    const deeds = codes.map((item) => counted('L', item, 2));
    const events = [
      ...eventsOf(deeds),
      ...eventsOf([{ kind: 'bag-closed', bag: 'L' }], 26),
      ...eventsOf(
        [
          {
            by: { name: 'Ben Example', role: 'second counter' },
            deed: {
              ...{ kind: 'second-count', bag: 'L', way: 'blind' },
              counts: codes.map((item) => ({ item, pieces: 2, parts: 2 })),
            },
          },
        ],
        27,
      ),
      ...eventsOf([{ kind: 'issued' }], 28),
    ].map((event) => ({ ...event, revision: revision.id }));
    const [went] = outingsThatLeft({ revisions: [revision], events });
    if (went === undefined) throw new Error('it has not left');
    expect(chunksOf(went.state.lines).map(({ pocket, from, of, lines }) => [pocket, from, of, lines.length])).toEqual([
      ['lid', 1, 13, 10],
      ['lid', 11, 13, 3],
      ['main', 1, 12, 10],
      ['main', 11, 12, 2],
    ]);
    const list = returnList({ went, frozen, discrepancies: [], task: 'Task' });
    expect(list.groups.map(({ called, rows }) => [called, rows.length])).toEqual([
      ['Long bag (L), pocket lid', 13],
      ['Long bag (L), pocket main', 12],
    ]);
  });
});

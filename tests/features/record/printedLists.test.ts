/** What lists of the record print is what was kept: every line once, with its sums, its end and its signatures. */
import { describe, expect, it } from 'vitest';
import { drawsOf } from '../../../renderer/engine/chance/draws.ts';
import type { Deed, RevisionContent } from '../../../shared-types/records/revision.ts';
import { readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { returnState } from '../../../renderer/engine/return/index.ts';
import { discrepancyList } from '../../../renderer/features/record/discrepancyList.ts';
import { listDocument } from '../../../renderer/features/record/recordPrint.ts';
import type { PrintedList } from '../../../renderer/features/record/recordPrint.ts';
import { returnList } from '../../../renderer/features/return/returnList.ts';
import { hostileTexts } from '../../browser/hostileTexts.ts';
import { discrepancy, eventsOf, twoContent, twoRevision, wentOut } from '../../support/outAndBack.ts';

const closed = {
  ...{ at: '2026-11-27T08:00:00+01:00', by: { name: 'A', role: 'skipper' } },
  ...{ how: 'lost' as const, words: 'gone' },
};

async function printed(list: PrintedList): Promise<string> {
  const { html } = await listDocument({
    ...{ list, paper: 'A4', dataTime: '2026-11-26T10:42:00+01:00', margins: { left: ['Task: M-2'], middle: [] } },
    ...{ fonts: [], appVersion: '0.1.0', journal: null },
  });
  return html.slice(html.indexOf('<body>'));
}

const textOf = (html: string): string => html.replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' ');
const rowsOf = (html: string): string[] =>
  [...html.matchAll(/<tr>\s*<td.*?<\/tr>/gs)].map(([row]) => textOf(row).trim());

/** The first outing as it went out, and what of each of its lines came back. */
function returned(content: RevisionContent, home: readonly Deed[]): PrintedList {
  const revision = { ...twoRevision, content };
  const events = eventsOf([...wentOut, ...home]);
  return returnList({
    went: { revision, outing: 'o', events, state: returnState(revision, events, 'o') },
    ...{ frozen: readFrozen(revision), discrepancies: [], task: 'Mast' },
  });
}

describe('P3: the return list', () => {
  it('has in 100 random returns every line once, with the pieces that went and came, and their sums', async () => {
    const draws = drawsOf(20_261_126);
    const upTo = (most: number): number => Math.floor(draws.uniform() * (most + 1));
    for (let run = 0; run < 100; run += 1) {
      const tethers = upTo(3);
      const [ratchets, sockets, wipes] = [upTo(1), upTo(1), upTo(2)];
      const home: Deed[] = (
        [
          ['L', 'R-38', ratchets, 3],
          ['L', 'S-13', sockets, 1],
          ['C', 'T-07', tethers, 2],
          ['Z', 'W-10', wipes, 1],
        ] as const
      ).flatMap(([bag, item, pieces, parts]): Deed[] =>
        pieces === 0 ? [] : [{ kind: 'back', bag, item, pieces, parts: pieces * parts, place: 'shop' }],
      );
      const html = await printed(returned(twoContent, home));
      const said = (pieces: number): string => (pieces === 0 ? 'none' : `${pieces} piece${pieces === 1 ? '' : 's'}`);
      const rows = rowsOf(html);
      expect(rows.map((row) => /^\S+/.exec(row)?.[0])).toEqual(['R-38', 'S-13', 'T-07', 'W-10']);
      for (const [at, [out, back]] of [
        [1, ratchets],
        [1, sockets],
        [3, tethers],
        [2, wipes],
      ].entries()) {
        expect(rows[at]).toContain(` ${said(out ?? 0)} ${said(back ?? 0)} `);
        // What is open, last in the row, and what came are what went.
        expect(rows[at]).toMatch((out ?? 0) === back ? /none$/ : new RegExp(` ${said((out ?? 0) - (back ?? 0))} in `));
      }
      expect(textOf(html)).toContain(`${ratchets + sockets + tethers + wipes} of 7 pieces back`);
      expect(textOf(html)).toContain('End of return list, 4 lines.');
    }
  });

  it('P4, P9: is signed behind its lines, keeps names of every kind, and says where nothing went out', async () => {
    const names = [...hostileTexts.slice(0, 4), 'مفتاح ربط الصمام', 'x'.repeat(300)];
    for (const name of names) {
      const things = twoContent.things.map((thing) => (thing.id === 'T-07' ? { ...thing, name } : thing));
      const html = await printed(returned({ ...twoContent, things }, []));
      expect(html).not.toMatch(/<(?:script|img|iframe)/i);
      expect(rowsOf(html)).toHaveLength(4);
      for (const sign of ['Counted in by', 'Counted again by', 'Received in the shop by'])
        expect(html.indexOf(sign)).toBeGreaterThan(html.indexOf('</table>'));
      expect(html.indexOf('class="end"')).toBeGreaterThan(html.indexOf('Received in the shop by'));
    }
    const list = returned(twoContent, []);
    const none = await printed({ ...list, groups: [] });
    expect(textOf(none)).toContain('Nothing went out.');
    expect(none).toContain('Counted in by');
  });
});

describe('P3: the discrepancy report', () => {
  const facts = {
    ...{ partsOf: () => 2, taskOf: () => 'M-2', numberOf: () => 2 },
    namesOf: ({ name }: { name: string }) => ({ outing: 'First outing', thing: name, bag: 'Common box' }),
  };

  it.each([0, 1, 10, 11, 47])('has each of %i once, the open ones first, with how many of both', async (count) => {
    const all = Array.from({ length: count }, (_, at) =>
      discrepancy({ id: `d-${at}`, number: at + 1, pieces: 1 + (at % 4), ...(at % 3 === 0 ? { closed } : {}) }),
    );
    const html = await printed(discrepancyList(all, facts, { called: 'M-2', all: false }));
    const open = all.filter((one) => one.closed === undefined);
    const inOrder = [...open, ...all.filter((one) => one.closed !== undefined)];
    const rows = rowsOf(html);
    expect(rows.map((row) => /^D-\d+/.exec(row)?.[0])).toEqual(inOrder.map(({ number }) => `D-${number}`));
    for (const [at, { pieces }] of inOrder.entries())
      expect(rows[at]).toContain(` ${pieces} piece${pieces === 1 ? ' ' : 's '}`);
    const many = open.length === 1 ? 'discrepancy' : 'discrepancies';
    expect(textOf(html)).toContain(`${open.length} ${many} open , ${count - open.length} closed.`);
    expect(html).toContain('Taken note of by');
  });

  it('P9: keeps names and words of every kind as they are', async () => {
    const names = [...hostileTexts, 'מפתח 14', 'x'.repeat(300)];
    const all = names.map((name, at) => discrepancy({ id: `d-${at}`, number: at + 1, name, words: name }));
    const html = await printed(discrepancyList(all, facts, { called: names[0] ?? '', all: true }));
    expect(html).not.toMatch(/<(?:script|img|iframe)/i);
    expect(rowsOf(html)).toHaveLength(names.length);
    expect(html).toContain('<bdi>מפתח 14</bdi>');
  });
});

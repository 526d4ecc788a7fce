import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../shared-types/records/revision.ts';
import { returnState } from '../../../renderer/engine/return/index.ts';
import { readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { cardsDocument } from '../../../renderer/features/cards/cardsDocument.ts';
import { manifestDocument, type PrintRequest } from '../../../renderer/features/manifest/manifestDocument.ts';
import { discrepancyList } from '../../../renderer/features/record/discrepancyList.ts';
import { listDocument } from '../../../renderer/features/record/recordPrint.ts';
import { returnList } from '../../../renderer/features/return/returnList.ts';
import { mapPlan, mapResult } from '../../support/bagMapPlan.ts';
import { discrepancy, eventsOf, twoRevision, wentOut } from '../../support/outAndBack.ts';

const head = { seq: 412, hash: `7f3a91c2${'0'.repeat(56)}` };
const means = { fonts: [], appVersion: '0.1.0', journal: head };
const shared: PrintRequest = {
  ...{ plan: mapPlan, result: mapResult, outing: 'o', units: 'both', fileName: 'map.json', ...means },
  ...{ paper: 'A4', dataTime: '2026-11-26T10:42:00+01:00', person: 'A' },
};
const words = '2 pieces of T-07 Tool tether lie at Mast foot since First outing (revision 2, event 10).';
const contentOf = (html: string): string => /Content ([0-9a-f]{4} [0-9a-f]{4})/.exec(html)?.[1] ?? '';
const count = (html: string, text: string): number => html.split(text).length - 1;

describe('what earlier outings say', () => {
  it('stands on the manifest before its lines, and is part of what its hash names', async () => {
    const without = await manifestDocument(shared);
    const known = await manifestDocument({ ...shared, known: [words] });
    expect(known.html.indexOf(words)).toBeGreaterThan(0);
    expect(known.html).toContain('By the record up to entry 412 of the journal');
    expect(known.html.indexOf(words)).toBeLessThan(known.html.indexOf('<table>'));
    expect(without.html).not.toContain('Known of earlier outings');
    expect(contentOf(known.html)).not.toBe(contentOf(without.html));
    expect(await manifestDocument({ ...shared, known: [] })).toEqual(without);
  });

  it('stands before the cards on a page of its own, with the caution', async () => {
    const request = { ...shared, facts: new Map(), role: null };
    const without = await cardsDocument(request);
    const known = await cardsDocument({ ...request, known: [words] });
    expect(count(known.html, '<section class="card">')).toBe(count(without.html, '<section class="card">') + 1);
    expect(count(known.html, '<p class="caution">')).toBe(1);
    expect(known.html.indexOf('<p class="caution">')).toBeLessThan(known.html.indexOf(words));
    expect(contentOf(known.html)).not.toBe(contentOf(without.html));
  });
});

describe('printed lists of the record', () => {
  const home: Deed[] = [
    { kind: 'left', bag: 'C', item: 'T-07', pieces: 2, parts: 4, place: 'foot' },
    { kind: 'back', bag: 'L', item: 'R-38', pieces: 1, parts: 2, place: 'shop' },
  ];
  const events = eventsOf([...wentOut, ...home]);
  const went = { revision: twoRevision, outing: 'o', events, state: returnState(twoRevision, events, 'o') };
  const list = returnList({
    went,
    frozen: readFrozen(twoRevision),
    discrepancies: [discrepancy()],
    task: '<b>Mast</b>',
  });
  const margins = { left: ['Task: M-2'], middle: ['Revision 2'] };

  it('say of each line what went, what came, what stays, and where the rest was seen last', async () => {
    const { html } = await listDocument({ list, margins, paper: 'A4', dataTime: shared.dataTime, ...means });
    const text = html
      .replaceAll(/<style>[^]*?<\/style>/g, '')
      .replaceAll(/<[^>]*>/g, ' ')
      .replaceAll(/\s+/g, ' ');
    expect(text).toContain('1 of 7 pieces back , 2 left on purpose, 4 pieces and 1 part open.');
    expect(text).toContain(
      'R-38 Ratchet 1 piece 1 piece with 2 of 3 parts none 1 part in Lead’s bag, as it left , 2026-11-26 09:06',
    );
    expect(text).toContain(
      'T-07 Tool tether 3 pieces none 2 pieces left at Mast foot planned: 2 to stay at Mast foot 1 piece , D-1',
    );
    expect(text).toContain('The return is not closed.');
    expect(text).toContain('End of return list, 4 lines.');
    // What somebody typed is never markup, and every page names the journal's head.
    expect(html).toContain('&lt;b&gt;Mast');
    expect(html).toContain('"Journal 412\\2c  7f3a 91c2"');
  });

  it('put what is open before what is closed, with a line to write on', async () => {
    const closed = {
      at: '2026-11-27T08:00:00+01:00',
      by: { name: 'A', role: 'skipper' },
      how: 'lost',
      words: 'gone',
    } as const;
    const facts = {
      partsOf: () => 2,
      taskOf: () => 'M-2',
      numberOf: () => 2,
      namesOf: () => ({ outing: 'First outing', thing: 'T-07 Tool tether', bag: 'C Common box' }),
    };
    const both = [discrepancy(), discrepancy({ id: 'd-2', number: 2, closed })];
    const report = discrepancyList(both, facts, { called: 'M-2', all: true });
    expect(report.groups.map(({ called, rows }) => [called, rows.length])).toEqual([
      ['Open', 1],
      ['Closed', 1],
    ]);
    const { html } = await listDocument({
      list: report,
      margins,
      paper: 'Letter',
      dataTime: shared.dataTime,
      ...means,
    });
    expect(html.indexOf('D-1')).toBeLessThan(html.indexOf('D-2'));
    expect(html).toContain('given up as lost');
    const none = discrepancyList([], facts, { called: 'M-2', all: false });
    const empty = await listDocument({ list: none, margins, paper: 'A4', dataTime: shared.dataTime, ...means });
    expect(empty.html).toContain('No discrepancies.');
  });
});

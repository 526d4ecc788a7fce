/**
 * P6: whatever says a state, warns, or sets a tool is read by its letters alone, on a copy in greys and on one in black and white.
 * What should be there is what the document says; what is seen is what another program (Tesseract) makes of the page's dots. Its
 * letters hold no zero with a stroke, which it takes for 0, 9 or 90 by chance: of figures with a zero nothing is said here.
 */
import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { readFrozen } from '../../renderer/engine/frozen/index.ts';
import { returnState } from '../../renderer/engine/return/index.ts';
import { tagText } from '../../renderer/engine/tag/index.ts';
import { cardsDocument } from '../../renderer/features/cards/cardsDocument.ts';
import { usualSizes } from '../../renderer/features/labels/labelForm.ts';
import { labelsDocument } from '../../renderer/features/labels/labelsDocument.ts';
import { manifestDocument } from '../../renderer/features/manifest/manifestDocument.ts';
import { discrepancyList } from '../../renderer/features/record/discrepancyList.ts';
import { listDocument } from '../../renderer/features/record/recordPrint.ts';
import { reportDocument } from '../../renderer/features/report/reportDocument.ts';
import { returnList } from '../../renderer/features/return/returnList.ts';
import { cardSource } from '../engine/cards/cardTask.ts';
import { judgedReport } from '../support/judgedList.ts';
import { discrepancy, eventsOf, twoRevision, wentOut } from '../support/outAndBack.ts';
import { cutOuts, hasOcr, inBlack, seenOn } from './ocr.ts';
import { readPages } from './printedPdf.ts';
import { printFonts, printRequest } from './printPlan.ts';
import { printing } from './printing.ts';

const { printed, scratch } = printing();
const noReader = 'not run here: tesseract is not installed (Debian: apt-get install tesseract-ocr)';
const noPoppler = 'not run here: poppler is not installed';

const means = { dataTime: '2026-11-26T10:42:00+01:00', appVersion: '0.1.0', fonts: printFonts, journal: null };
const margins = { left: ['Task: M-2'], middle: ['Revision 2'] };

function returned(): Promise<DocumentToPrint> {
  const events = eventsOf([
    ...wentOut,
    { kind: 'left', bag: 'C', item: 'T-07', pieces: 2, parts: 4, place: 'foot' },
    { kind: 'back', bag: 'L', item: 'R-38', pieces: 1, parts: 2, place: 'shop' },
  ]);
  const went = { revision: twoRevision, outing: 'o', events, state: returnState(twoRevision, events, 'o') };
  const list = returnList({ went, frozen: readFrozen(twoRevision), discrepancies: [discrepancy()], task: 'Mast' });
  return listDocument({ list, margins, paper: 'A4', ...means });
}

function discrepancies(): Promise<DocumentToPrint> {
  const by = { at: '2026-11-27T08:00:00+01:00', by: { name: 'A. Skipper', role: 'skipper' } };
  const closed = { ...by, how: 'lost', words: 'seen sinking' } as const;
  const list = discrepancyList(
    [discrepancy(), discrepancy({ id: 'd-2', number: 2, closed })],
    {
      ...{ partsOf: () => 2, taskOf: () => 'M-2', numberOf: () => 2 },
      namesOf: () => ({ outing: 'First outing', thing: 'Tool tether', bag: 'Common box' }),
    },
    { called: 'M-2', all: true },
  );
  return listDocument({ list, margins, paper: 'A4', ...means });
}

const labels = Array.from({ length: 9 }, (_, at) => ({
  text: tagText({ kind: at % 3 === 0 ? 'bag' : 'item', tag: 41 + at, piece: at % 3 }),
  ...{ code: `SK-${at + 1}`, name: 'Socket', said: at % 3 === 0 ? 'bag, role Lead' : `piece ${at % 3} of 2` },
}));

interface Case {
  document: () => Promise<DocumentToPrint>;
  /** Pages that are looked at. */
  pages: number[];
  /** Words of states, of warning and of settings. */
  words: RegExp;
  /** So many of them stand on these pages. */
  kinds: number;
}

const cards = { ...cardSource({}), fileName: 'p.json', person: '' };
const signalWords = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const;
const warned = planFrom({
  ...cards.plan.source,
  steps: cards.plan.source.steps.map((step) =>
    step.id === 'final'
      ? { ...step, cautions: signalWords.map((word) => ({ word, text: 'Stand clear of it.' })) }
      : step,
  ),
});
const cases: Record<string, Case> = {
  cards: {
    document: () => cardsDocument({ ...cards, plan: warned, ...means, paper: 'A4' }),
    pages: [1, 2],
    words: /\b(?:DANGER|WARNING|CAUTION|NOTICE|Watch-out|Stop|Turn clockwise|goes on|22|45)\b/g,
    kinds: 9,
  },
  'cards of what is not reached': {
    document: () => cardsDocument({ ...cards, ...means, paper: 'A4', role: 'Base' }),
    pages: [1],
    words: /\b(?:Not reached|Closest fit|no setting|by hand)\b/g,
    kinds: 3,
  },
  manifest: {
    document: () => manifestDocument({ ...printRequest({ lines: 8 }), journal: null }),
    pages: [1, 2],
    words: /\b(?:Proved least|Not single-loss tolerant|Watch out|33\.5|Out|Back|no setting)\b/g,
    kinds: 4,
  },
  labels: {
    document: () =>
      labelsDocument({
        ...{ labels, form: { symbols: 'both', dpi: 300, on: 'sheet', ...usualSizes.both }, paper: 'A4' },
        ...{ source: 'Crew', revision: '—', ...means },
      }),
    pages: [1],
    words: /\b(?:SK-\d|bag, role Lead|piece \d of 2)\b/g,
    kinds: 10,
  },
  'return list': {
    document: returned,
    pages: [1],
    words: /\b(?:pieces? back|left on purpose|open|not closed|none|left at|planned|D-1)\b/g,
    kinds: 6,
  },
  'discrepancy report': {
    document: discrepancies,
    pages: [1],
    words: /\b(?:Open|Closed|open|closed|given up as lost|D-[12])\b/g,
    kinds: 5,
  },
  'findings report': {
    document: () => reportDocument({ report: judgedReport(9), paper: 'A4', ...means }),
    pages: [1, 2],
    words: /\b(?:Conforming|Nonconforming|Indeterminate|Reject|Query|Accepted|No finding)\b/g,
    kinds: 5,
  },
};

const counted = (text: string, words: RegExp): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const [word] of text.matchAll(words)) counts.set(word, (counts.get(word) ?? 0) + 1);
  return counts;
};

describe('P6: read by its letters alone', () => {
  test.for(Object.entries(cases))('%s', async ([name, { document, pages, words, kinds }], context) => {
    if (!hasOcr) return context.skip(noReader);
    const bytes = await printed(await document());
    const file = scratch(`${name}.pdf`);
    writeFileSync(file, bytes);
    const said = await readPages(bytes);
    const due = new Map<string, number>();
    const cuts = [];
    for (const page of pages) {
      const texts = (said[page - 1]?.texts ?? []).filter(({ text }) => text.match(words) !== null);
      const own = cutOuts(file, page, texts);
      if (own === null) return context.skip(noPoppler);
      cuts.push(...own);
      for (const [word, times] of counted(texts.map(({ text }) => text).join(' '), words))
        due.set(word, (due.get(word) ?? 0) + times);
    }
    expect(due.size).toBeGreaterThanOrEqual(kinds);
    for (const [how, copy] of [
      ['in greys', cuts],
      ['in black and white', cuts.map(inBlack)],
    ] as const) {
      const seen = counted(seenOn(copy), words);
      const missed = [...due].filter(([word, times]) => (seen.get(word) ?? 0) < times);
      expect(
        missed.map(([word, times]) => `${word}: ${seen.get(word) ?? 0} of ${times}`),
        how,
      ).toEqual([]);
    }
    return undefined;
  });
});

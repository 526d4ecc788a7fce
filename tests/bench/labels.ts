/** A hundred labels from their document to the PDF, in each of the twelve forms: `npx tsx tests/bench/labels.ts [LABELS]`. */
import { tagText } from '../../renderer/engine/tag/index.ts';
import type { PrinterDpi } from '../../renderer/engine/tag/index.ts';
import { usualSizes } from '../../renderer/features/labels/labelForm.ts';
import type { LabelForm, LabelSymbols } from '../../renderer/features/labels/labelForm.ts';
import { labelsDocument } from '../../renderer/features/labels/labelsDocument.ts';
import { openBrowser, printed } from '../e2e/printedPdf.ts';
import { printFonts } from '../e2e/printPlan.ts';
import { ms, say } from './depot.ts';

const count = Number(process.argv[2] ?? 100);
const labels = Array.from({ length: count }, (_, at) => ({
  text: tagText({ kind: 'item', tag: 1 + at * 997, piece: at }),
  ...{ code: `S-${at}`, name: `Socket ${at}, 3/8 in drive`, said: `piece ${1 + (at % 9)} of 9` },
}));

const browser = await openBrowser();
try {
  for (const on of ['sheet', 'single'] as const satisfies readonly LabelForm['on'][])
    for (const symbols of ['both', 'bars', 'square'] as const satisfies readonly LabelSymbols[])
      for (const dpi of [203, 300] as const satisfies readonly PrinterDpi[]) {
        const form: LabelForm = { symbols, dpi, on, ...usualSizes[symbols] };
        const began = performance.now();
        const document = await labelsDocument({
          ...{ labels, form, paper: 'A4', source: 'Shelf Crew', revision: '—', dataTime: '2026-11-25T10:42:00+01:00' },
          ...{ fonts: printFonts, appVersion: '0.1.0', journal: null },
        });
        await printed(browser, document);
        say(`${count} labels, ${symbols}, ${dpi} dpi, ${on}`, ms(performance.now() - began));
      }
} finally {
  await browser.close();
}

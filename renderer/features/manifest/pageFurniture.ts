import { cautionLead, cautionText } from '../../engine/caution.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import type { PrintedHead } from './useJournalHead.ts';
import { cssString, shortened } from './html.ts';

/** What stands in the margins of every page, as strings: the boxes of `@page` hold no markup. */
export interface Furniture {
  paper: 'A4' | 'Letter';
  sheet: string;
  title: string;
  outing: string;
  task: string;
  revision: string;
  /** ISO time with its offset from UTC. */
  dataTime: string;
  appVersion: string;
  hash: string;
  units: string;
  journal?: PrintedHead;
}

/** Longer names are cut in the margins, after two lines or so, and said whole on the first page. */
const nameEms = 34;

/** Caution above, title block below. The first page says the caution in its body, where screen readers find it. */
export function pageFurniture(furniture: Furniture): string {
  const { sheet, title, outing, task, revision, dataTime, appVersion, hash, units, paper, journal } = furniture;
  return marginBoxes({
    paper,
    journal,
    left: [
      `${sheet}: ${shortened(title, nameEms)}`,
      `Outing: ${shortened(outing, nameEms)}`,
      `Task: ${shortened(task, nameEms)}`,
    ],
    middle: [`Revision: ${revision}`, `Data of ${spoken(dataTime)}`, `Bagwright ${appVersion}`, `Content ${hash}`],
    right: [units, `Uncontrolled when printed unless checked against content ${hash}.`],
  });
}

/** A name as it fits a line or two of the margins. */
export function marginName(name: string): string {
  return shortened(name, nameEms);
}

/** By what a page shows, later, that the record was not cut off behind it. */
function journalLine(journal: PrintedHead): string[] {
  if (journal === undefined) return [];
  if (journal === null) return ['Journal: not read'];
  return [journal.seq === 0 ? 'Journal: empty' : `Journal ${journal.seq}, ${shortHash(journal.hash)}`];
}

/** Page size, margins and what stands in them, on every page; the page's number stands above `right`, the journal's head below `middle`. */
export function marginBoxes(x: {
  paper: 'A4' | 'Letter';
  left: readonly string[];
  middle: readonly string[];
  right: readonly string[];
  journal?: PrintedHead;
}): string {
  const lines = (texts: readonly string[]): string => texts.map(cssString).join(' "\\a" ');
  const { paper } = x;
  const [left, middle, right] = [lines(x.left), lines([...x.middle, ...journalLine(x.journal)]), lines(x.right)];
  const box =
    'border: 0.35mm solid #000; padding: 1mm 2mm; margin: 0; vertical-align: top; white-space: pre-wrap; text-align: left; font: 400 8.1pt/10.4pt Sheet, SheetMath, sans-serif; box-sizing: border-box; overflow: hidden;';
  const foot = 'height: 26mm; margin-top: 4mm; margin-bottom: 10mm;';
  return `
@page {
  size: ${paper === 'A4' ? 'A4' : 'letter'};
  margin: 29mm 13mm 40mm;
  @top-center {
    content: ${cssString(`${cautionLead} ${cautionText}`)};
    ${box}
    font-size: 9pt; line-height: 11.5pt; font-weight: 500; border-width: 0.5mm;
    height: 15mm; width: 100%; margin-top: 10mm; margin-bottom: 4mm;
  }
  @bottom-left { content: ${left}; ${box} width: 35%; ${foot} }
  @bottom-center { content: ${middle}; ${box} width: 30%; border-left: 0; border-right: 0; ${foot} }
  @bottom-right { content: "Page " counter(page) " of " counter(pages) "\\a" ${right}; ${box} width: 35%; ${foot} }
}
@page :first {
  margin-top: 12mm;
  @top-center { content: none; border: 0; }
}`;
}

/** "2026-11-25T10:42:00+01:00" as "2026-11-25 10:42 UTC+01:00": the time where it was taken, and how far from UTC. */
export function spoken(isoTime: string): string {
  const parts = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)(?::\d\d(?:\.\d+)?)?(Z|[+-]\d\d:?\d\d)$/.exec(isoTime);
  if (parts === null) return isoTime;
  const [, day = '', time = '', offset = ''] = parts;
  const signed = offset === 'Z' ? '+00:00' : offset.includes(':') ? offset : `${offset.slice(0, 3)}:${offset.slice(3)}`;
  return `${day} ${time} UTC${signed}`;
}

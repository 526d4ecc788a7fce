import { cautionLead, cautionShort } from '../../engine/caution.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import { shortened, widthEms } from '../manifest/html.ts';
import type { PrintedHead } from '../manifest/useJournalHead.ts';
import { countOf } from '../steps/words.ts';
import type { LabelForm } from './labelForm.ts';

/** Of the lines of a label that carries none of the symbols: 8 pt on 3.3 mm, 1.5 mm from its sides, 0.8 mm from above and below. */
const emMm = (8 * 25.4) / 72;
/** Of a text of words and blanks, against the wide side of its signs. */
const inWords = 0.85;
const lineMm = 3.3;
const roomMm = ({ widthMm, heightMm }: LabelForm) => ({ wide: widthMm - 3, high: heightMm - 1.6 });

/**
 * The labels that go before single ones: the caution, and what the labels are of, where a sheet has heading and title block. As many as the text
 * needs at 8 pt, line by line.
 */
export function headLabels(
  x: { count: number; source: string; hash: string; journal: PrintedHead },
  form: LabelForm,
): string[][] {
  const { count, source, hash, journal } = x;
  const kept =
    journal == null || journal.seq === 0 ? '' : `, journal ${journal.seq}, ${whole(shortHash(journal.hash))}`;
  const { wide, high } = roomMm(form);
  const ems = wide / emMm / inWords;
  const lines = [
    ...wrapped(`${cautionLead} ${cautionShort}`, ems),
    ...wrapped(
      `${countOf(count, 'label')} of ${shortened(source, 40)}, for ${form.dpi} dots to the inch. Content ${whole(hash)}${kept}.`,
      ems,
    ),
  ];
  const most = Math.floor(high / lineMm);
  return Array.from({ length: Math.ceil(lines.length / most) }, (_, at) => lines.slice(at * most, (at + 1) * most));
}

/** Not torn at the end of a line. */
const whole = (hash: string): string => hash.replaceAll(' ', '\u00a0');

/** A text in lines of so many ems; what has no blank to break at is cut where the line ends. */
function wrapped(text: string, mostEms: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthEms(longer) <= mostEms) line = longer;
    else {
      if (line !== '') lines.push(line);
      line = widthEms(word) <= mostEms ? word : shortened(word, mostEms - 1);
    }
  }
  return [...lines, line];
}

/** Names of months as spreadsheets shorten them in the languages of the people they were made for (common practice, no source). */
const months =
  'jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mrz|mär|mai|okt|dez|janv|févr|mars|avr|juin|juil|août|déc|ene|abr|ago|dic|gen|mag|giu|lug|set|ott';
const month = String.raw`(?:${months})[\p{L}]*\.?`;

const forms = [
  new RegExp(String.raw`^\d{1,2}[-/. ]+${month}(?:[-/. ]+\d{2,4})?$`, 'iu'),
  new RegExp(String.raw`^${month}[-/. ]+\d{1,4}(?:,? +\d{2,4})?$`, 'iu'),
  /^\d{4}-\d{2}-\d{2}(?:[ T].*)?$/,
  /^\d{1,2}\/\d{1,2}\/(?:\d{2}|\d{4})(?: .*)?$/,
  /^\d{1,2}\.\d{1,2}\.(?:\d{2}|\d{4})(?: .*)?$/,
];

/** Days counted by spreadsheets: 20000 is of 1954, 69999 of 2091. */
const dayNumber = /^[2-6]\d{4}(?:\.0+)?$/;

/**
 * Why a text is taken for a date that a spreadsheet made of a size: 3/8 becomes 8-Mar, 3/4 becomes 3-Apr, and either may come as the
 * number of a day.
 *
 * @returns the reason; null where the text is none
 */
export function dateReason(text: string): string | null {
  const trimmed = text.trim();
  if (dayNumber.test(trimmed))
    return `is the number of a day, as a spreadsheet makes of a size like 3/8: write the size as a text with its unit, "3/8 in"`;
  if (forms.some((form) => form.test(trimmed)))
    return `is a date, as a spreadsheet makes of a size like 3/8 or 3/4: write the size as a text with its unit, "3/8 in"`;
  return null;
}

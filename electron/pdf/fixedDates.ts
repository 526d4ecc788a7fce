/**
 * The same document gives the same bytes. A PDF's writer notes when it ran; that note is replaced by the document's own
 * data time, digit for digit, so that no length and no cross-reference in the file moves.
 */
const dataTime = /<meta\s+name="bagwright-data-time"\s+content="([^"]{1,40})"/i;
/** As Chromium writes them: fourteen digits and an offset, twenty-one signs in all. */
const writtenDates = /\/(?:CreationDate|ModDate) \(D:(\d{14}[+-]\d\d'\d\d')\)/g;

export function dataTimeOf(html: string): Date | null {
  // Chromium puts it in the head; a body that quotes the tag must not win over it, so the first one counts.
  const written = dataTime.exec(html)?.[1];
  if (written === undefined) return null;
  const time = new Date(written);
  const year = time.getUTCFullYear();
  return Number.isNaN(time.getTime()) || year < 1 || year > 9999 ? null : time;
}

export function withFixedDates(pdf: Uint8Array, time: Date | null): Uint8Array {
  if (time === null) return pdf;
  const digits = time.toISOString().replace(/\D/g, '').slice(0, 14);
  const fixed = Buffer.from(`${digits}+00'00'`, 'latin1');
  const result = Buffer.from(pdf);
  // Latin-1 maps each byte to one sign, so a place in the text is a place in the file.
  for (const match of result.toString('latin1').matchAll(writtenDates)) {
    const written = match[1] ?? '';
    const at = match.index + match[0].indexOf(written);
    if (written.length === fixed.length) fixed.copy(result, at);
  }
  return new Uint8Array(result.buffer, result.byteOffset, result.byteLength);
}

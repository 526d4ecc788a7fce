/** What a document may do while it is turned into a PDF: nothing but be laid out. */

/** Styles stand in the document, fonts and pictures are written into it. Neither host lets it ask for anything else. */
export const printPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

export const printDeadlineMs = 60_000;

/** Named in the file as its maker, in place of a browser's name. */
export const printAgent = 'Bagwright';

export function withinDeadline<T>(work: Promise<T>, deadlineMs: number, onLate: () => Error): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(onLate()), deadlineMs);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

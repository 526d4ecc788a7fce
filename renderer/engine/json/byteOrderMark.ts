/** What an editor may put before a text; no part of it. */
const byteOrderMark = '\uFEFF';

/** The text itself, without the mark some editors put before it. */
export function withoutByteOrderMark(text: string): string {
  return text.startsWith(byteOrderMark) ? text.slice(1) : text;
}

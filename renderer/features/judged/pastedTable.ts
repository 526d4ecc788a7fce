/** Rows as a spreadsheet puts them on the clipboard, headings first; null where the text is no table of several cells. */
export function pastedTable(text: string): Uint8Array<ArrayBuffer> | null {
  const [head = '', ...rest] = text.split(/\r\n?|\n/);
  if (!/[\t;,]/.test(head) || rest.every((line) => line.trim() === '')) return null;
  return new TextEncoder().encode(text);
}

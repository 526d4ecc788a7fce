/** Text that is already markup. Only `html` makes it, so that nothing typed by anybody reaches a document unescaped. */
export class Markup {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }
}

export type Part = Markup | string | number | null | readonly Part[];

/** Markup with every value between the literals escaped. */
export function html(literals: TemplateStringsArray, ...parts: Part[]): Markup {
  let text = literals[0] ?? '';
  parts.forEach((part, index) => {
    text += rendered(part) + (literals[index + 1] ?? '');
  });
  return new Markup(text);
}

function rendered(part: Part): string {
  if (part === null) return '';
  if (part instanceof Markup) return part.text;
  if (typeof part === 'string') return escaped(part);
  if (typeof part === 'number') return escaped(String(part));
  return part.map(rendered).join('');
}

const entities: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

function escaped(text: string): string {
  return plainText(text).replace(/[&<>"']/g, (sign) => entities[sign] ?? sign);
}

/**
 * A text a printer can show as it is: signs that turn the reading direction over are named in place of working, as a part
 * number must read as it is written; control signs and broken surrogates become the replacement sign.
 */
export function plainText(text: string): string {
  return (
    text
      .replace(
        /[\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c]/g,
        (sign) => `[U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`,
      )
      // eslint-disable-next-line no-control-regex
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g, '\ufffd')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
  );
}

/** A text as a CSS string, for the boxes in the margins: everything but letters, figures and blanks is escaped. */
export function cssString(text: string): string {
  const inside = plainText(text)
    .replace(/\s+/g, ' ')
    .replace(/[^\p{L}\p{N}\p{M} ]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `);
  return `"${inside}"`;
}

/** As much of a text as fits a width given in ems, by the wide side of each sign, with the cut shown. */
export function shortened(text: string, mostEms: number): string {
  const signs = [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(text)].map((s) => s.segment);
  let ems = 0;
  const fitting = signs.findIndex((sign) => (ems += signEms(sign)) > mostEms);
  return fitting < 0 ? text : `${signs.slice(0, fitting).join('')}…`;
}

/** How wide a text is at the most, in ems. */
export function widthEms(text: string): number {
  return [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(text)].reduce(
    (sum, { segment }) => sum + signEms(segment),
    0,
  );
}

function signEms(sign: string): number {
  if ((sign.codePointAt(0) ?? 0) >= 0x2e80) return 1;
  return /[\p{Lu}mw@%]/u.test(sign) ? 0.74 : 0.58;
}

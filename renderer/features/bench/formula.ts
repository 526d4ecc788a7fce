/**
 * Formulas in a short notation of our own: `*x*` a quantity's symbol, `{a|b}` a fraction, `_[x]` below the line, `^[x]` above it,
 * `√[x]` a root. All else stands upright as it is.
 */
export type FormulaPart =
  | { is: 'text'; text: string }
  | { is: 'symbol'; text: string }
  | { is: 'fraction'; above: FormulaPart[]; below: FormulaPart[] }
  | { is: 'sub' | 'sup' | 'root'; inner: FormulaPart[] };

const marks: Record<string, 'sub' | 'sup' | 'root'> = { '_[': 'sub', '^[': 'sup', '√[': 'root' };

export function readFormula(text: string): FormulaPart[] {
  return readUntil({ text, at: 0 }, '');
}

interface Reading {
  text: string;
  at: number;
}

/** Up to one of the ends, which is taken too. */
function readUntil(from: Reading, ends: string): FormulaPart[] {
  const parts: FormulaPart[] = [];
  let plain = '';
  const flush = (): void => {
    if (plain !== '') parts.push({ is: 'text', text: plain });
    plain = '';
  };
  while (from.at < from.text.length) {
    const sign = from.text.charAt(from.at);
    const mark = marks[from.text.slice(from.at, from.at + 2)];
    if (ends.includes(sign)) {
      from.at += 1;
      break;
    }
    if (mark !== undefined) {
      flush();
      from.at += 2;
      parts.push({ is: mark, inner: readUntil(from, ']') });
    } else if (sign === '{') {
      flush();
      from.at += 1;
      const above = readUntil(from, '|');
      parts.push({ is: 'fraction', above, below: readUntil(from, '}') });
    } else if (sign === '*') {
      flush();
      const end = from.text.indexOf('*', from.at + 1);
      parts.push({ is: 'symbol', text: from.text.slice(from.at + 1, end) });
      from.at = end + 1;
    } else {
      plain += sign;
      from.at += 1;
    }
  }
  flush();
  return parts;
}

const isLong = (parts: readonly FormulaPart[]): boolean =>
  parts.length > 1 ||
  parts.some((part) => (part.is === 'text' || part.is === 'symbol') && /[ +−·]/.test(part.text.trim()));

const inBrackets = (parts: readonly FormulaPart[]): string =>
  isLong(parts) ? `(${partsText(parts)})` : partsText(parts);

/** The formula on one line, to be copied and to be read out. */
export function formulaText(text: string): string {
  return partsText(readFormula(text));
}

function partsText(parts: readonly FormulaPart[]): string {
  return parts
    .map((part) => {
      if (part.is === 'text' || part.is === 'symbol') return part.text;
      if (part.is === 'fraction') return `${inBrackets(part.above)}/${inBrackets(part.below)}`;
      if (part.is === 'root') return `√(${partsText(part.inner)})`;
      const inner = partsText(part.inner);
      return part.is === 'sub' ? `_${inner}` : `^${inner.length > 1 ? `(${inner})` : inner}`;
    })
    .join('');
}

/** Lists of codes with what goes with them, as one cell: "C-1 × 2; TAPE". A code with a sign of these stands in quotes. */

const plainCode = /^[^\s;×:>+"](?:[^;×:>+"\n]*[^\s;×:>+"])?$/;

/** A code as a list has it. */
export const codeText = (code: string): string => (plainCode.test(code) ? code : JSON.stringify(code));

/** The code that a text of a list is; null where its quotes are not closed. */
export function codeOfText(text: string): string | null {
  const bare = text.trim();
  if (!bare.startsWith('"')) return bare.includes('"') ? null : bare;
  try {
    const value: unknown = JSON.parse(bare);
    return typeof value === 'string' ? value : null;
  } catch {
    return null;
  }
}

/** A text parted at a sign, wherever that stands outside of quotes. */
export function partsOf(text: string, sign: string): string[] {
  const parts: string[] = [];
  let part = '';
  let isQuoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at] ?? '';
    if (isQuoted && letter === '\\') {
      part += letter + (text[at + 1] ?? '');
      at += 1;
      continue;
    }
    if (letter === '"') isQuoted = !isQuoted;
    if (letter === sign && !isQuoted) {
      parts.push(part);
      part = '';
    } else part += letter;
  }
  return [...parts, part];
}

/** The entries of a list, parted by semicolons or lines; empty ones are none. */
export const entriesOf = (text: string): string[] =>
  partsOf(text.replaceAll('\r\n', '\n'), '\n')
    .flatMap((line) => partsOf(line, ';'))
    .map((entry) => entry.trim())
    .filter((entry) => entry !== '');

/** "C-1 × 2": a code and how many; one where no number is said. An x between blanks counts as the sign. */
export function countedOfText(text: string): { id: string; quantity: number } | null {
  const [first = '', second, ...rest] = partsOf(text.replace(/\s[x*]\s*(?=\d+\s*$)/i, ' × '), '×');
  const id = codeOfText(first);
  if (id === null || id === '' || rest.length > 0) return null;
  if (second === undefined) return { id, quantity: 1 };
  return /^\s*\d{1,9}\s*$/.test(second) ? { id, quantity: Number(second) } : null;
}

/** A code with how many of it; one alone is not said. */
export const countedText = ({ id, quantity }: { id: string; quantity: number }): string =>
  quantity === 1 ? codeText(id) : `${codeText(id)} × ${quantity}`;

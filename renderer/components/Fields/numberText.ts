/** What a text says as a plain number; the text itself where it says none, so that the form can quote it. */
export function numberOf(text: string): number | string | undefined {
  const trimmed = text.trim();
  if (trimmed === '') return undefined;
  if (!/^[-+]?(?:\d+\.?\d*|\.\d+)$/.test(trimmed)) return text;
  const value = Number(trimmed);
  return Number.isFinite(value) ? value : text;
}

/** Why a text is no number that the field takes; null where it is one, or empty. */
export function numberFault(text: string, whole: boolean): string | null {
  const value = numberOf(text);
  if (value === undefined) return null;
  const asked = whole ? 'a whole number, as "2" or "12"' : 'a plain number, as "4" or "2.5"';
  if (typeof value === 'string' || (whole && !Number.isInteger(value))) return `"${text.trim()}" is not ${asked}.`;
  return null;
}

/** A whole number as it is typed, within its limits; or what is wrong with it. */
export function wholeNumber(typed: string, { least, most }: { least: number; most: number }): number | string {
  const text = typed.trim();
  if (!/^\d{1,7}$/.test(text)) return `“${text}” is no whole number: type ${least} to ${most}`;
  const value = Number(text);
  return value < least || value > most ? `${value} is not within ${least} to ${most}` : value;
}

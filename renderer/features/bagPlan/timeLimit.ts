/** What is wrong with a typed time limit, in words that show two right spellings; null where nothing is. */
export function timeLimitFault(typed: string): string | null {
  const text = typed.trim();
  if (text === '') return null;
  const value = Number(text);
  if (/^\d+(\.\d+)?$/.test(text) && value > 0 && value <= 86_400) return null;
  return `Time limit "${text}": write seconds from above 0 to 86400, as 30 or 2.5, or leave it empty.`;
}

export function timeLimitS(typed: string): number | null {
  return typed.trim() === '' ? null : Number(typed);
}

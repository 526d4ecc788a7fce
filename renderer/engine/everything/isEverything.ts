/**
 * Whether a text is a snapshot or everything saved as one text, by its first words alone: then it is read as that.
 *
 * @param text - the whole file
 * @returns true where it says of itself that it is one
 */
export function isEverything(text: string): boolean {
  const start = text.slice(0, 400).replaceAll(/\s/g, '');
  return start.includes('"bagwright":"everything"') || start.includes('"bagwright":"snapshot"');
}

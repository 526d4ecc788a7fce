/**
 * Whether two names are of one person: case, spaces and the way a letter is put together aside.
 *
 * @returns true where nobody else signs
 */
export function isSamePerson(one: string, other: string): boolean {
  return plain(one) === plain(other);
}

function plain(name: string): string {
  return name.normalize('NFKC').replace(/\s+/gu, '').toLowerCase().toUpperCase().normalize('NFKC');
}

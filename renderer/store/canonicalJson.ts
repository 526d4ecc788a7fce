/**
 * One text for one value: keys sorted, nothing between, fields that are `undefined` left out. Two records are the same
 * where their texts are the same; digests are made of it.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((part) => canonicalJson(part ?? null)).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const fields = Object.entries(value)
      .filter(([, held]) => held !== undefined)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, held]) => `${JSON.stringify(name)}:${canonicalJson(held)}`);
    return `{${fields.join(',')}}`;
  }
  return JSON.stringify(value) ?? 'null';
}

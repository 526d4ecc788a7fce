/**
 * One text for one value, after RFC 8785: names sorted by their UTF-16 units, nothing between, numbers and texts as
 * JSON.stringify writes them. A field that is undefined is absent.
 */
export function canonicalJson(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const held = value as Record<string, unknown>;
  let fields = '';
  for (const name of sortedNames(held)) {
    if (held[name] === undefined) continue;
    fields += `${fields === '' ? '' : ','}${JSON.stringify(name)}:${canonicalJson(held[name])}`;
  }
  return `{${fields}}`;
}

/** What was read from the journal is sorted already, and a look is cheaper than a sort. */
function sortedNames(held: object): string[] {
  const names = Object.keys(held);
  for (let at = 1; at < names.length; at += 1) if ((names[at - 1] ?? '') > (names[at] ?? '')) return names.toSorted();
  return names;
}

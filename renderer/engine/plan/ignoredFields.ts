/** Paths of what stands in `given` and is not in `read`: fields which no schema knows. */
export function ignoredFields(given: unknown, read: unknown, at = ''): string[] {
  if (Array.isArray(given)) {
    const items: readonly unknown[] = Array.isArray(read) ? read : [];
    return given.flatMap((item, index) => ignoredFields(item, items[index], `${at}[${index}]`));
  }
  if (!isRecord(given)) return [];
  const known = isRecord(read) ? read : {};
  return Object.entries(given).flatMap(([key, value]) => {
    const path = at === '' ? key : `${at}.${key}`;
    return Object.hasOwn(known, key) ? ignoredFields(value, known[key], path) : [path];
  });
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

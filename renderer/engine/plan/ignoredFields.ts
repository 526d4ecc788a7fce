/** Paths of what stands in `given` and is not in `read`: fields which no schema knows. */
export function ignoredFields(given: unknown, read: unknown, at = ''): string[] {
  if (Array.isArray(given) && Array.isArray(read)) {
    return given.flatMap((item, index) => ignoredFields(item, read[index], `${at}[${index}]`));
  }
  if (!isRecord(given) || !isRecord(read)) return [];
  return Object.entries(given).flatMap(([key, value]) => {
    const path = at === '' ? key : `${at}.${key}`;
    return Object.hasOwn(read, key) ? ignoredFields(value, read[key], path) : [path];
  });
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * Outings and steps in the order of their task, items in that of their shelf: by position, then by code. Codes are unique
 * where an order is asked for, so that the order follows from what people see, and never from the records' keys.
 */
export function inOrder<R extends { position?: number | undefined; code: string }>(records: readonly R[]): R[] {
  return records.toSorted((a, b) => positionOf(a) - positionOf(b) || byText(a.code, b.code));
}

/** What was never placed stands after what was. */
function positionOf(record: { position?: number | undefined }): number {
  return record.position ?? Number.MAX_VALUE;
}

/** The same on every machine, whatever its language. */
export function byText(a: string, b: string): number {
  return Number(a > b) - Number(a < b);
}

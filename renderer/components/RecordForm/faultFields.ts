/** What a check of the whole record found, by the path within it. */
export interface Fault {
  path: string;
  message: string;
}

/** The path with dots alone: `settings[2]` and `settings.2` are the same place. */
const plain = (path: string): string => path.replaceAll(/\[(\w+)\]/g, '.$1');

const within = (inner: string, outer: string): boolean => inner === outer || inner.startsWith(`${outer}.`);

/** The field at which a fault is mended: its own, the one around it, or the first within it. */
function fieldOfFault(faultPath: string, fields: readonly string[]): string | null {
  const path = plain(faultPath);
  const around = fields.filter((field) => within(path, field)).toSorted((a, b) => b.length - a.length);
  return around[0] ?? fields.find((field) => within(field, path)) ?? null;
}

/**
 * The first message for each field, beginning with the field's label, so that the same words stand on their own in the
 * list above the form. What belongs to no field stands under the empty name.
 */
export function messagesByField(
  faults: readonly Fault[],
  labels: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
  const messages = new Map<string, string>();
  for (const { path, message } of faults) {
    const field = fieldOfFault(path, [...labels.keys()]) ?? '';
    if (!messages.has(field)) messages.set(field, labelled(labels.get(field) ?? path, message));
  }
  return messages;
}

/** "Length is missing." or: Length: "165" has no unit … */
function labelled(label: string, message: string): string {
  const whole = /[.?!]$/.test(message) ? message : `${message}.`;
  if (label === '') return whole;
  return /^\p{Ll}/u.test(whole) ? `${label} ${whole}` : `${label}: ${whole}`;
}

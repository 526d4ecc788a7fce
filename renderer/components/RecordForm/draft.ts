/** A record while it is written: any field may still be missing or wrong. Paths are dotted, as `opening.size`. */
export type Draft = Readonly<Record<string, unknown>>;

const isDraft = (value: unknown): value is Draft =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export function valueAt(draft: Draft, path: string): unknown {
  return valueReader(path)(draft);
}

/** The same for one field of many records: its path is taken apart once. */
export function valueReader(path: string): (draft: Draft) => unknown {
  const names = path.split('.');
  return (draft) => names.reduce<unknown>((value, name) => (isDraft(value) ? value[name] : undefined), draft);
}

/** The draft with a value in its place. Nothing typed is no field: an empty text is not kept as one. */
export function withValue(draft: Draft, path: string, value: unknown): Draft {
  const [name = '', ...rest] = path.split('.');
  if (rest.length > 0) {
    const inner = draft[name];
    const changed = withValue(isDraft(inner) ? inner : {}, rest.join('.'), value);
    return withValue(draft, name, Object.keys(changed).length === 0 ? undefined : changed);
  }
  if (value !== undefined && value !== '') return { ...draft, [name]: value };
  return Object.fromEntries(Object.entries(draft).filter(([key]) => key !== name));
}

/** The same text for the same content, whatever the order of its fields; an empty text is no content. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (!isDraft(value)) return JSON.stringify(value) ?? 'null';
  const entries = Object.entries(value).filter(([, inner]) => inner !== undefined && inner !== '');
  const sorted = entries.toSorted(([a], [b]) => (a < b ? -1 : 1));
  return `{${sorted.map(([key, inner]) => `${JSON.stringify(key)}:${canonical(inner)}`).join(',')}}`;
}

/** Whatever their revisions and keys: entries of one form that were saved meanwhile, or typed twice, are no loss. */
export const saysTheSame = (one: Draft, other: Draft): boolean =>
  canonical({ ...one, rev: 0, id: '' }) === canonical({ ...other, rev: 0, id: '' });

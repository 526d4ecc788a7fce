/** What stands at a path; undefined where the path leads on and nothing stands there. */
export function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce((value: unknown, step) => {
    const inside: unknown = Object(value);
    return Object.hasOwn(inside as object, step) ? (inside as Record<PropertyKey, unknown>)[step] : undefined;
  }, input);
}

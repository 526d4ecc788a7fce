/**
 * A code nobody has yet, made from another: its number counted on, or a number put after it.
 *
 * @example freshCode('S-18', new Set(['S-18', 'S-19'])) // "S-20"
 * @example freshCode('cap', new Set(['cap'])) // "cap-2"
 */
export function freshCode(like: string, taken: ReadonlySet<string>): string {
  const found = /^(.*?)(\d{1,9})$/.exec(like);
  const stem = found?.[1] ?? `${like}-`;
  let number = found === null ? 2 : Number(found[2]) + 1;
  const wide = found?.[2]?.startsWith('0') === true ? found[2].length : 0;
  const codeOf = (): string => stem + String(number).padStart(wide, '0');
  while (taken.has(codeOf())) number += 1;
  return codeOf();
}

/** The first code of a new list: the stem with the lowest number that is free. */
export function firstCode(stem: string, taken: ReadonlySet<string>): string {
  return taken.has(`${stem}1`) ? freshCode(`${stem}1`, taken) : `${stem}1`;
}

/** The code itself, or with the first number after it that makes it free: `T-1`, `T-1-2`, `T-1-3`. */
export function freeCode(code: string, taken: readonly string[]): string {
  return firstFree(code, taken, (n) => `-${n}`);
}

/** The same for names: `Field kit`, `Field kit (2)`. */
export function freeName(name: string, taken: readonly string[]): string {
  return firstFree(name, taken, (n) => ` (${n})`);
}

/** Codes and names of shelves hold no more. */
const longest = 200;

function firstFree(text: string, taken: readonly string[], ending: (n: number) => string): string {
  const used = new Set(taken);
  if (!used.has(text)) return text;
  for (let n = 2; ; n += 1) {
    const tail = ending(n);
    const tried = `${text.slice(0, longest - tail.length)}${tail}`;
    if (!used.has(tried)) return tried;
  }
}

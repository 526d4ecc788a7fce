/** Answers kept for one run: more than repeat in any real table, and few enough to hold. */
const answersMost = 20_000;

/** Remembers what was worked out of a text while one table is read; all is forgotten once it is full, and with the table. */
export class Memo<T> {
  private readonly known = new Map<string, T>();

  /** What is known of a text already. */
  peek(text: string): T | undefined {
    return this.known.get(text);
  }

  /** @throws whatever `make` throws: a refusal is not remembered */
  get(text: string, make: () => T): T {
    const found = this.known.get(text);
    if (found !== undefined) return found;
    const made = make();
    if (this.known.size >= answersMost) this.known.clear();
    this.known.set(text, made);
    return made;
  }
}

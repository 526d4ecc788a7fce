/**
 * JSON of many records, written and read step by step: one call for all of it would hold a window for as long as it takes.
 * Whoever calls decides between two steps whether to go on at once. The text and the value are those of `JSON`.
 */

/** So many items of a list are one step of writing. */
const batch = 100;
/** As deep as objects are gone into to find long lists: a request, its payload. */
const writtenDepth = 2;
/** A page, its entries, an entry, its payload, its changes: each change is one step of reading. */
const readDepth = 5;

/**
 * The JSON text of plain data, a part at a time.
 *
 * @param value - plain data, as `JSON.stringify` takes it
 * @returns its text in parts, in order
 */
export function* textInSteps(value: unknown, depth = writtenDepth): Generator<string, void> {
  if (Array.isArray(value) && value.length > batch) {
    for (let from = 0; from < value.length; from += batch) {
      const items = JSON.stringify(value.slice(from, from + batch));
      yield `${from === 0 ? '[' : ','}${items.slice(1, -1)}`;
    }
    yield ']';
    return;
  }
  if (depth === 0 || typeof value !== 'object' || value === null || Array.isArray(value)) {
    yield JSON.stringify(value) ?? 'null';
    return;
  }
  let before = '{';
  for (const [name, held] of Object.entries(value)) {
    if (held === undefined) continue;
    yield `${before}${JSON.stringify(name)}:`;
    yield* textInSteps(held, depth - 1);
    before = ',';
  }
  yield before === '{' ? '{}' : '}';
}

/**
 * What a JSON text says, read a part at a time.
 *
 * @param text - JSON
 * @returns what `JSON.parse` gives
 * @throws SyntaxError where it is no JSON
 */
export function valueInSteps(text: string): Generator<void, unknown> {
  return new Reading(text).whole();
}

class Reading {
  private readonly text: string;
  private at = 0;

  constructor(text: string) {
    this.text = text;
  }

  *whole(): Generator<void, unknown> {
    const value = yield* this.value(readDepth);
    this.skipBlanks();
    if (this.at < this.text.length) throw this.fault();
    return value;
  }

  private *value(depth: number): Generator<void, unknown> {
    this.skipBlanks();
    const first = this.text[this.at];
    if (depth > 0 && first === '[') return yield* this.list(depth - 1);
    if (depth > 0 && first === '{') return yield* this.object(depth - 1);
    const from = this.at;
    this.at = this.endOfValue();
    yield;
    return JSON.parse(this.text.slice(from, this.at));
  }

  private *list(depth: number): Generator<void, unknown[]> {
    const items: unknown[] = [];
    this.at += 1;
    if (this.takes(']')) return items;
    for (;;) {
      items.push(yield* this.value(depth));
      if (this.takes(']')) return items;
      this.mustTake(',');
    }
  }

  private *object(depth: number): Generator<void, Record<string, unknown>> {
    const fields: [string, unknown][] = [];
    this.at += 1;
    // Made from entries, so that no name means anything but a field of that name.
    if (this.takes('}')) return {};
    for (;;) {
      this.skipBlanks();
      const from = this.at;
      if (this.text[from] !== '"') throw this.fault();
      this.at = this.endOfString(from);
      const name = JSON.parse(this.text.slice(from, this.at)) as string;
      this.mustTake(':');
      fields.push([name, yield* this.value(depth)]);
      if (this.takes('}')) return Object.fromEntries(fields);
      this.mustTake(',');
    }
  }

  private skipBlanks(): void {
    while (/[ \t\r\n]/.test(this.text[this.at] ?? '')) this.at += 1;
  }

  private takes(sign: string): boolean {
    this.skipBlanks();
    if (this.text[this.at] !== sign) return false;
    this.at += 1;
    return true;
  }

  private mustTake(sign: string): void {
    if (!this.takes(sign)) throw this.fault();
  }

  /** Where the value that begins here ends, by its brackets and quotation marks alone: `JSON.parse` looks at the rest. */
  private endOfValue(): number {
    const { text } = this;
    let open = 0;
    for (let at = this.at; at < text.length; at += 1) {
      const sign = text[at];
      if (sign === '"') {
        at = this.endOfString(at) - 1;
        if (open === 0) return at + 1;
      } else if (sign === '{' || sign === '[') open += 1;
      else if (sign === '}' || sign === ']') {
        if (open === 0) return at;
        open -= 1;
        if (open === 0) return at + 1;
      } else if (sign === ',' && open === 0) return at;
    }
    return text.length;
  }

  private endOfString(from: number): number {
    for (let end = this.text.indexOf('"', from + 1); end >= 0; end = this.text.indexOf('"', end + 1)) {
      let slashes = 0;
      while (this.text[end - 1 - slashes] === '\\') slashes += 1;
      if (slashes % 2 === 0) return end + 1;
    }
    throw this.fault();
  }

  private fault(): SyntaxError {
    return new SyntaxError(`not JSON at place ${this.at}`);
  }
}

/** Bytes of a block: few writes, and no more held than is needed. */
const blockBytes = 1 << 20;

/** Many small texts as UTF-8, packed into blocks as they come: to put them together first would take as long as to write them. */
class Packed {
  readonly blocks: Uint8Array[] = [];
  private readonly encoder = new TextEncoder();
  private block = new Uint8Array(blockBytes);
  private used = 0;

  add(text: string): void {
    // A unit takes at most three bytes.
    if (this.block.length - this.used < 3 * text.length) {
      this.close();
      if (this.block.length < 3 * text.length) this.block = new Uint8Array(3 * text.length);
    }
    this.used += this.encoder.encodeInto(text, this.block.subarray(this.used)).written;
  }

  /** What was added so far stands in `blocks`. */
  close(): void {
    if (this.used === 0) return;
    this.blocks.push(this.block.subarray(0, this.used));
    this.block = new Uint8Array(blockBytes);
    this.used = 0;
  }
}

/** All the pieces there are, in blocks, and what they come to in the end. */
export function packedWhole<Rest>(pieces: Generator<string, Rest>): { rest: Rest; blocks: Uint8Array[] } {
  const pack = new Packed();
  for (;;) {
    const next = pieces.next();
    if (next.done === true) {
      pack.close();
      return { rest: next.value, blocks: pack.blocks };
    }
    pack.add(next.value);
  }
}

/** Pieces as they come, small texts among them packed into blocks; bytes are blocks already. */
export function* packed(pieces: Iterable<string | Uint8Array>): Generator<Uint8Array> {
  const pack = new Packed();
  for (const piece of pieces) {
    if (typeof piece === 'string') {
      pack.add(piece);
    } else {
      pack.close();
      pack.blocks.push(piece);
    }
    yield* pack.blocks.splice(0);
  }
  pack.close();
  yield* pack.blocks;
}

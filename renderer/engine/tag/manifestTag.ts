import { pieceMost } from './tag.ts';
import type { Tag } from './tag.ts';

/** A frozen manifest, as far as its label names it. */
export interface NamedManifest {
  /** Number of the revision within its task. */
  number: number;
  /** SHA-256 of what was frozen. */
  hash: string;
}

/**
 * The label of a frozen manifest: its number, and in place of a piece what its hash begins with, so that revisions of two tasks with one
 * number, or of two copies of the program, are told apart.
 *
 *   piece = first eight hexadecimal digits of the hash mod 1000
 *
 * @param manifest - number and hash
 * @returns what its square carries
 * @throws nothing
 * @source definition of this program's own labels; the short hash is what every page shows
 * @validity one in a thousand other contents has the same three digits: the short hash beside the square is held against the page
 * @example manifestTag({ number: 3, hash: '000003e9…' }) // { kind: 'manifest', tag: 3, piece: 1 }
 */
export function manifestTag({ number, hash }: NamedManifest): Tag {
  return { kind: 'manifest', tag: number, piece: Number.parseInt(hash.slice(0, 8), 16) % (pieceMost + 1) };
}

/**
 * Whether a label that was read is that of a frozen manifest.
 *
 * @param tag - as it was read
 * @param manifest - number and hash
 * @returns true where number and digits of the hash agree
 */
export function isOfManifest(tag: Tag, manifest: NamedManifest): boolean {
  const own = manifestTag(manifest);
  return tag.kind === 'manifest' && tag.tag === own.tag && tag.piece === own.piece;
}

/**
 * Finished documents waiting to be shown by the browser. They stay in memory, each under an address nobody can guess:
 * a browser opens an address without a token, so the address itself is the permission.
 */
import { randomBytes } from 'node:crypto';

export interface PrintedDocument {
  name: string;
  bytes: Buffer;
}

export interface PrintedShelf {
  /** The path at which the document is now served. */
  keep(document: PrintedDocument): string;
  find(path: string): PrintedDocument | null;
}

const form = /^\/document\/([\w-]{43})\.pdf$/;

export function printedShelf(limits: { documents: number; bytes: number }): PrintedShelf {
  const shelf = new Map<string, PrintedDocument>();
  const weight = (): number => [...shelf.values()].reduce((sum, document) => sum + document.bytes.length, 0);
  return {
    keep(document) {
      const id = randomBytes(32).toString('base64url');
      shelf.set(id, document);
      for (const oldest of shelf.keys()) {
        if (shelf.size <= limits.documents && (weight() <= limits.bytes || shelf.size === 1)) break;
        shelf.delete(oldest);
      }
      return `/document/${id}.pdf`;
    },
    find(path) {
      const id = form.exec(path)?.[1];
      return (id === undefined ? undefined : shelf.get(id)) ?? null;
    },
  };
}

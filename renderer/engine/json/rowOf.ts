import { withoutByteOrderMark } from './byteOrderMark.ts';
import { fieldAbove } from './fieldText.ts';
import { rowStarts } from './rowAt.ts';
import { scanJson } from './scanJson.ts';

/**
 * Finds the line of any field of one JSON text; the text is walked once, at the first question.
 *
 * @param text - JSON
 * @returns the line a field's name stands on, the first being 1; for a field that is missing, the line where its object begins;
 *   undefined where the text is no JSON
 */
export function rowFinder(text: string): (field: string) => number | undefined {
  let index: { offsets: Map<string, number>; rowOfOffset: (offset: number) => number } | undefined;
  return (field) => {
    index ??= indexOf(withoutByteOrderMark(text));
    for (let path = field; ; path = fieldAbove(path)) {
      const offset = index.offsets.get(path);
      if (offset !== undefined) return index.rowOfOffset(offset);
      if (path === '') return undefined;
    }
  };
}

/** The line of one field; for many, keep a rowFinder. */
export function rowOf(text: string, field: string): number | undefined {
  return rowFinder(text)(field);
}

function indexOf(json: string) {
  const offsets = new Map<string, number>();
  try {
    scanJson(json, (field, offset) => offsets.set(field, offset));
  } catch {
    // No row can be named in a text that is no JSON; its own refusal carries the position.
    offsets.clear();
  }
  return { offsets, rowOfOffset: rowStarts(json) };
}

import type { Delimiter } from './delimiter.ts';

const [quotationMark, lineFeed] = [0x22, 0x0a];

/** Characters taken apart at a time: what was made of one block is done with before the next. */
const blockLength = 1 << 16;

/** A block of whole records, without its last line break, and the character it begins at, from 0. */
export interface Block {
  at: number;
  text: string;
}

/**
 * A text in blocks of whole records.
 *
 * @param start - character it begins at, from 0
 */
export function* blocksOf(text: string, start: number, delimiter: Delimiter): Generator<Block> {
  let nextQuote = text.indexOf('"', start);
  for (let at = start; at < text.length;) {
    if (nextQuote !== -1 && nextQuote < at) nextQuote = text.indexOf('"', at);
    const plainEnd = lineEnd(text, at + blockLength);
    const end = nextQuote === -1 || nextQuote >= plainEnd ? plainEnd : endOfRecords(text, at, delimiter);
    yield { at, text: text.slice(at, text[end - 1] === '\n' ? end - 1 : end) };
    at = end;
  }
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end === -1 ? text.length : end + 1;
}

function endOfRecords(text: string, start: number, delimiter: Delimiter): number {
  let at = start;
  while (at < text.length && at < start + blockLength) at = recordEnd(text, at, delimiter);
  return at;
}

/**
 * Where the next record begins: behind the first line break that stands in no quoted cell.
 *
 * @param start - character the record begins at, from 0
 * @returns the index of the next record's first character; the text's length where there is none
 */
export function recordEnd(text: string, start: number, delimiter: Delimiter): number {
  const parting = delimiter.charCodeAt(0);
  let isCellStart = true;
  for (let at = start; at < text.length;) {
    const code = text.charCodeAt(at);
    if (code === quotationMark && isCellStart) {
      at = quotesEnd(text, at + 1);
      isCellStart = false;
      continue;
    }
    at += 1;
    if (code === lineFeed) return at;
    isCellStart = code === parting;
  }
  return text.length;
}

/** Behind the quotation mark that closes a cell; two of them are one of its text. */
function quotesEnd(text: string, start: number): number {
  for (let at = text.indexOf('"', start); at !== -1; at = text.indexOf('"', at + 2))
    if (text[at + 1] !== '"') return at + 1;
  return text.length;
}

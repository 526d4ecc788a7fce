import type { Item, ItemKind } from '../../../shared-types/records/item.ts';
import { valueReader } from '../../components/RecordForm/draft.ts';
import { breathe } from '../../store/breathe.ts';
import { asDigits, Vocabulary } from './searchNear.ts';
import type { NearWord } from './searchNear.ts';
import { fieldsOf } from './itemFields.ts';
import type { ItemField } from './itemFields.ts';
import { itemName, kindWords } from './words.ts';

/** Two parts that stay apart: digits with nothing but a separator between them. */
const apart = '\u0001';

/**
 * A text as it is searched: case and accents gone, every spelling of × · / - and of the inch mark one, and nothing
 * between two parts unless both are digits, so that "S 18D", "s-18d" and "S18D" are the same and "1-1/16" is no "11/16".
 */
export function folded(text: string): string {
  const line = oneLine(text);
  // Most texts of a catalog are plain: what only others need is not looked for in them.
  return plain.test(line) ? foldedPlain(line.toLowerCase()) : foldedByPattern(unaccented(line));
}

/** Several texts, each as it is searched, a line each. */
export function foldedLines(texts: readonly string[]): string {
  const lines = texts.map(oneLine).join('\n');
  return plain.test(lines) ? foldedPlain(lines.toLowerCase()) : texts.map(folded).join('\n');
}

const oneLine = (text: string): string => (text.includes('\n') ? text.replaceAll('\n', ' ') : text);

/** Any text of one line: what `foldedPlain` does for those that have only the plain signs. */
export function foldedByPattern(text: string): string {
  return text
    .replaceAll(/["″”]/g, 'in')
    .replaceAll(/(\d)\s*[x×✕*]\s*(?=\d)/g, '$1x')
    .replaceAll(/\s*\/\s*/g, '/')
    .replaceAll(/(\d)[\s·⋅∙•‐‑‒–—−_-]+(?=\d)/g, `$1${apart}`)
    .replaceAll(/[\s·⋅∙•‐‑‒–—−_-]+/g, '')
    .replaceAll(apart, ' ');
}

/** Printed signs of ASCII and its blanks, and the signs of units and sizes. */
const plain = /^[\t-\r -~·×✕⋅∙•‐‑‒–—−″”]*$/;

/** The line break is a sign like any other here: it parts the lines. */
const isBlank = (code: number): boolean => code === 32 || code === 9 || (code >= 11 && code <= 13);
const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const codesOf = (signs: string): ReadonlySet<number> => new Set([...signs].map((sign) => sign.charCodeAt(0)));
const [inchMark, star, dash, underscore] = [34, 42, 45, 95];
const inchMarks = codesOf('″”');
const crosses = codesOf('×✕');
const dots = codesOf('·⋅∙•‐‑‒–—−');
const parts = (code: number): boolean =>
  isBlank(code) || code === dash || code === underscore || (code > 126 && dots.has(code));
const marksInch = (code: number): boolean => code === inchMark || (code > 126 && inchMarks.has(code));
const multiplies = (code: number): boolean => code === star || (code > 126 && crosses.has(code));

/** In one go over the signs: of fifty thousand items' texts the patterns took seconds. */
function foldedPlain(text: string): string {
  let made = '';
  let from = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (parts(code)) {
      made += text.slice(from, at);
      from = at + 1;
      while (parts(text.charCodeAt(from))) from += 1;
      const isBetweenDigits = at > 0 && isDigit(text.charCodeAt(at - 1)) && isDigit(text.charCodeAt(from));
      if (isBetweenDigits) made += ' ';
      at = from - 1;
    } else if (marksInch(code)) {
      made += `${text.slice(from, at)}in`;
      from = at + 1;
    } else if (multiplies(code) && isTimes(text, at)) {
      made += `${text.slice(from, at)}x`;
      from = at + 1;
    }
  }
  return made + text.slice(from);
}

/** A star or a cross between two digits, blanks aside. */
function isTimes(text: string, at: number): boolean {
  let [before, after] = [at - 1, at + 1];
  while (isBlank(text.charCodeAt(before))) before -= 1;
  while (isBlank(text.charCodeAt(after))) after += 1;
  return isDigit(text.charCodeAt(before)) && isDigit(text.charCodeAt(after));
}

function unaccented(text: string): string {
  return text
    .normalize('NFD')
    .replaceAll(/\p{Mn}/gu, '')
    .toLowerCase()
    .replaceAll(/[⁄∕÷]/g, '/');
}

/** The words of a search, each to be found on its own. */
export function wordsOf(search: string): string[] {
  const joined = search.replaceAll(/\s*[/⁄∕]\s*/g, '/').replaceAll(/(\d)\s*[x×✕*]\s*(?=\d)/gi, '$1x');
  return [...new Set(joined.split(/\s+/).map(folded))].filter((word) => word !== '');
}

function isDigitAt(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= 48 && code <= 57;
}

/** Whether a word stands in a text; a number begins where it begins: "6 mm" is not in "16 mm". */
function holds(text: string, word: string): boolean {
  let at = text.indexOf(word);
  if (!isDigitAt(word, 0)) return at >= 0;
  while (at > 0 && (isDigitAt(text, at - 1) || text[at - 1] === '.')) at = text.indexOf(word, at + 1);
  return at >= 0;
}

export function matches(text: string, words: readonly string[]): boolean {
  return words.every((word) => holds(text, word));
}

/** Whether every word stands in an item's texts as typed or as what it may have been meant. */
export function matchesNearly(item: Item, words: readonly NearWord[]): boolean {
  const text = searchText(item);
  return words.every(
    ({ exact, others, digits }) =>
      others.some((other) => holds(text, other)) ||
      (digits !== null && holds(codeInDigits(item), digits)) ||
      holds(text, exact),
  );
}

const codes = new WeakMap<Item, string>();

function codeInDigits(item: Item): string {
  const known = codes.get(item);
  if (known !== undefined) return known;
  const made = asDigits(folded(item.code));
  codes.set(item, made);
  return made;
}

/** Built once for each version of a record: a record that did not change is the same object. */
const texts = new WeakMap<Item, string>();
/** Every word of every text that was prepared. */
export const vocabulary = new Vocabulary();

export function searchText(item: Item): string {
  const known = texts.get(item);
  if (known !== undefined) return known;
  const lines = [itemName(item), kindWords[item.kind], ...readersOf(item.kind).map((read) => read(item))];
  const text = foldedLines(lines);
  texts.set(item, text);
  vocabulary.add(lines.join('\n'));
  vocabulary.addCode(folded(item.code));
  return text;
}

type FieldReader = (item: Item) => string;

/** How each field of a kind is read, made once. */
const readers = new Map<ItemKind, readonly FieldReader[]>();

function readersOf(kind: ItemKind): readonly FieldReader[] {
  const known = readers.get(kind);
  if (known !== undefined) return known;
  const made = fieldsOf(kind).map(readerOf);
  readers.set(kind, made);
  return made;
}

/** As it was typed: that is what is looked for. */
function readerOf({ path, type }: ItemField): FieldReader {
  const at = valueReader(path);
  const labels = new Map<unknown, string>(
    type.is === 'choice' ? type.choices.map(({ value, label }) => [value, label]) : [],
  );
  return (item) => {
    const value = at(item);
    if (typeof value === 'string') return labels.get(value) ?? value;
    if (Array.isArray(value)) return value.join(' ');
    return typeof value === 'number' ? String(value) : '';
  };
}

/** Makes the texts of some items at once: as they are read. */
export function prepareRead(items: readonly Item[]): void {
  for (const item of items) searchText(item);
}

const sliceMs = 8;

/**
 * Makes the texts of all items a slice at a time, so that no key ever waits for them.
 *
 * @returns gives it up
 */
export function prepareSearch(items: ReadonlyMap<string, Item>, onReady: () => void): () => void {
  const left = items.values();
  let isGivenUp = false;
  const prepare = async (): Promise<void> => {
    let until = 0;
    for (const item of left) {
      if (performance.now() > until) {
        // A timer would wait four milliseconds between two slices.
        await breathe();
        if (isGivenUp) return;
        until = performance.now() + sliceMs;
      }
      searchText(item);
    }
    onReady();
  };
  void prepare();
  return () => {
    isGivenUp = true;
  };
}

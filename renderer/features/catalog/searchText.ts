import type { Item } from '../../../shared-types/records/item.ts';
import { valueAt } from '../../components/RecordForm/draft.ts';
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
  // Most texts of a catalog are plain: what only others need is not looked for in them.
  return isPlain(text) ? foldedPlain(text.toLowerCase()) : foldedByPattern(unaccented(text));
}

/** Any text: what `foldedPlain` does for those that have only the plain signs. */
export function foldedByPattern(text: string): string {
  return text
    .replaceAll(/["″”]/g, 'in')
    .replaceAll(/(\d)\s*[x×✕*]\s*(?=\d)/g, '$1x')
    .replaceAll(/\s*\/\s*/g, '/')
    .replaceAll(/(\d)[\s·⋅∙•‐‑‒–—−_-]+(?=\d)/g, `$1${apart}`)
    .replaceAll(/[\s·⋅∙•‐‑‒–—−_-]+/g, '')
    .replaceAll(apart, ' ');
}

/** Printed signs of ASCII and its blanks alone. */
function isPlain(text: string): boolean {
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code > 126 || (code < 32 && !isBlank(code))) return false;
  }
  return true;
}

const isBlank = (code: number): boolean => code === 32 || (code >= 9 && code <= 13);
const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const [inchMark, star, dash, underscore] = [34, 42, 45, 95];
const parts = (code: number): boolean => isBlank(code) || code === dash || code === underscore;

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
    } else if (code === inchMark) {
      made += `${text.slice(from, at)}in`;
      from = at + 1;
    } else if (code === star && isTimes(text, at)) {
      made += `${text.slice(from, at)}x`;
      from = at + 1;
    }
  }
  return made + text.slice(from);
}

/** A star between two digits, blanks aside. */
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
  const made = asDigits(foldedOnce(item.code));
  codes.set(item, made);
  return made;
}

/** Built once for each version of a record: a record that did not change is the same object. */
const texts = new WeakMap<Item, string>();
/** Sizes, places and words that many records share are folded once. */
const shared = new Map<string, string>();
const sharedMost = 20_000;
const sharedLength = 32;

/** Every word of every text that was prepared. */
export const vocabulary = new Vocabulary();

function foldedOnce(text: string): string {
  if (text.length > sharedLength) {
    vocabulary.add(text);
    return folded(text);
  }
  const known = shared.get(text);
  if (known !== undefined) return known;
  vocabulary.add(text);
  const made = folded(text);
  if (shared.size < sharedMost) shared.set(text, made);
  return made;
}

export function searchText(item: Item): string {
  const known = texts.get(item);
  if (known !== undefined) return known;
  const fields = fieldsOf(item.kind).map((field) => foldedOnce(plainText(field, valueAt(item, field.path))));
  const text = [foldedOnce(itemName(item)), foldedOnce(kindWords[item.kind]), ...fields].join('\n');
  texts.set(item, text);
  vocabulary.addCode(foldedOnce(item.code));
  return text;
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

/** As it was typed: that is what is looked for. */
function plainText({ type }: ItemField, value: unknown): string {
  if (value === undefined) return '';
  if (typeof value === 'string')
    return type.is === 'choice' ? (type.choices.find((choice) => choice.value === value)?.label ?? value) : value;
  if (Array.isArray(value)) return value.join(' ');
  return typeof value === 'number' ? String(value) : '';
}

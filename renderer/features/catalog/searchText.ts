import type { Item } from '../../../shared-types/records/item.ts';
import { valueAt } from '../../components/RecordForm/draft.ts';
import { fieldText } from './fieldText.ts';
import { fieldsOf } from './itemFields.ts';
import { itemName, kindWords } from './words.ts';

/**
 * A text as it is searched: case and accents gone, every spelling of × · / - and of the inch mark one, and nothing
 * between two parts unless both are digits, so that "S 18D", "s-18d" and "S18D" are the same and "1-1/16" is no "11/16".
 */
export function folded(text: string): string {
  return text
    .normalize('NFD')
    .replaceAll(/\p{Mn}/gu, '')
    .toLowerCase()
    .replaceAll(/["″”]/g, 'in')
    .replaceAll(/[⁄∕÷]/g, '/')
    .replaceAll(/(\d)\s*[x×✕*]\s*(?=\d)/g, '$1x')
    .replaceAll(/\s*\/\s*/g, '/')
    .replaceAll(/[\s·⋅∙•‐‑‒–—−_-]+/g, ' ')
    .replaceAll(/(\d) (?=\d)/g, '$1\u0001')
    .replaceAll(' ', '')
    .replaceAll('\u0001', ' ');
}

/** The words of a search, each to be found on its own. */
export function wordsOf(search: string): string[] {
  const joined = search.replaceAll(/\s*[/⁄∕]\s*/g, '/').replaceAll(/(\d)\s*[x×✕*]\s*(?=\d)/gi, '$1x');
  return [...new Set(joined.split(/\s+/).map(folded))].filter((word) => word !== '');
}

const isDigit = (character: string | undefined): boolean =>
  character !== undefined && character >= '0' && character <= '9';

/** Whether a word stands in a text; a number begins where it begins: "6 mm" is not in "16 mm". */
function holds(text: string, word: string): boolean {
  let at = text.indexOf(word);
  if (!isDigit(word[0])) return at >= 0;
  while (at > 0 && (isDigit(text[at - 1]) || text[at - 1] === '.')) at = text.indexOf(word, at + 1);
  return at >= 0;
}

export function matches(text: string, words: readonly string[]): boolean {
  return words.every((word) => holds(text, word));
}

/** Built once for each version of a record: a record that did not change is the same object. */
const texts = new WeakMap<Item, string>();

export function searchText(item: Item): string {
  const known = texts.get(item);
  if (known !== undefined) return known;
  const fields = fieldsOf(item.kind).map((field) => fieldText(field, valueAt(item, field.path), 'as-written'));
  const text = [itemName(item), kindWords[item.kind], ...fields].map(folded).join('\n');
  texts.set(item, text);
  return text;
}

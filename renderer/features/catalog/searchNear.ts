/**
 * Searching that forgives typing. The rule, as the screen says it: a word of at least four letters is also taken for one
 * that differs in one letter (wrong, missing, too many, or two neighbours swapped); 0 and O, 1 and l and I count as one
 * in numbers; "in" behind a number may be left out. Digits are never forgiven: M10 is not found for M12.
 */

/** So long a word must be before a letter of it is forgiven. */
const shortest = 4;

/** A letter that looks like a digit, beside one. */
const besideDigit = /\d[oil]|[oil]\d/;

const letters = /^\p{L}+$/u;

/** Words that stand in the catalog's texts, met while the search is prepared. */
export class Vocabulary {
  private readonly words = new Set<string>();
  /** Whether any code has a letter beside a digit that looks like one. */
  hasLookAlikes = false;

  /** Takes in a code as it is searched. */
  addCode(folded: string): void {
    this.hasLookAlikes ||= besideDigit.test(folded);
  }

  /** Takes in a text as it was typed. */
  add(text: string): void {
    // Letters of the alphabet are quickly told; of what else there is, only the letters.
    for (const run of text.toLowerCase().match(/[a-z\u0080-\uffff]{4,}/g) ?? []) {
      if (/^[a-z]+$/.test(run)) this.words.add(run);
      else for (const [word] of run.matchAll(/\p{L}{4,}/gu)) this.words.add(word);
    }
  }

  /** The words that a typed one may have been meant as; the typed word itself is not among them. */
  near(typed: string): string[] {
    if (typed.length < shortest || !letters.test(typed)) return [];
    const found: string[] = [];
    for (const word of this.words) {
      if (word.startsWith(typed) || word.length < typed.length - 1) continue;
      const start = nearStart(word, typed);
      if (start !== null && !found.includes(start)) found.push(start);
      if (found.length >= nearMost) break;
    }
    return found;
  }
}

/** So many other words are looked for at once. */
const nearMost = 24;

/** The beginning of a word that a typed one is one letter away from; null where none is. */
function nearStart(word: string, typed: string): string | null {
  for (const length of [typed.length, typed.length + 1, typed.length - 1]) {
    if (length > word.length || length < shortest - 1) continue;
    const start = word.slice(0, length);
    if (isOneLetterAway(start, typed)) return start;
  }
  return null;
}

/** Whether one wrong, missing, added or swapped letter makes one of the other. */
function isOneLetterAway(a: string, b: string): boolean {
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let at = 0;
  while (at < a.length && a[at] === b[at]) at += 1;
  if (a.length === b.length) {
    if (a.slice(at + 1) === b.slice(at + 1)) return true;
    return a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
  }
  const [long, short] = a.length > b.length ? [a, b] : [b, a];
  return long.slice(at + 1) === short.slice(at);
}

/** Signs that are taken for each other where a digit stands in the word. */
export function asDigits(text: string): string {
  return text.replaceAll('o', '0').replaceAll(/[il]/g, '1');
}

/** Other spellings of one typed word: each found as it stands. */
export interface NearWord {
  exact: string;
  others: readonly string[];
  /** Of a word with a digit: the word with digits for letters that look like them. */
  digits: string | null;
}

/** The words of a search with what they may have been meant as; null where nothing is forgiven of any. */
export function nearWords(words: readonly string[], vocabulary: Vocabulary): NearWord[] | null {
  const near = words.map((exact): NearWord => {
    const inches = /^(\d[\d./ ]*)in$/.exec(exact)?.[1];
    const others = [...vocabulary.near(exact), ...(inches === undefined ? [] : [inches])];
    const doubtful = besideDigit.test(exact) || (vocabulary.hasLookAlikes && /\d/.test(exact));
    return { exact, others, digits: doubtful && exact.length > 1 ? asDigits(exact) : null };
  });
  return near.some(({ others, digits }) => others.length > 0 || digits !== null) ? near : null;
}

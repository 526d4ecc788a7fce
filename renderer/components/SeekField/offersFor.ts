/** Something that can be named by its code, with the words that say what it is. */
export interface Offer {
  code: string;
  words: string;
}

const shownMost = 30;

/** What fits the words typed: all of them somewhere in code or words; codes that begin with them first. */
export function offersFor(offers: readonly Offer[], typed: string): Offer[] {
  const words = typed.trim().toLowerCase().split(/\s+/).filter(Boolean);
  const whole = words.join(' ');
  const first: Offer[] = [];
  const rest: Offer[] = [];
  for (const offer of offers) {
    const code = offer.code.toLowerCase();
    if (code.startsWith(whole)) first.push(offer);
    else if (rest.length < shownMost) {
      const text = `${code} ${offer.words.toLowerCase()}`;
      if (words.every((word) => text.includes(word))) rest.push(offer);
    }
    if (first.length >= shownMost) break;
  }
  return [...first, ...rest].slice(0, shownMost);
}

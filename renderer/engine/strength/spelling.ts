/** A name without spaces and case, its dashes those of the keyboard, "gr." and "property class" written out one way. */
export function squeezedName(name: string): string {
  return name
    .replace(/\s+/g, '')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .toUpperCase()
    .replace(/GRADE|GR\./g, 'GR')
    .replace('PROPERTYCLASS', 'CLASS');
}

/**
 * Every way a grade may be written: with or without its family where that is plain, with or without the word "class"; the word
 * "grade" is needed where a bare number would be left; a dash inside may be missing, a remark in brackets left out.
 */
export function spellingsOf(x: { prefixes: readonly string[]; word: string; grade: string }): ReadonlySet<string> {
  const words = x.word === 'class' ? ['', 'CLASS', 'CLASS-'] : x.word === 'grade' ? ['GR', '-', '-GR'] : [''];
  const bare = x.grade.replace(/ \(.*\)$/, '');
  const short = [x.grade, bare, bare.replace(' grade ', ' '), /[A-Z-]+-[\dA-Z-]+$/.exec(bare)?.[0] ?? bare];
  const forms = [...short, ...short.map((form) => form.replaceAll('-', ''))];
  return new Set(
    x.prefixes.flatMap((prefix) =>
      words.flatMap((word) => forms.map((form) => squeezedName(`${prefix}${word}${form}`))),
    ),
  );
}

/** Signs in codes that a person does not see, or takes for others. */

type Span = readonly [from: number, to: number];

/** What is not seen at all: joiners, fillers, marks of direction, variation selectors. */
const unseenSpans: readonly Span[] = [
  ...([
    [0xad, 0xad],
    [0x34f, 0x34f],
    [0x61c, 0x61c],
    [0x115f, 0x1160],
    [0x17b4, 0x17b5],
  ] as const),
  ...([
    [0x180b, 0x180f],
    [0x200b, 0x200f],
    [0x202a, 0x202e],
    [0x2060, 0x206f],
    [0x3164, 0x3164],
  ] as const),
  ...([
    [0xfe00, 0xfe0f],
    [0xfeff, 0xfeff],
    [0xffa0, 0xffa0],
    [0xe0000, 0xe01ef],
  ] as const),
];
const turningSpans: readonly Span[] = [
  ...([
    [0x61c, 0x61c],
    [0x200e, 0x200f],
    [0x202a, 0x202e],
    [0x2066, 0x2069],
  ] as const),
];
/** Blanks other than the usual one. */
const oddBlankSpans: readonly Span[] = [
  ...([
    [0x9, 0x9],
    [0xa0, 0xa0],
    [0x1680, 0x1680],
    [0x2000, 0x200a],
    [0x2028, 0x2029],
  ] as const),
  ...([
    [0x202f, 0x202f],
    [0x205f, 0x205f],
    [0x3000, 0x3000],
  ] as const),
];
const wideSpans: readonly Span[] = [[0xff01, 0xff5e]];

function isIn(spans: readonly Span[], sign: string): boolean {
  const point = sign.codePointAt(0) ?? 0;
  return spans.some(([from, to]) => point >= from && point <= to);
}

/**
 * Letters of other alphabets that look like Latin ones or digits: Cyrillic and Greek, by the shape they have in common
 * type; common practice, no source.
 */
const alike: Readonly<Record<string, string>> = Object.fromEntries(
  [
    ['АаΑα', 'a'],
    ['ВΒ', 'b'],
    ['СсϹϲ', 'c'],
    ['ԁ', 'd'],
    ['ЕеΕ', 'e'],
    ['ԌԍɡƓ', 'g'],
    ['НΗһҺ', 'h'],
    ['ІіΙιӀⅠ', '1'],
    ['ЈјϳЈ', 'j'],
    ['КкΚκ', 'k'],
    ['МмΜ', 'm'],
    ['ΝпԴ', 'n'],
    ['ОоΟοՕօ', '0'],
    ['РрΡρ', 'p'],
    ['ԚԛԐ', 'q'],
    ['Ѕѕ', 's'],
    ['ТтΤτ', 't'],
    ['Ѵѵν', 'v'],
    ['Ԝԝω', 'w'],
    ['ХхΧχ×', 'x'],
    ['УуΥγү', 'y'],
    ['Ζ', 'z'],
    ['З', '3'],
    ['б', '6'],
  ].flatMap(([signs = '', latin = '']) => [...signs].map((sign) => [sign, latin] as const)),
);

/**
 * What a code looks like: unseen signs gone, look-alike letters and wide forms one, 0 and O, 1 and l and I the same,
 * without case, blanks and dashes.
 *
 * @returns equal texts for codes that a person takes for one
 */
export function looksLike(code: string): string {
  let shape = '';
  for (const sign of code.normalize('NFKC')) {
    if (isIn(unseenSpans, sign)) continue;
    const latin = alike[sign];
    shape += latin ?? sign.toLowerCase();
  }
  return shape
    .normalize('NFD')
    .replaceAll(/\p{Mn}/gu, '')
    .replaceAll('o', '0')
    .replaceAll(/[il|]/g, '1')
    .replaceAll(/[\s_\-‐‑‒–—−.·/]+/gu, '');
}

/**
 * What of a code cannot be told by eye.
 *
 * @returns in words, each with its place from 1; an empty list where nothing
 */
export function oddSigns(code: string): string[] {
  const latin = /[A-Za-z]/.test(code);
  const found: string[] = [];
  let place = 0;
  for (const sign of code) {
    place += 1;
    const point = `U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
    if (isIn(turningSpans, sign))
      found.push(`place ${place}: an unseen sign that turns the direction of reading (${point})`);
    else if (isIn(unseenSpans, sign)) found.push(`place ${place}: an unseen sign (${point})`);
    else if (isIn(oddBlankSpans, sign)) found.push(`place ${place}: a blank that is no usual one (${point})`);
    else if (isIn(wideSpans, sign)) found.push(`place ${place}: “${sign}” in its wide form (${point})`);
    else if (alike[sign] !== undefined && sign !== '×' && (latin || /\d/.test(code)))
      found.push(`place ${place}: “${sign}” of another alphabet, which looks like a Latin sign (${point})`);
  }
  return found;
}

/** How far a text runs in the sheet's face, so that lines are broken where the page breaks them. */

/**
 * Advance widths in hundredths of the size, rounded up, of the signs from the blank to "~" and of `others`, in the face that
 * the cards carry (Atkinson Hyperlegible Next, variable, with figures of one width). Measured in the installed Chromium on a
 * printed card; the test of the printed cards holds every text of a PDF against them.
 */
const others = '·×°–≤≥⌀±√';
const regular =
  '28 29 31 66 60 92 74 16 30 30 49 61 21 37 21 39 64 64 64 64 64 64 64 64 64 64 21 21 56 63 56 48 ' +
  '78 63 62 65 67 57 56 70 70 40 52 64 55 83 70 72 60 73 62 60 56 69 60 86 63 58 61 32 39 35 56 38 ' +
  '25 53 57 49 57 54 32 56 55 26 25 50 27 85 55 55 57 58 35 48 33 54 47 69 49 45 46 35 24 35 56 24 ' +
  '54 36 51 58 58 58 58 68';
const bold =
  '31 30 38 75 61 97 73 21 33 33 49 60 27 38 27 44 64 64 64 64 64 64 64 64 64 64 27 27 57 62 57 54 ' +
  '79 67 64 66 69 60 57 72 70 42 56 66 55 86 72 75 63 76 65 61 60 69 64 89 68 64 62 34 44 35 58 40 ' +
  '29 55 60 51 60 56 36 59 57 30 26 55 31 88 57 58 60 60 38 51 37 57 52 74 54 51 50 38 26 38 54 29 ' +
  '54 39 51 58 58 58 61 68';

const tableOf = (widths: string): ReadonlyMap<string, number> =>
  new Map(
    widths
      .split(' ')
      .map((width, at) => [at < 95 ? String.fromCodePoint(32 + at) : (others[at - 95] ?? ''), Number(width)]),
  );

const tables = { regular: tableOf(regular), bold: tableOf(bold) };

export type Weight = keyof typeof tables;

/** Signs of other scripts are taken as wide as they are high. */
const otherwise = 100;

/** Width of a text on one line, in the measure of its size. */
export function faceWidth(text: string, size: number, weight: Weight = 'regular'): number {
  let hundredths = 0;
  for (const sign of text) hundredths += tables[weight].get(sign) ?? otherwise;
  return (hundredths * size) / 100;
}

/** Lines that a text takes in a width: broken at blanks, a word too long for a line where the line ends. */
export function faceLines(
  text: string,
  { size, width, weight = 'regular' }: { size: number; width: number; weight?: Weight },
): number {
  const blank = faceWidth(' ', size, weight);
  let lines = 1;
  let at = 0;
  for (const word of text.split(' ')) {
    const own = faceWidth(word, size, weight);
    if (at > 0 && at + blank + own > width) {
      lines += 1;
      at = own;
    } else at += (at > 0 ? blank : 0) + own;
    for (; at > width; at -= width) lines += 1;
  }
  return lines;
}

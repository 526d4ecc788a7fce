import { attribute, scanXml } from './scanXml.ts';

/** Formats every spreadsheet knows by number that show a date or a time (ECMA-376-1, 18.8.30; from memory). */
const builtIn = new Set([14, 15, 16, 17, 18, 19, 20, 21, 22, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 45, 46, 47]);
for (let number = 50; number <= 58; number += 1) builtIn.add(number);

/**
 * Which styles of a workbook show a number as a date or a time.
 *
 * @param xml - its part for styles
 * @returns by the style's number
 */
export function dateStyles(xml: string): boolean[] {
  const custom = new Map<number, boolean>();
  const styles: boolean[] = [];
  let isInCells = false;
  scanXml(xml, 'styles', {
    open(name, attributes) {
      if (name === 'cellXfs') isInCells = true;
      else if (name === 'numFmt')
        custom.set(Number(attribute(attributes, 'numFmtId')), showsDate(attribute(attributes, 'formatCode') ?? ''));
      else if (name === 'xf' && isInCells) {
        const format = Number(attribute(attributes, 'numFmtId') ?? '0');
        styles.push(custom.get(format) ?? builtIn.has(format));
      }
    },
    close(name) {
      if (name === 'cellXfs') isInCells = false;
    },
  });
  return styles;
}

/** Whether a format's code has a letter for a day, a month, a year or a time outside of quoted texts and colours. */
function showsDate(code: string): boolean {
  const bare = code
    .slice(0, 255)
    .replace(/"[^"]*"?/g, '')
    .replace(/\\.|_.|\*./g, '')
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]?/gi, '');
  return /[dmyhs]/i.test(bare.replace(/general/gi, ''));
}

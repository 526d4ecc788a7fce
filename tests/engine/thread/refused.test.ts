import fc from 'fast-check';
import { expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { shareOf } from '../../support/shareOf.ts';

/** Typed text, code, the character reading stopped at, what the message must say. */
const refused: [string, string, number, RegExp][] = [
  ['', 'unreadable-thread', 0, /empty/],
  ['banana', 'unreadable-thread', 0, /begin with a size/],
  ['M', 'unreadable-thread', 1, /no readable diameter/],
  ['Mx1.5', 'unreadable-thread', 1, /no readable diameter/],
  ['M10x', 'unreadable-thread', 3, /no readable pitch/],
  ['M10x1,25', 'unreadable-thread', 3, /no readable pitch/],
  ['M10,5', 'unreadable-thread', 1, /no readable diameter/],
  ['M16xL3P1.5', 'unreadable-thread', 3, /several starts/],
  ['M9', 'not-held', 2, /no coarse pitch for M9/],
  ['M10.5', 'not-held', 5, /no coarse pitch for M10\.5/],
  ['MJ10x1.5', 'not-held', 0, /MJ/],
  ['M5x6', 'out-of-range', 2, /pitch of 6 mm on a diameter of 5 mm/],
  ['M5x5', 'out-of-range', 2, /more than half the diameter/],
  ['M10x5.01', 'out-of-range', 3, /pitch of 5\.01 mm on a diameter of 10 mm/],
  ['M10x0', 'out-of-range', 3, /finer than/],
  ['M300.5x6', 'out-of-range', 1, /outside 1 to 300 mm/],
  ['M10x0.01', 'out-of-range', 3, /finer than 0\.2 mm/],
  ['M0', 'out-of-range', 1, /outside 1 to 300 mm/],
  ['M1000x2', 'out-of-range', 1, /outside 1 to 300 mm/],
  ['M10x1.5-6z', 'unreadable-thread', 8, /from "6z" on/],
  ['M10x1.5 6g 6g', 'unreadable-thread', 10, /class twice/],
  ['M10x1.5 LH RH', 'unreadable-thread', 10, /hand twice/],
  ['M10x1.5 UNC', 'unreadable-thread', 8, /from "UNC" on/],
  ['1/4', 'unreadable-thread', 3, /no threads per inch/],
  ['10', 'unreadable-thread', 2, /no threads per inch/],
  ['1-1/8', 'unreadable-thread', 5, /no threads per inch/],
  ['1/4-', 'unreadable-thread', 3, /no threads per inch/],
  ['1/4-20.5.5', 'unreadable-thread', 3, /no threads per inch/],
  ['1/0-20', 'unreadable-thread', 0, /fraction that is none/],
  ['1-9/8-20', 'unreadable-thread', 0, /fraction that is none/],
  ['1/4-28 UNC', 'contradiction', 7, /UNC and 28.*UNC with 20, UNF with 28/],
  ['1/4-20 UNF', 'contradiction', 7, /UNF and 20/],
  ['1/4-28 UNJC-3A', 'contradiction', 7, /UNJC and 28/],
  ['1/4-28 UNEF', 'contradiction', 7, /UNEF and 28/],
  ['1/4-20 UNS', 'contradiction', 7, /UNS and 20/],
  ['1/4-32 UNEF-2A', 'not-held', 7, /extra-fine series is not held.*"1\/4-32 UNS" or "1\/4-32"/],
  ['1/4-27 UNEF', 'not-held', 7, /says UNEF, and the extra-fine series is not held/],
  ['1/4-36UNREF', 'not-held', 6, /says UNREF.*"1\/4-36 UNS" or "1\/4-36"/],
  ['1/4-32 UNJEF-3A', 'not-held', 7, /says UNJEF.*"1\/4-32 UNJS" or "1\/4-32 UNJ"/],
  ['2-16 unef', 'not-held', 5, /"2\.0-16 UNS" or "2\.0-16"/],
  ['1/4-27 UNF', 'contradiction', 7, /UNF and 27/],
  ['1-8 UNF', 'contradiction', 4, /UNF and 8/],
  ['10-24UNF', 'contradiction', 5, /UNF and 24/],
  ['2-4.5 UNC', 'not-held', 6, /no series is held for 2 in/],
  ['#9-40', 'not-held', 0, /holds 0, 1, 2, 3, 4, 5, 6, 8, 10, 12/],
  ['00-90', 'not-held', 0, /number size 00; .* holds 0, 1/],
  ['#00-90', 'not-held', 0, /number size 00;/],
  ['No. 00-96', 'not-held', 0, /number size 00;/],
  ['000-120', 'not-held', 0, /number size 000;/],
  ['#000-120 UNF', 'not-held', 0, /number size 000;/],
  ['00-1/8-12', 'not-held', 0, /number size 00;/],
  ['#01-64', 'unreadable-thread', 0, /number size 01: .*"1"/],
  ['  No. 010-32 UNF', 'unreadable-thread', 2, /number size 010: .*"10"/],
  ['01-64', 'unreadable-thread', 0, /01: .*"1"/],
  ['01-8', 'unreadable-thread', 0, /01: .*"1"/],
  ['08"-8', 'unreadable-thread', 0, /08: .*"8"/],
  ['#100-32', 'not-held', 0, /number size 100;/],
  ['01/4-20', 'unreadable-thread', 0, /begin with a size/],
  ['0-1/4-20', 'unreadable-thread', 1, /no threads per inch after the size 0/],
  ['4-20', 'unreadable-thread', 0, /"No\. 4-20" or "4\.0-20"/],
  ['6-20', 'unreadable-thread', 0, /"No\. 6-20" or "6\.0-20"/],
  ['1-8/8-12', 'unreadable-thread', 0, /fraction that is none/],
  ['1/4-0', 'out-of-range', 3, /0 threads an inch/],
  ['1/4-999', 'out-of-range', 3, /999 threads an inch/],
  ['1/4-1', 'out-of-range', 3, /more than half the diameter/],
  ['1/4-3.5', 'out-of-range', 3, /pitch of 7\.25714 mm on a diameter of 6\.35 mm/],
  ['#0-128', 'out-of-range', 2, /128 threads an inch; 1 to 127/],
  ['6.01-4', 'out-of-range', 0, /outside 0\.06 to 6 in/],
  ['8.5-8', 'out-of-range', 0, /outside 0\.06 to 6 in/],
  ['0.01-80', 'out-of-range', 0, /outside 0\.06 to 6 in/],
  ['1/4-28 UNF-4A', 'unreadable-thread', 11, /from "4A" on/],
  ['1/4-28 UNF-3A ?', 'unreadable-thread', 14, /from "\?" on/],
  ['1/4-28 UNX', 'unreadable-thread', 7, /from "UNX" on/],
  ['1/4 28 UNF', 'unreadable-thread', 3, /no threads per inch/],
  ['¼-20', 'unreadable-thread', 0, /begin with a size/],
  ['-1/4-20', 'unreadable-thread', 0, /begin with a size/],
];

function refusalOf(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

it.each(refused)('%j is refused as %s at %d', (typed, code, position, words) => {
  const refusal = refusalOf(() => readThread(typed));
  expect(refusal).toMatchObject({ code, position, value: typed });
  expect(refusal.message).toMatch(words);
});

it('a long text and what is no text are refused', () => {
  expect(refusalOf(() => readThread(`M10${' '.repeat(1e6)}`)).code).toBe('unreadable-thread');
  const text = `M10${' '.repeat(78)}`;
  expect(readThread(text.slice(0, 80)).majorMm).toBe(10);
  expect(refusalOf(() => readThread(text))).toMatchObject({ position: 0, value: `M10${' '.repeat(37)}…` });
  // @ts-expect-error what a JSON file holds is not known to be a text
  expect(refusalOf(() => readThread(10))).toMatchObject({ code: 'unreadable-thread', position: 0, value: 10 });
});

it('whatever is typed is read or refused, and what is read has sizes that can be', () => {
  const pieces = fc.constantFrom(
    'M',
    '1',
    '10',
    '1/4',
    '-',
    '.',
    '28',
    'x',
    ' ',
    'UNF',
    'UNJ',
    '3A',
    'LH',
    '#',
    '6g',
    '0',
    '1.5',
    '"',
    '/',
  );
  fc.assert(
    fc.property(
      fc.oneof(
        fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join('')),
        fc.string(),
      ),
      (typed) => {
        try {
          const read = readThread(typed);
          return (
            read.pitchMm > 0 &&
            read.pitchMm < read.majorMm &&
            read.minorDiameterMm > 0 &&
            (read.rootDiameterMm === null || (read.rootDiameterMm > 0 && read.rootDiameterMm < read.minorDiameterMm)) &&
            read.stressAreaMm2 > 0 &&
            readThread(read.designation).designation === read.designation
          );
        } catch (error) {
          return error instanceof RefusedError && error.refusal.position !== undefined;
        }
      },
    ),
    { numRuns: shareOf(20_000), seed: 21 },
  );
});

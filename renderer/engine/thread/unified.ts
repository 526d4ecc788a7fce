import { threadTables } from '../handbook/threads.ts';
import { convertValue } from '../units/index.ts';
import type { Cursor } from './cursor.ts';
import { refuseImpossible } from './possible.ts';
import { minorDiameterMm, pitchDiameterMm, unrRootDiameterIn } from './profile.ts';
import { unifiedStressAreaIn2 } from './stressArea.ts';
import { readTail } from './tail.ts';
import type { Series, Thread } from './thread.ts';
import { decideSize, takeSize, unifiedRange, type UnifiedSize } from './unifiedSize.ts';

const held = threadTables['unified-series-asme-b1.1'];

/**
 * 1/4-28 UNF-3A, .2500-28 UNJF-3A, #10-32, No. 8-32, 1-1/8-12 UNF, 5/8-11 UNC-2B LH.
 *
 * @throws RefusedError as readThread says
 */
export function readUnified(at: Cursor): Thread {
  const typed = takeSize(at);
  if (typed === undefined) throw at.refuse('does not begin with a size, as "M10x1.25", "1/4-28" or "No. 10-32" do.');
  const pitchAt = at.index;
  const threads = at.take(/\s*-\s*(?<text>\d{1,3}(?:\.\d+)?)(?![\d./])/)?.['text'];
  if (threads === undefined) {
    throw at.refuse(`has no threads per inch after the size ${typed.name}: write them as "${typed.name}-20".`);
  }
  const threadsPerInch = Number(threads);
  if (threadsPerInch === 0 || threadsPerInch > unifiedRange.threadsPerInchMax) {
    throw at.refuse(
      `has ${threadsPerInch} threads an inch; 1 to ${unifiedRange.threadsPerInchMax} are read.`,
      'out-of-range',
      pitchAt,
    );
  }
  const size = decideSize(at, typed, threadsPerInch);
  refuseSize(at, size, typed.position);
  const basic = { majorMm: convertValue(size.majorIn, 'in', 'mm'), pitchMm: 25.4 / threadsPerInch };
  refuseImpossible(at, basic, pitchAt);
  const { series, statedAs, isJ } = readSeries(at, size, threadsPerInch);
  const tail = readTail(at, /(?<class>[123][ABab])/);
  const inches = { majorIn: size.majorIn, threadsPerInch };
  const threadClass = tail.class === null ? null : tail.class.toUpperCase();
  return {
    designation: designationOf(size, threadsPerInch, statedAs, threadClass, tail.hand),
    system: 'unified',
    series,
    ...basic,
    threadsPerInch,
    pitchDiameterMm: pitchDiameterMm(basic),
    minorDiameterMm: minorDiameterMm(basic),
    rootDiameterMm: isJ ? null : convertValue(unrRootDiameterIn(inches), 'in', 'mm'),
    stressAreaMm2: convertValue(unifiedStressAreaIn2(inches), 'in2', 'mm2'),
    hand: tail.hand,
    class: threadClass,
    size: size.name,
  };
}

function refuseSize(at: Cursor, size: UnifiedSize, position: number): void {
  if (size.majorIn >= unifiedRange.majorMinIn && size.majorIn <= unifiedRange.majorMaxIn) return;
  throw at.refuse(
    `has a diameter of ${size.majorIn} in, outside ${unifiedRange.majorMinIn} to ${unifiedRange.majorMaxIn} in, the sizes of ASME B1.1.`,
    'out-of-range',
    position,
  );
}

/**
 * The series by the tables, checked against the one stated. UN says no more than the profile; UNS and UNEF say that the pitch is
 * neither coarse nor fine. UNS is then reported as special; UNEF is one pitch for each size, and without its table none can be
 * confirmed.
 */
function readSeries(
  at: Cursor,
  size: UnifiedSize,
  threadsPerInch: number,
): { series: Series; statedAs: string; isJ: boolean } {
  const row = held.rows.find(
    (candidate) => candidate.major_diameter_in === size.majorIn && candidate.threads_per_inch === threadsPerInch,
  );
  const start = at.index;
  const parts = at.take(/(?:\s+|-|)UN(?<j>J?)(?<root>R?)(?<pitch>C|F|EF|S|)(?![A-Za-z])/i);
  const isJ = (parts?.['j'] ?? '') !== '';
  if (parts === undefined || (parts['pitch'] ?? '') === '') {
    const series = row === undefined ? 'special' : seriesName(row.series, isJ);
    return { series, statedAs: series !== 'special' ? series : isJ ? 'UNJ' : '', isJ };
  }
  const pitch = (parts['pitch'] ?? '').toUpperCase();
  const isTabled = pitch === 'C' || pitch === 'F';
  const agrees = isTabled ? row?.series === `UN${pitch}` : row === undefined;
  if (!agrees) throw contradiction(at, size, threadsPerInch, `UN${isJ ? 'J' : ''}${pitch}`, start);
  if (pitch === 'EF') throw extraFine(at, size, threadsPerInch, isJ, start);
  return isTabled
    ? { series: seriesName(`UN${pitch}`, isJ), statedAs: seriesName(`UN${pitch}`, isJ), isJ }
    : { series: 'special', statedAs: `UN${isJ ? 'J' : ''}${pitch}`, isJ };
}

function seriesName(tabled: string, isJ: boolean): Series {
  if (tabled === 'UNC') return isJ ? 'UNJC' : 'UNC';
  if (tabled === 'UNF') return isJ ? 'UNJF' : 'UNF';
  return 'special';
}

function contradiction(at: Cursor, size: UnifiedSize, threadsPerInch: number, stated: string, start: number) {
  const rows = held.rows.filter((row) => row.major_diameter_in === size.majorIn);
  const known = rows.map((row) => `${row.series} with ${row.threads_per_inch}`).join(', ');
  const name = size.isNumber ? `number ${size.name}` : `${size.name} in`;
  return at.refuse(
    `says ${stated} and ${threadsPerInch} threads an inch; ${
      rows.length === 0 ? `no series is held for ${name}` : `${held.source.number} has ${name} as ${known}`
    }.`,
    rows.length === 0 ? 'not-held' : 'contradiction',
    seriesAt(at, start),
  );
}

function extraFine(at: Cursor, size: UnifiedSize, threadsPerInch: number, isJ: boolean, start: number) {
  const profile = isJ ? 'UNJ' : 'UN';
  const special = designationOf(size, threadsPerInch, `${profile}S`, null, 'right');
  const bare = designationOf(size, threadsPerInch, isJ ? profile : '', null, 'right');
  return at.refuse(
    `says ${at.text.slice(seriesAt(at, start), at.index).toUpperCase()}, and the extra-fine series is not held: ` +
      `that it has ${threadsPerInch} threads an inch cannot be confirmed. Write "${special}" or "${bare}" for a thread of that pitch.`,
    'not-held',
    seriesAt(at, start),
  );
}

/** Where the series itself begins: a dash or blanks may stand before it. */
function seriesAt(at: Cursor, start: number): number {
  return start + (/^(?:\s+|-)/.exec(at.text.slice(start))?.[0].length ?? 0);
}

function designationOf(
  size: UnifiedSize,
  threadsPerInch: number,
  series: string,
  threadClass: string | null,
  hand: 'right' | 'left',
): string {
  // A whole number without a held series may be a number size or inches: it is written so that it reads back as meant.
  const plain = /^\d+$/.test(size.name) && !/[CF]$/.test(series);
  const name = !plain ? size.name : size.isNumber ? `No. ${size.name}` : `${size.name}.0`;
  const after = [series, threadClass].filter((part) => part !== null && part !== '').join('-');
  const separator = after === '' ? '' : series === '' ? '-' : ' ';
  return `${name}-${threadsPerInch}${separator}${after}${hand === 'left' ? ' LH' : ''}`;
}

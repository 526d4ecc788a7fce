import { threadTables } from '../handbook/threads.ts';
import type { Cursor } from './cursor.ts';
import { refuseImpossible } from './possible.ts';
import { isoRootDiameterMm, minorDiameterMm, pitchDiameterMm } from './profile.ts';
import { metricStressAreaMm2 } from './stressArea.ts';
import { readTail } from './tail.ts';
import type { Series, Thread } from './thread.ts';

const held = threadTables['pitches-iso-262'];

/** ISO 261 lists diameters from 1 to 300 mm and no pitch below 0.2 mm (memory). */
const metricRange = { majorMinMm: 1, majorMaxMm: 300, pitchMinMm: 0.2 };

/**
 * M10, M10x1.25, M10×1.25-6g, M10 x 1.5 LH.
 *
 * @throws RefusedError as readThread says
 */
export function readMetric(at: Cursor): Thread {
  const majorAt = at.index;
  const major = at.take(/\s*(?<text>\d+(?:\.\d+)?|\.\d+)(?![\d.,])/)?.['text'];
  if (major === undefined) throw at.refuse('has no readable diameter after "M": write it as "M10" or "M10x1.25".');
  const majorMm = Number(major);
  const pitchAt = at.index;
  const stated = at.take(/\s*[xX×*]\s*(?<text>\d+(?:\.\d+)?|\.\d+)(?![\d.,])/)?.['text'];
  if (stated === undefined && /^\s*[xX×*]/.test(at.rest)) {
    throw at.refuse(
      'has no readable pitch after "x": write it in millimetres, as "M10x1.25"; threads of several starts are not read.',
    );
  }
  const size = `M${majorMm}`;
  if (majorMm < metricRange.majorMinMm || majorMm > metricRange.majorMaxMm) {
    throw at.refuse(
      `has a diameter of ${majorMm} mm, outside ${metricRange.majorMinMm} to ${metricRange.majorMaxMm} mm, the sizes of ISO 261.`,
      'out-of-range',
      majorAt,
    );
  }
  const pitchMm = stated === undefined ? coarsePitchMm(at, size) : Number(stated);
  if (pitchMm < metricRange.pitchMinMm) {
    throw at.refuse(
      `has a pitch of ${pitchMm} mm, finer than ${metricRange.pitchMinMm} mm, the finest of ISO 261.`,
      'out-of-range',
      pitchAt,
    );
  }
  refuseImpossible(at, { majorMm, pitchMm }, pitchAt);
  const tail = readTail(at, metricClass);
  const basic = { majorMm, pitchMm };
  const diameters = { pitchDiameterMm: pitchDiameterMm(basic), rootDiameterMm: isoRootDiameterMm(basic) };
  return {
    designation: `${size}x${pitchMm}${tail.class === null ? '' : `-${tail.class}`}${tail.hand === 'left' ? ' LH' : ''}`,
    system: 'metric',
    series: seriesOf(size, pitchMm),
    majorMm,
    pitchMm,
    threadsPerInch: null,
    pitchDiameterMm: diameters.pitchDiameterMm,
    minorDiameterMm: minorDiameterMm(basic),
    rootDiameterMm: diameters.rootDiameterMm,
    stressAreaMm2: metricStressAreaMm2(diameters),
    hand: tail.hand,
    class: tail.class,
    size,
  };
}

/** Grade and position of the pitch and crest diameters, for one thread or for a fit: 6g, 5g6g, 6H/6g; length group S, N or L. */
const metricClass = /(?<class>\d[a-hA-H](?:\d[a-hA-H])?(?:\/\d[a-hA-H](?:\d[a-hA-H])?)?(?:-[SNL](?![A-Za-z]))?)/;

function coarsePitchMm(at: Cursor, size: string): number {
  const row = held.rows.find((candidate) => candidate.thread === size);
  if (row !== undefined) return row.pitch_coarse_mm;
  throw at.refuse(
    `has no pitch, and ${held.source.number} holds no coarse pitch for ${size}: write the pitch, as "${size}x1".`,
    'not-held',
  );
}

function seriesOf(size: string, pitchMm: number): Series {
  const row = held.rows.find((candidate) => candidate.thread === size);
  if (row === undefined) return 'special';
  if (row.pitch_coarse_mm === pitchMm) return 'coarse';
  return row.pitch_fine_1_mm === pitchMm || row.pitch_fine_2_mm === pitchMm ? 'fine' : 'special';
}

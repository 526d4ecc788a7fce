import { atLeast, atMost } from '../tolerance.ts';

/** The sizes a row of a strength table is for. */
export interface SizeRange {
  system: 'metric' | 'unified';
  minMm: number;
  maxMm: number;
  /** True for "d>16 mm": the lower end itself is not of the range. */
  isMinOpen: boolean;
  /** As a person reads it: "1/4 to 1-1/2 in". */
  text: string;
}

/** ISO 898-1 and ISO 3506-1 cover metric threads from M1.6 to M39 (memory); the tables held say "all" or nothing. */
export const isoScope: SizeRange = {
  system: 'metric',
  minMm: 1.6,
  maxMm: 39,
  isMinOpen: false,
  text: 'M1.6 to M39 (the scope of the standard, from memory)',
};

/**
 * The range a table prints in words.
 *
 * @param printed - "all", "d<=16 mm", "d>16 mm", "M5-M36"
 * @returns the range, inside the scope of the standard
 */
export function metricRange(printed: string): SizeRange {
  const atMostMm = /^d<=(?<mm>[\d.]+) mm$/.exec(printed)?.groups?.['mm'];
  if (atMostMm !== undefined) {
    return { ...isoScope, maxMm: Number(atMostMm), text: `M${isoScope.minMm} to M${atMostMm}` };
  }
  const aboveMm = /^d>(?<mm>[\d.]+) mm$/.exec(printed)?.groups?.['mm'];
  if (aboveMm !== undefined) {
    return {
      ...isoScope,
      minMm: Number(aboveMm),
      isMinOpen: true,
      text: `above M${aboveMm}, to M${isoScope.maxMm}`,
    };
  }
  const ends = /^M(?<min>[\d.]+)-M(?<max>[\d.]+)$/.exec(printed)?.groups;
  if (ends === undefined) return isoScope;
  const { min = '', max = '' } = ends;
  return {
    system: 'metric',
    minMm: Number(min),
    maxMm: Number(max),
    isMinOpen: false,
    text: `M${min} to M${max}`,
  };
}

/**
 * The range a table of inch grades prints.
 *
 * @param printed - "1/4-1", "1/4-1-1/2", "1-1/8-1-1/2", "1-3/4-3": a dash joins the whole inches to their fraction, and the two ends
 */
export function inchRange(printed: string): SizeRange {
  const ends = /^(?<min>(?:\d+-)?\d+\/\d+|\d+)-(?<max>(?:\d+-)?\d+\/\d+|\d+)$/.exec(printed)?.groups;
  const { min = '', max = '' } = ends ?? {};
  return {
    system: 'unified',
    minMm: inchesOf(min) * 25.4,
    maxMm: inchesOf(max) * 25.4,
    isMinOpen: false,
    text: `${min} to ${max} in`,
  };
}

/** Whether a thread of this diameter is in the range, its ends included within the tolerance. */
export function holdsSize(range: SizeRange, majorMm: number): boolean {
  const fromBelow = range.isMinOpen ? !atMost(majorMm, range.minMm) : atLeast(majorMm, range.minMm);
  return fromBelow && atMost(majorMm, range.maxMm);
}

/** "1-1/2" as 1.5. */
function inchesOf(text: string): number {
  return text
    .split('-')
    .map((part) => {
      const [top = '', bottom = '1'] = part.split('/');
      return Number(top) / Number(bottom);
    })
    .reduce((sum, part) => sum + part, 0);
}

import type { PublishedTolerance } from '../../../shared-types/callout.ts';
import type { Citation } from '../../../shared-types/handbook.ts';
import { tablesByDocument } from '../handbook/documents.ts';
import type { Thread } from '../thread/index.ts';
import { convertValue, type Unit } from '../units/index.ts';
import { heldBands, type HeldBand } from './heldBands.ts';
import { isPrintedSize, isPrintedThread, matchNotes, type Matched } from './printedThread.ts';

export interface TorqueBand {
  condition: string;
  minNm: number | null;
  maxNm: number | null;
  /** The band with the tolerance that the document states for its values; absent where it states none. */
  tolerance?: PublishedTolerance;
  printed: { thread: string; min: number | null; max: number | null; unit: Unit };
  matched: Matched;
  /** What the match passed over, and what the row itself is flagged with. */
  notes: string[];
  /** What the table says of all its rows. */
  tableNotes: string;
  source: Citation;
}

/**
 * Every published torque band held for a thread; no value between two printed sizes, none beyond them.
 *
 *   T [N·m] = T as printed · the exact size of its unit
 *
 * @param x.thread - as readThread gives it
 * @param x.document - number of one document, as a person writes it
 * @returns the bands in the order of the tables; a single printed value is both ends; null where the source prints the other end
 *   alone (a greatest allowable torque); none where no table has the size
 * @throws RefusedError not-held where the document is not held or prints no torque against size, naming those that do
 * @source torque-* tables in data/SOURCES.md: FAA AC 43.13-1B, NASA TM-106943, TM 55-1520-240-23-1, TM 10-4320-346-12&P,
 *   TM 9-2320-362-14&P
 * @validity diameter and pitch as printed; where a table prints no pitches, the diameter, and the band says so. Neither thread form
 *   (UNJ) nor hand is printed anywhere: a match that passes over them says so.
 * @example torqueBands({ thread: readThread('1/4-28') })[0] // 50 to 70 lbf·in, tension nut, FAA AC 43.13-1B
 */
export function torqueBands(x: { thread: Thread; document?: string }): TorqueBand[] {
  const { document } = x;
  const tables = new Set(document === undefined ? tablesWithBands : tablesByDocument(document, tablesWithBands));
  return heldBands
    .filter((band) => tables.has(band.table) && isFor(band, x.thread))
    .map((band) => inNm(band, x.thread));
}

const tablesWithBands = [...new Set(heldBands.map((band) => band.table))];

function isFor(band: HeldBand, thread: Thread): boolean {
  return (band.matched === 'thread' ? isPrintedThread : isPrintedSize)(band.size, thread);
}

function inNm(band: HeldBand, thread: Thread): TorqueBand {
  const { min, max, unit } = band;
  const minNm = min === null ? null : convertValue(min, unit, 'N·m');
  const maxNm = max === null ? null : convertValue(max, unit, 'N·m');
  return {
    condition: band.condition,
    minNm,
    maxNm,
    ...toleranceOf(band.tolerancePercent, minNm, maxNm),
    printed: { thread: band.printedAs, min, max, unit },
    matched: band.matched,
    notes: [...band.notes, ...matchNotes(band.matched, thread)],
    tableNotes: band.table.notes,
    source: band.citation,
  };
}

/** Least and greatest of a value kept to within the percentage that its document states. */
function toleranceOf(
  percent: number | null,
  minNm: number | null,
  maxNm: number | null,
): Pick<TorqueBand, 'tolerance'> {
  if (percent === null || minNm === null || maxNm === null) return {};
  return { tolerance: { percent, minNm: minNm * (1 - percent / 100), maxNm: maxNm * (1 + percent / 100) } };
}

import type { Citation } from '../../../shared-types/handbook.ts';
import { readThread } from '../thread/index.ts';
import { torqueBands, type TorqueBand } from '../torqueTable/index.ts';

/** One end of everything published for a thread, as its table prints it. */
export interface PublishedEnd {
  nm: number;
  /** Number and unit as printed: "25 lbf·in". */
  printed: string;
  /** By diameter alone where the table prints no pitches. */
  matched: TorqueBand['matched'];
  source: Citation;
}

export interface PublishedSpan {
  least: PublishedEnd;
  greatest: PublishedEnd;
  /** Every table with a value for the thread, each once. */
  sources: Citation[];
}

/**
 * From the least to the greatest torque published for a thread, over every document that has it.
 *
 *   [min over bands of their minimum, max over bands of their maximum]
 *
 * @param thread - designation
 * @returns both ends [N·m] with their prints and sources; null where no table has the thread
 * @throws RefusedError as readThread does
 * @source torque-* tables in data/SOURCES.md
 * @validity says in which order of size a torque of this thread lies, whatever strength and lubricant; it is no limit, and nothing
 *   to tighten to
 * @example publishedSpan('1/4-28')?.greatest.printed // '10 lbf·ft', TM 9-2320-362-14&P
 */
export function publishedSpan(thread: string): PublishedSpan | null {
  const bands = torqueBands({ thread: readThread(thread) });
  const ends = bands.flatMap((band) => [endOf(band, 'min') ?? [], endOf(band, 'max') ?? []].flat());
  const [least, ...others] = ends.toSorted((a, b) => a.nm - b.nm);
  if (least === undefined) return null;
  return {
    least,
    greatest: others.at(-1) ?? least,
    sources: [...new Map(bands.map(({ source }) => [source.key, source])).values()],
  };
}

/** Null where the source prints the other end alone. */
function endOf({ minNm, maxNm, printed, matched, source }: TorqueBand, end: 'min' | 'max'): PublishedEnd | null {
  const nm = end === 'min' ? minNm : maxNm;
  return nm === null ? null : { nm, printed: `${String(printed[end])} ${printed.unit}`, matched, source };
}

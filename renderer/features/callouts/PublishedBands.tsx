import type { PublishedTolerance } from '../../../shared-types/callout.ts';
import type { CalloutLook } from '../../../shared-types/inspection.ts';
import { atLeast, atMost } from '../../engine/tolerance.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { limitShown } from '../bench/shown.ts';
import { countOf } from '../steps/words.ts';
import { spanShown } from './torqueWords.ts';

const shownMost = 8;

/** What the documents print for the thread, side by side and to one scale, with the callout as a strip behind; which rules is a person's choice. */
export function PublishedBands({ look, unit, units }: { look: CalloutLook; unit: Unit; units: UnitsShown }) {
  const { row, bands } = look;
  if (row === null) return null;
  if (bands.length === 0)
    return <p className="bw-second bw-small">No published torque band is held for {row.computed.thread}.</p>;
  const { calloutNm } = row.computed;
  const agreeing = new Set(row.computed.bands.agreeing);
  const sorted = bands
    .map((band, at) => ({ ...band, agrees: agreeing.has(at) }))
    .toSorted((a, b) => Number(b.agrees) - Number(a.agrees));
  const most = 1.08 * Math.max(calloutNm.max, ...sorted.map(({ minNm, maxNm }) => maxNm ?? minNm ?? 0));
  const share = (nm: number): number => (100 * nm) / most;
  const line = (band: (typeof sorted)[number]) => {
    const { document, table, condition, minNm, maxNm, tolerance, matched, agrees } = band;
    const [from, to] = [share(minNm ?? 0), share(maxNm ?? most)];
    return (
      <li key={`${document} ${table} ${condition} ${minNm} ${maxNm}`}>
        <span>
          <b>{document}</b>, {table}
          <br />
          <span className="bw-second">
            {condition}
            {tolerance === undefined ? '' : `, a tolerance of ${showNumber(tolerance.percent)} % stated for it`}
            {matched === 'diameter' ? ', by diameter alone' : ''}
          </span>
        </span>
        <svg viewBox="0 0 100 16" preserveAspectRatio="none" aria-hidden="true">
          <rect
            className="bw-published-callout"
            x={share(calloutNm.min)}
            width={Math.max(0.4, share(calloutNm.max) - share(calloutNm.min))}
            height="16"
          />
          <rect className="bw-published-band" x={from} y="4" width={Math.max(0.6, to - from)} height="8" />
        </svg>
        <span className="bw-published-said">
          {minNm === null && maxNm !== null
            ? `at most ${limitShown(maxNm, 'maximum', 'N·m', unit, units)}`
            : maxNm === null && minNm !== null
              ? `at least ${limitShown(minNm, 'minimum', 'N·m', unit, units)}`
              : spanShown({ min: minNm ?? 0, max: maxNm ?? 0 }, unit, units)}
          <br />
          <span className="bw-second">{agrees ? 'callout inside' : keepsTo(calloutNm, tolerance)}</span>
        </span>
      </li>
    );
  };
  return (
    <>
      <ul className="bw-published">{sorted.slice(0, shownMost).map(line)}</ul>
      {sorted.length <= shownMost ? null : (
        <details>
          <summary>{countOf(sorted.length - shownMost, 'more band')}</summary>
          <ul className="bw-published">{sorted.slice(shownMost).map(line)}</ul>
        </details>
      )}
    </>
  );
}

/** A callout may be wider than a single value and still keep to what its document allows around it. */
function keepsTo({ min, max }: { min: number; max: number }, tolerance: PublishedTolerance | undefined): string {
  const keeps = tolerance !== undefined && atLeast(min, tolerance.minNm) && atMost(max, tolerance.maxNm);
  return keeps ? 'callout within its tolerance' : 'callout not inside';
}

import type { ClosestFit } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { shownFigure } from './shownText.ts';
import { checkWords, itemName } from './words.ts';

export interface ClosestFitsProps {
  plan: ResolvedPlan;
  fits: ClosestFit[];
  units: UnitsShown;
  drawn?: string[] | null;
  onDraw?: (stack: string[]) => void;
}

export function stackText(plan: ResolvedPlan, stack: string[]): string {
  return stack.length === 0 ? 'No stack' : stack.map((id) => itemName(plan, id)).join(' + ');
}

export const sameStack = (a: string[] | null | undefined, b: string[]): boolean =>
  a !== null && a !== undefined && a.length === b.length && a.every((id, index) => id === b[index]);

/** The nearest stacks that fail: in which check, what they have and what is needed. */
export function ClosestFits({ plan, fits, units, drawn, onDraw }: ClosestFitsProps) {
  if (fits.length === 0)
    return <p>No stack of this plan’s catalog comes near: no tool, extension and socket join for this head.</p>;
  return (
    <table className="bw-checks bw-closest">
      <thead>
        <tr>
          <th scope="col">Closest fit</th>
          <th scope="col">Fails</th>
          <th scope="col">Has</th>
          <th scope="col">Needs</th>
          {onDraw === undefined ? null : <th scope="col">Drawing</th>}
        </tr>
      </thead>
      <tbody>
        {fits.flatMap((fit, at) =>
          fit.fails.map(({ check, have, need }, index) => (
            <tr key={`${at} ${index}`}>
              {index === 0 ? (
                <th scope="rowgroup" rowSpan={fit.fails.length}>
                  {stackText(plan, fit.stack)}
                </th>
              ) : null}
              <td className="bw-word" data-label="fails:">
                {checkWords[check]}
              </td>
              <td data-label="has">{shownFigure(check, have, units)}</td>
              <td data-label="needs">{shownFigure(check, need, units)}</td>
              {onDraw === undefined || index > 0 ? null : (
                <td rowSpan={fit.fails.length}>
                  {fit.stack.length === 0 ? (
                    '–'
                  ) : (
                    <button
                      type="button"
                      className="bw-link"
                      aria-pressed={sameStack(drawn, fit.stack)}
                      onClick={() => onDraw(fit.stack)}
                    >
                      {sameStack(drawn, fit.stack) ? 'Drawn above' : 'Draw this one'}
                    </button>
                  )}
                </td>
              )}
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}

import type { Tolerance } from '../../../shared-types/bag.ts';
import type { TolerancePoint } from '../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, once } from '../bag/amounts.ts';
import { toleranceWords } from '../bag/asked.ts';
import { withNames } from '../bag/Findings.tsx';
import { moreText } from './reasonWords.ts';
import type { ReasonsState } from './useReasons.ts';

export interface ToleranceCostProps {
  plan: ResolvedPlan;
  reasons: ReasonsState;
  units: UnitsShown;
}

const order: Tolerance[] = ['nothing', 'piece', 'bag'];
const barPx = 220;

/** What it costs that nothing, any one piece or any one bag may be lost. */
export function ToleranceCost({ plan, reasons, units }: ToleranceCostProps) {
  const points = new Map(reasons.found.tolerance.map((point) => [point.tolerance, point]));
  if (points.size === 0 && reasons.kind !== 'running') return null;
  const least = points.get('nothing')?.total?.value ?? null;
  const most = Math.max(0.001, ...[...points.values()].map(({ total }) => total?.value ?? 0));
  return (
    <section aria-labelledby="tolerance-heading">
      <h3 id="tolerance-heading">Price of tolerance</h3>
      <dl className="bw-tolerance-cost">
        {order.map((tolerance) => {
          const point = points.get(tolerance);
          return (
            <div key={tolerance}>
              <dt>{toleranceWords[tolerance]}</dt>
              <dd>
                <Bar value={point?.total?.value ?? null} least={least} most={most} />
                <span>{point === undefined ? leftText(reasons) : pointText(plan, point, least, units)}</span>
              </dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

function leftText({ kind }: ReasonsState): string {
  return kind === 'running' ? 'being worked out' : 'not worked out';
}

function pointText(plan: ResolvedPlan, point: TolerancePoint, least: number | null, units: UnitsShown): string {
  const { total, outcome, unit, stoppedBy, conflicts, losses } = point;
  if (outcome === 'infeasible') {
    const [why] = [...stoppedBy, ...losses, ...conflicts];
    return why === undefined ? 'not possible' : `not possible: ${withNames(plan, why.reason)}`;
  }
  if (total === null) return 'not known: out of time before a bag was found';
  const proved =
    outcome === 'proven' ? '' : `, not proved (nothing below ${amountText(total.bound, unit, once(units))})`;
  const more =
    least === null || point.tolerance === 'nothing' ? '' : `: ${moreText(total.value - least, unit, once(units))}`;
  return `${amountText(total.value, unit, once(units))}${more}${proved}`;
}

/** What the least takes in full, what tolerance adds in outline. */
function Bar({ value, least, most }: { value: number | null; least: number | null; most: number }) {
  const wide = (amount: number): number => (amount / most) * (barPx - 2);
  const base = value === null ? 0 : wide(Math.min(least ?? value, value));
  return (
    <svg className="bw-tolerance-bar" width={barPx} height="14" viewBox={`0 0 ${barPx} 14`} aria-hidden="true">
      <path className="bw-tolerance-room" d={`M0 13.5H${barPx}`} />
      {value === null ? null : (
        <>
          <rect className="bw-tolerance-base" x="1" y="2" width={base} height="9" />
          <rect className="bw-tolerance-more" x={1 + base} y="2" width={Math.max(0, wide(value) - base)} height="9" />
        </>
      )}
    </svg>
  );
}

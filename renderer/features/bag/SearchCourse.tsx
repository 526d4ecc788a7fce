import { useMemo } from 'react';
import type { Minimised } from '../../../shared-types/bag.ts';
import type { SearchMoment } from '../../../shared-types/records/window.ts';
import { SearchPlot } from '../../components/SearchPlot/SearchPlot.tsx';
import type { PlotScale } from '../../components/SearchPlot/searchPlotLayout.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { convertValue } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, objectiveUnits } from './amounts.ts';

export interface SearchCourseProps {
  plan: ResolvedPlan;
  moments: readonly SearchMoment[];
  untilS: number;
  minimised: Minimised;
  units: UnitsShown;
}

const quantities: Record<Minimised, string> = { mass: 'mass', count: 'number', volume: 'volume' };

/** Best and bound over time in the units chosen, while planning and on the finished result. */
export function SearchCourse({ plan, moments, untilS, minimised, units }: SearchCourseProps) {
  const scales = useMemo(() => scalesOf(minimised, units), [minimised, units]);
  const unit = objectiveUnits[minimised];
  return (
    <SearchPlot
      moments={moments}
      untilS={untilS}
      quantity={quantities[minimised]}
      scales={scales}
      amount={(value) => amountText(value, unit, units)}
      outingName={(id) => plan.outings.find((outing) => outing.id === id)?.name ?? id}
    />
  );
}

function scalesOf(minimised: Minimised, units: UnitsShown): [PlotScale, ...PlotScale[]] {
  const same = (value: number): number => value;
  if (minimised === 'count') return [{ unit: 'pieces', of: same }];
  const metric: PlotScale = minimised === 'mass' ? { unit: 'kg', of: same } : { unit: 'L', of: same };
  const inch: PlotScale =
    minimised === 'mass'
      ? { unit: 'lb', of: (kg) => convertValue(kg, 'kg', 'lb') }
      : { unit: 'in³', of: (litres) => convertValue(litres, 'L', 'in3') };
  if (units === 'both') return [metric, inch];
  return [units === 'inch-pound' ? inch : metric];
}

import type { PlanStep } from '../../../shared-types/plan.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';

/** Where the figures of a step come from: the plan's own words for its data, and the rules they were held against. */
export function StepSources({
  plan,
  step,
  written,
  stack,
}: {
  plan: ResolvedPlan;
  step: ResolvedStep;
  written: PlanStep;
  stack: string[] | null;
}) {
  const { fasteners, drivers, torqueTools, extensions, sockets } = plan.source.catalog;
  const notes = [...drivers, ...torqueTools, ...extensions, ...sockets]
    .filter(({ id, notes: said }) => stack?.includes(id) === true && said !== undefined)
    .map(({ id, notes: said }) => `${id}: ${said}`);
  const fastener = fasteners.find(({ id }) => id === step.fastener?.id);
  return (
    <SourceNote>
      {written.callout === undefined ? null : <>Callout: {written.calloutSource ?? 'the plan names no source'}. </>}
      {written.notes === undefined ? null : <>Step: {written.notes}. </>}
      {fastener?.notes === undefined ? null : <>Fastener: {fastener.notes}. </>}
      {notes.length === 0 ? null : <>Parts: {notes.join('; ')}. </>}
      Parts and access hole: as given in the plan. Decision on the setting: interval rule after ISO 14253-1, on the
      tool’s permissible deviation, ends included. Shown limits are rounded inward, single values half to even.
    </SourceNote>
  );
}

import type { PlanStep } from '../../../shared-types/plan.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { tableByKey } from '../../engine/handbook/tables.ts';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';

export interface StepSourcesProps {
  plan: ResolvedPlan;
  step: ResolvedStep;
  written: PlanStep;
  stack: string[] | null;
}

/** What is said of something, ended like a sentence. */
function said(of: string, words: string | undefined): string[] {
  if (words === undefined) return [];
  return [`${of}: ${words.trim().replace(/[.;]+$/, '')}.`];
}

/** The plan's own words on the items of a stack, each once. */
export function partNotes(plan: ResolvedPlan, stack: string[] | null): { id: string; notes: string }[] {
  const { drivers, torqueTools, extensions, sockets } = plan.source.catalog;
  return [...drivers, ...torqueTools, ...extensions, ...sockets].flatMap(({ id, notes }) =>
    notes !== undefined && stack?.includes(id) === true ? [{ id, notes }] : [],
  );
}

/** The documents that pitches come from, with their editions. */
const threadTables = (['pitches-iso-262', 'unified-series-asme-b1.1'] as const)
  .map((key) => tableByKey(key).source)
  .map(({ number, table, edition }) => `${number}, ${table} (${edition})`)
  .join(' and ');

/** Where the figures of a step come from: the plan's own words for its data, and the rules they were held against. */
export function StepSources({ plan, step, written, stack }: StepSourcesProps) {
  const fastener = plan.source.catalog.fasteners.find(({ id }) => id === step.fastener?.id);
  const sentences = [
    ...(written.callout === undefined ? [] : said('Callout', written.calloutSource ?? 'the plan names no source')),
    ...said('Step', written.notes),
    ...said('Fastener', fastener?.notes),
    ...partNotes(plan, stack).flatMap(({ id, notes }) => said(id, notes)),
    ...(step.action === 'use' ? [] : ['Figures of parts and access hole: as the plan gives them.']),
    ...(step.action === 'tighten'
      ? ['Setting: interval rule after ISO 14253-1 on the tool’s permissible deviation, ends included.']
      : []),
    ...(step.fastener?.threadRunMm === null || step.fastener === null
      ? []
      : [`Turns: thread run over the lead, pitches of ${threadTables}; strokes are whole strokes in the free swing.`]),
    ...(step.action === 'use'
      ? []
      : ['Limits are shown rounded inward, single values half to even, applied bands to four digits.']),
  ];
  return sentences.length === 0 ? null : <SourceNote>{sentences.join(' ')}</SourceNote>;
}

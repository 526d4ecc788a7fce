import { tableByKey, type AnyTable } from '../handbook/tables.ts';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { CourseResult } from '../../../shared-types/outing.ts';
import { courseOf } from '../outing/course.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { torqueTexts } from '../torque/torqueParts.ts';
import { showNumber } from '../units/index.ts';

/** "ISO 262, selected sizes table (edition: not stated in the dataset)". */
function tableText({ source }: AnyTable): string {
  return `${source.number}, ${source.table} (edition: ${source.edition})`;
}

/**
 * The documents that pitches and series of threads were read in, with their editions.
 *
 * @returns one sentence
 * @throws nothing
 */
export function threadsBasis(): string {
  const threads = [tableByKey('pitches-iso-262'), tableByKey('unified-series-asme-b1.1')].map(tableText).join('; ');
  return `Pitches and series of threads: ${threads}.`;
}

/**
 * What the figures of a bag rest on, for whoever holds the file without the program: sources with their editions, what is assumed,
 * how it is rounded.
 */
export function figuresBasis(plan: ResolvedPlan): string[] {
  return [
    'Lengths, diameters, rated torques, masses and stock are the plan’s own; nothing was weighed or measured.',
    'Masses are added up; the bag is the least of all that serve every step, proved by the solver and counted again without it.',
    'A setting conforms when the whole band it applies lies in the callout, ends included: interval rule after ISO 14253-1 on the tool’s permissible deviation, a share of the reading as the plan states it.',
    'Running torque is in the callout where the plan says so or says nothing, and is added where the plan says it is not.',
    plan.rangeShareMin === 0
      ? 'The plan sets no least share of a torque tool’s range.'
      : `No setting lies below ${showNumber(plan.rangeShareMin * 100)} % of its tool’s maximum: the plan’s own limit; common practice, no source.`,
    threadsBasis(),
    'Rounding: single values half to even at their fourth digit, limits inward.',
  ];
}

/**
 * The answer with what its figures rest on, as JSON files carry it.
 *
 * @returns every field of the answer; `course`: how the outings run; `basis`: sources with editions, assumptions, rounding
 * @throws nothing
 */
export function bagDocument(
  plan: ResolvedPlan,
  result: BagResult,
): BagResult & { course: CourseResult; basis: string[] } {
  return { ...result, course: courseOf(plan, result.outings), basis: figuresBasis(plan) };
}

/** Why a step's torque is what it is, in one line: callout with its source, running torque apart, the sum; empty without torque. */
export function stepTorqueText(plan: ResolvedPlan, id: string): string {
  const index = plan.steps.findIndex((step) => step.id === id);
  const [step, written] = [plan.steps[index], plan.source.steps[index]];
  if (step === undefined) return '';
  const texts = torqueTexts(step, written, 'as-written');
  const source =
    step.callout === null ? [] : [`source of the callout: ${written?.calloutSource ?? 'the plan names none'}`];
  return [...texts, ...source].join('; ');
}

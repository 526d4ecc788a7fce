import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep, ResolvedTool } from '../plan/resolved.ts';
import { readThread } from '../thread/index.ts';

/** A way to turn, as seen from the head: to the right tightens a right-hand thread. */
export type Way = 'right' | 'left';

/** A torque tool that does not measure the way a step tightens; `measures` null: that it does is not said. */
export interface OtherWay {
  tool: string;
  tightens: Way;
  measures: Way | null;
}

/**
 * Whether a torque tool measures the way a step tightens.
 *
 * A thread tightens to the side of its hand. A tool measures to the side its record names, or to both; what is not said of a tool counts as
 * to the right, the way torque tools are made (common practice, no source), so that it is asked about on left-hand threads alone.
 * Loosening measures nothing: there `loosens` says whether a torque tool may be used, and says it for the way back.
 *
 * @returns null where it does, and where a step does not tighten with a torque tool
 * @throws nothing: the step's thread was read with its plan
 * @source a right-hand thread tightens clockwise by its definition
 * @validity threaded fasteners
 * @example otherWay(tightenLeftHand, rightOnly) // { tool: 'T', tightens: 'left', measures: 'right' }
 */
export function otherWay(step: ResolvedStep, tool: ResolvedTool): OtherWay | null {
  if (step.action !== 'tighten' || step.fastener === null || tool.torque === null) return null;
  const { hand } = readThread(step.fastener.thread);
  const { direction } = tool;
  if (direction === 'both' || direction === hand || (direction === null && hand === 'right')) return null;
  return { tool: tool.id, tightens: hand, measures: direction };
}

/** The same of a string of parts, by the ids that an answer or a list of stacks has; null for one without a tool of the plan. */
export function otherWayOf(plan: ResolvedPlan, step: ResolvedStep, stack: readonly string[]): OtherWay | null {
  const tool = plan.tools.get(stack[0] ?? '');
  return tool === undefined ? null : otherWay(step, tool);
}

/** Whether nothing known speaks against a string of parts: its tool measures the way the step tightens, or which way is not said. */
export function isRightWay(plan: ResolvedPlan, step: ResolvedStep, stack: readonly string[]): boolean {
  return (otherWayOf(plan, step, stack)?.measures ?? null) === null;
}

/** Whether every torque tool of the plan measures the other way than a step tightens: whatever stack reaches, none does the step. */
export function noneMeasuresIt(plan: ResolvedPlan, step: ResolvedStep): boolean {
  const measuring = [...plan.tools.values()].filter(({ torque }) => torque !== null);
  return measuring.length > 0 && measuring.every((tool) => (otherWay(step, tool)?.measures ?? null) !== null);
}

/** Of an outing's planned stacks, those whose tool does not measure the way their step tightens, in the order of the steps. */
export function otherWaysOf(plan: ResolvedPlan, { steps }: BagOuting): { step: ResolvedStep; way: OtherWay }[] {
  const stacks = new Map(steps.map(({ id, stack }) => [id, stack]));
  return plan.steps.flatMap((step) => {
    const way = otherWayOf(plan, step, stacks.get(step.id) ?? []);
    return way === null ? [] : [{ step, way }];
  });
}

/** In words: "TT-2 measures to the right alone, and this thread tightens to the left". */
export function otherWayText({ tool, tightens, measures }: OtherWay): string {
  return measures === null
    ? `${tool} is not said to measure to the left, and this thread tightens to the left`
    : `${tool} measures to the ${measures} alone, and this thread tightens to the ${tightens}`;
}

import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { inOrder } from '../../engine/records/inOrder.ts';

/** A step as the sheet lists it. */
export interface StepLine {
  step: TaskStep;
  /** 0 for a step of the task's own order; 1 and more for one that stands under the step it is for. */
  depth: number;
}

export interface StepGroup {
  /** Code of the outing, which may be one that is not there (any more). */
  outing: string;
  record: TaskOuting | null;
  lines: StepLine[];
}

/** The steps of a task under their outings, in order; what is done if a step fails stands under that step. */
export function stepGroups(steps: readonly TaskStep[], outings: readonly TaskOuting[]): StepGroup[] {
  const byOuting = new Map<string, TaskStep[]>(outings.map(({ code }) => [code, []]));
  for (const step of inOrder(steps)) {
    const own = byOuting.get(step.outing);
    if (own === undefined) byOuting.set(step.outing, [step]);
    else own.push(step);
  }
  const records = new Map(outings.map((outing) => [outing.code, outing]));
  return [...byOuting].map(([outing, own]) => ({
    outing,
    record: records.get(outing) ?? null,
    lines: nested(own),
  }));
}

/** Steps of one outing; one that is for a step of another outing, or for itself by a circle, stands on its own. */
function nested(own: readonly TaskStep[]): StepLine[] {
  const codes = new Set(own.map(({ code }) => code));
  const under = new Map<string, TaskStep[]>();
  const roots: TaskStep[] = [];
  for (const step of own) {
    const over = step.contingency === true ? step.ifFails?.step : undefined;
    if (over === undefined || over === step.code || !codes.has(over)) roots.push(step);
    else under.set(over, [...(under.get(over) ?? []), step]);
  }
  const lines: StepLine[] = [];
  const listed = new Set<string>();
  const list = (step: TaskStep, depth: number): void => {
    if (listed.has(step.id)) return;
    listed.add(step.id);
    lines.push({ step, depth });
    for (const below of under.get(step.code) ?? []) list(below, depth + 1);
  };
  for (const step of roots) list(step, 0);
  for (const step of own) list(step, 0);
  return lines;
}

/** The step with all that stands under it, as a run of lines. */
export function blockOf(lines: readonly StepLine[], id: string): StepLine[] {
  const from = lines.findIndex(({ step }) => step.id === id);
  const head = lines[from];
  if (head === undefined) return [];
  const end = lines.findIndex(({ depth }, index) => index > from && depth <= head.depth);
  return lines.slice(from, end < 0 ? lines.length : end);
}

/** The step that a step would pass on that side: the nearest of its own kind; null at the end. */
export function neighbourOf(lines: readonly StepLine[], id: string, by: -1 | 1): StepLine | null {
  const at = lines.findIndex(({ step }) => step.id === id);
  const head = lines[at];
  if (head === undefined) return null;
  const next =
    by === 1
      ? lines.find(({ depth }, index) => index > at && depth <= head.depth)
      : lines.findLast(({ depth }, index) => index < at && depth <= head.depth);
  return next?.depth === head.depth ? next : null;
}

/**
 * The lines of an outing with one block moved past its neighbour.
 *
 * @returns null where there is none on that side: the first and the last of their kind stay
 */
export function movedLines(lines: readonly StepLine[], id: string, by: -1 | 1): StepLine[] | null {
  const neighbour = neighbourOf(lines, id, by);
  if (neighbour === null) return null;
  const block = blockOf(lines, id);
  const passed = blockOf(lines, neighbour.step.id);
  const rest = lines.filter((line) => !block.includes(line));
  const at = rest.indexOf(neighbour) + (by === 1 ? passed.length : 0);
  return [...rest.slice(0, at), ...block, ...rest.slice(at)];
}

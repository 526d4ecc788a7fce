import type { TaskStep } from '../../../shared-types/records/task.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { placedIn, unplaced } from './stepActs.ts';
import type { TaskRows } from './stepActs.ts';
import { blockOf, stepGroups } from './stepLines.ts';
import type { StepGroup, StepLine } from './stepLines.ts';
import { stepCalled } from './stepTexts.ts';
import { countOf } from './words.ts';

/** Where steps are put: before a step, after one, or at the head of an outing. */
export type Landing = { side: 'before' | 'after'; step: string } | { side: 'head'; outing: string };

/** What is moved together: whole blocks of one level, which land side by side. */
interface Moving {
  /** Key of the step under which all of them stand; null for steps of the task's own order. */
  under: string | null;
  blocks: StepLine[][];
  ids: ReadonlySet<string>;
}

/** The line above it that it stands under; null for a step of the task's own order. */
function overOf(lines: readonly StepLine[], id: string): StepLine | null {
  const at = lines.findIndex(({ step }) => step.id === id);
  const depth = lines[at]?.depth ?? 0;
  return depth === 0 ? null : (lines.slice(0, at).findLast((line) => line.depth < depth) ?? null);
}

const linesOf = (groups: readonly StepGroup[], id: string): readonly StepLine[] =>
  groups.find(({ lines }) => lines.some(({ step }) => step.id === id))?.lines ?? [];

/** The steps that go: with what stands under them; one that stands under another goes with that, or by itself among its like. */
function movingOf(groups: readonly StepGroup[], ids: ReadonlySet<string>): Moving | null {
  const inOrder = groups.flatMap(({ lines }) => lines).filter(({ step }) => ids.has(step.id));
  const roots = inOrder.filter(({ depth }) => depth === 0);
  const [first] = inOrder;
  if (first === undefined) return null;
  const over = overOf(linesOf(groups, first.step.id), first.step.id);
  const heads =
    roots.length > 0
      ? roots
      : inOrder.filter(({ step }) => overOf(linesOf(groups, step.id), step.id)?.step.id === over?.step.id);
  const blocks = heads.map(({ step }) => blockOf(linesOf(groups, step.id), step.id));
  return {
    under: roots.length > 0 ? null : (over?.step.id ?? null),
    blocks,
    ids: new Set(blocks.flat().map(({ step }) => step.id)),
  };
}

/** The line of the moving's own level at which it lands: the step itself, or the one that it stands under. */
function levelLine(lines: readonly StepLine[], id: string, under: string | null): StepLine | null {
  let at = lines.find(({ step }) => step.id === id) ?? null;
  while (at !== null) {
    const over = overOf(lines, at.step.id);
    if ((over?.step.id ?? null) === under) return at;
    at = over;
  }
  return null;
}

/** The groups with the moving taken out and put where it lands; null where it cannot stand there. */
function landed(groups: readonly StepGroup[], moving: Moving, to: Landing): StepGroup[] | null {
  const outing = to.side === 'head' ? to.outing : groups.find(({ lines }) => has(lines, to.step))?.outing;
  const target = groups.find((group) => group.outing === outing);
  if (target === undefined) return null;
  const rest = target.lines.filter(({ step }) => !moving.ids.has(step.id));
  let at = 0;
  if (to.side !== 'head') {
    // Dropped on itself, it stays.
    if (moving.ids.has(to.step)) return null;
    const line = levelLine(target.lines, to.step, moving.under);
    if (line === null || moving.ids.has(line.step.id)) return null;
    const isOnIt = line.step.id === to.step;
    at = rest.indexOf(line) + (to.side === 'before' && isOnIt ? 0 : blockOf(rest, line.step.id).length);
  } else if (moving.under !== null) return null;
  const put = moving.blocks
    .flat()
    .map((line, index) =>
      line.step.outing === target.outing
        ? line
        : { ...line, step: { ...line.step, outing: target.outing, position: unplaced + index } },
    );
  const lines = [...rest.slice(0, at), ...put, ...rest.slice(at)];
  return groups.map((group) => {
    if (group === target) return { ...group, lines };
    return { ...group, lines: group.lines.filter(({ step }) => !moving.ids.has(step.id)) };
  });
}

const has = (lines: readonly StepLine[], id: string): boolean => lines.some(({ step }) => step.id === id);

const orderText = (groups: readonly StepGroup[]): string =>
  groups.map(({ outing, lines }) => [outing, ...lines.map(({ step }) => step.id)].join(' ')).join('\n');

/** What keeps its place however it is moved, and what a move is called. */
export interface MoveSaid {
  ids: ReadonlySet<string>;
  /** Its number in the task, where one step is moved. */
  number: number | null;
  /** "before step 4", "down" */
  where: string;
}

/** The act for groups that stand otherwise than they did. */
function actOf(before: readonly StepGroup[], after: readonly StepGroup[], moving: Moving, said: MoveSaid): Act | null {
  if (orderText(before) === orderText(after)) return null;
  const steps = after.flatMap(({ lines }) => lines.flatMap(({ step }) => (moving.ids.has(step.id) ? [step] : [])));
  const [only] = moving.blocks.length === 1 ? (moving.blocks[0] ?? []) : [];
  const what = only === undefined ? countOf(moving.blocks.length, 'step') : stepCalled(only.step, said.number);
  const kept = new Map(steps.map((step) => [step.id, step]));
  for (const step of placedIn(after, steps)) kept.set(step.id, step);
  return {
    action: 'move-step',
    title: `Move ${what} ${said.where}`,
    proposals: [...kept.values()].map((step): Proposal => ({ table: 'steps', put: step })),
  };
}

/**
 * Puts steps where they shall stand, side by side and in their own order, with what stands under each of them.
 *
 * @returns null where nothing would stand otherwise, or where they cannot stand there: what is done if a step fails stays under it
 */
export function moveStepsTo(rows: TaskRows, said: MoveSaid, to: Landing): Act | null {
  const groups = stepGroups(rows.steps, rows.outings);
  const moving = movingOf(groups, said.ids);
  const after = moving === null ? null : landed(groups, moving, to);
  return moving === null || after === null ? null : actOf(groups, after, moving, said);
}

/** All of them one place up or down within the outing of the first, or the last, of them. */
export function moveStepsBy(rows: TaskRows, said: MoveSaid, by: -1 | 1): Act | null {
  const groups = stepGroups(rows.steps, rows.outings);
  const moving = movingOf(groups, said.ids);
  const edge = by === 1 ? moving?.blocks.at(-1)?.[0] : moving?.blocks[0]?.[0];
  if (moving === null || edge === undefined) return null;
  const lines = linesOf(groups, edge.step.id);
  const own = lines.filter(({ step }) => !moving.ids.has(step.id) && isOfLevel(lines, step, moving.under));
  const at = lines.indexOf(edge);
  const next =
    by === 1 ? own.find((line) => lines.indexOf(line) > at) : own.findLast((line) => lines.indexOf(line) < at);
  // At the end already: those that stand apart still come together there.
  const stay =
    by === 1 ? own.findLast((line) => lines.indexOf(line) < at) : own.find((line) => lines.indexOf(line) > at);
  const beside = next ?? (moving.blocks.length > 1 ? stay : undefined);
  if (beside === undefined) return null;
  const side = by === 1 ? 'after' : 'before';
  const after = landed(groups, moving, { side, step: beside.step.id });
  return after === null ? null : actOf(groups, after, moving, said);
}

const isOfLevel = (lines: readonly StepLine[], step: TaskStep, under: string | null): boolean =>
  (overOf(lines, step.id)?.step.id ?? null) === under;

/**
 * Where steps land of which the first shall have a number: moved down, after the step that then stands before it, so that they
 * stay on its outing; moved up, before the one that has the number now.
 *
 * @returns null where no step of the task has the number
 */
export function landingAtNumber(
  listed: readonly { step: TaskStep; number: number; depth: number }[],
  ids: ReadonlySet<string>,
  number: number,
): Landing | null {
  const own = listed.filter(({ step }) => ids.has(step.id)).map((one) => one.number);
  if (own.length === 0 || !listed.some((one) => one.number === number)) return null;
  // What stands under a step goes along with it.
  let above: number | null = null;
  const rest = listed.filter(({ step, depth }) => {
    if (above !== null && depth > above) return false;
    above = ids.has(step.id) ? depth : null;
    return above === null;
  });
  if (number > Math.min(...own)) {
    const before = rest[Math.min(number - 2, rest.length - 1)];
    return before === undefined ? null : { side: 'after', step: before.step.id };
  }
  const after = rest[number - 1];
  return after === undefined ? null : { side: 'before', step: after.step.id };
}

import type { Content } from '../contents.ts';
import type { OutingAnswer } from '../outingAnswer.ts';
import type { OutingWork, StepGroup } from '../outingWork.ts';
import { drawsFrom } from '../outingWork.ts';
import { standsLoss } from './afterLoss.ts';
import type { Option } from './options.ts';
import { optionsFrom, supplyOf } from './options.ts';
import { slotOptions } from './slots.ts';
import type { StepOptions } from './toolChanges.ts';
import { fewestChanges } from './toolChanges.ts';

/**
 * Makes the one answer of several equal ones. What is packed stays or shrinks, so the objective never grows: each step
 * takes, of the stacks that lie in its bags, one of fewest parts, six points before twelve where it loosens (they bear
 * on the flats), so that its role changes stacks least often, then by ids; and a piece that nobody needs any more, not
 * even after a loss, is left at home. What is kept stays.
 *
 * @throws Error where a step is not served, which a solved bag never shows
 */
export function settle(work: OutingWork, contents: readonly Content[]): OutingAnswer {
  const chosen = chooseStacks(work, contents);
  if (!chosen) throw new Error(`outing ${work.outing.id}: what was packed does not serve every step`);
  const less = withoutIdlePieces(work, contents, chosen);
  const after = less.length === contents.length && less.every((line, at) => line.quantity === contents[at]?.quantity);
  return { contents: less, chosen: after ? chosen : (chooseStacks(work, less) ?? chosen) };
}

/** The stack of each step; null where one is not served. */
function chooseStacks(work: OutingWork, contents: readonly Content[]): OutingAnswer['chosen'] | null {
  const { groups } = work;
  const chosen = new Map<string, Option>();
  for (const slot of new Set(groups.flatMap((group) => group.slot ?? []))) {
    const together = slotOptions(
      work.stock,
      contents,
      groups.filter((group) => group.slot === slot),
    );
    if (!together) return null;
    for (const [group, option] of together) for (const step of group.steps) chosen.set(step.id, option);
  }
  const groupOf = new Map(groups.flatMap((group) => group.steps.map((step) => [step.id, group] as const)));
  const offered = new Map<StepGroup, Option[]>();
  for (const role of new Set(groups.map((group) => group.role))) {
    const supply = supplyOf(contents, (bag) => drawsFrom(bag, role));
    const course: StepOptions[] = [];
    for (const { id } of work.steps.filter((step) => step.role === role)) {
      const group = groupOf.get(id);
      if (!group) continue;
      const fixed = chosen.get(id);
      const options = fixed ? [fixed] : (offered.get(group) ?? preferred(optionsFrom(work.stock, group, supply)));
      if (!fixed) offered.set(group, options);
      if (options.length === 0) return null;
      course.push({ step: id, options });
    }
    for (const [step, option] of fewestChanges(course)) chosen.set(step, option);
  }
  return new Map(
    work.steps.flatMap((step) => {
      const option = chosen.get(step.id);
      return option ? [[step.id, { step, stack: option.stack, hold: option.hold }]] : [];
    }),
  );
}

/** Those that only their ids set apart. */
function preferred(options: readonly Option[]): Option[] {
  const [first] = options;
  return first ? options.filter(({ parts, corners }) => parts === first.parts && corners === first.corners) : [];
}

/** Of pieces that stand in for each other the heavier goes first, then what no step uses. */
function withoutIdlePieces(work: OutingWork, contents: readonly Content[], chosen: OutingAnswer['chosen']): Content[] {
  let kept = [...contents];
  const used = new Set([...chosen.values()].flatMap(({ stack, hold }) => [...stack.ids, ...(hold?.ids ?? [])]));
  const order = contents.toSorted(
    (a, b) => b.item.massKg - a.item.massKg || Number(used.has(a.item.id)) - Number(used.has(b.item.id)),
  );
  for (const line of order) {
    if (line.item.kind === 'gear') continue;
    for (let fewer = line.quantity - 1; fewer >= 0; fewer -= 1) {
      const next = kept.map((l) => (l.item === line.item && l.bag === line.bag ? { ...l, quantity: fewer } : l));
      const left = next.reduce((sum, { item, quantity }) => sum + (item === line.item ? quantity : 0), 0);
      if (left < (work.keep.get(line.item.id) ?? 0)) break;
      if (!chooseStacks(work, next) || !standsLoss(work, next)) break;
      kept = next;
    }
  }
  return kept.filter(({ quantity }) => quantity > 0);
}

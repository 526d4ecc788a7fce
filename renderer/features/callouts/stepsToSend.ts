import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { threadIn } from '../handbook/rowThread.ts';
import { filledFrom } from '../steps/fromInterface.ts';
import { stepName } from '../steps/stepTexts.ts';
import type { SiteRows } from '../task/useTaskRows.ts';

/** A step that may take a callout's torque, with all it is chosen by. */
export interface OfferedStep {
  step: TaskStep;
  number: number;
  name: string;
  /** "A1 Upper flange"; empty where it names none. */
  interface: string;
  interfaceCode: string;
  /** As the designation of its fastener reads; empty where it has no fastener. */
  thread: string;
  fastener: string;
}

export interface StepFilter {
  text: string;
  /** Code of an interface, or a thread; empty for all of them. */
  interface: string;
  thread: string;
}

/** The tightening steps of a task, in their order. */
export function offeredSteps(
  steps: readonly TaskStep[],
  { stock, sites }: { stock: readonly Item[]; sites: SiteRows },
): OfferedStep[] {
  const fasteners = new Map(stock.flatMap((item) => (item.kind === 'fastener' ? [[item.code, item] as const] : [])));
  return steps.flatMap((step, at): OfferedStep[] => {
    if (step.action !== 'tighten') return [];
    const place = sites.interfaces.get(step.interface ?? '');
    const code = filledFrom(step, place).fastener ?? '';
    const typed = fasteners.get(code)?.thread ?? '';
    return [
      {
        step,
        number: at + 1,
        name: stepName(step),
        interface: place === undefined ? '' : [place.code, place.name ?? ''].join(' ').trim(),
        interfaceCode: place?.code ?? '',
        thread: threadIn(typed)?.designation ?? typed,
        fastener: code,
      },
    ];
  });
}

export function filteredSteps(steps: readonly OfferedStep[], filter: StepFilter): OfferedStep[] {
  const words = filter.text.toLowerCase().split(/\s+/).filter(Boolean);
  return steps.filter((one) => {
    if (filter.interface !== '' && one.interfaceCode !== filter.interface) return false;
    if (filter.thread !== '' && one.thread !== filter.thread) return false;
    const text = [one.step.code, one.name, one.interface, one.thread, one.fastener].join('\n').toLowerCase();
    return words.every((word) => text.includes(word));
  });
}

/** What there is of something, each once, in order. */
export function choicesOf(steps: readonly OfferedStep[], of: 'interfaceCode' | 'thread'): string[] {
  return [...new Set(steps.map((one) => one[of]))]
    .filter((text) => text !== '')
    .toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true }));
}

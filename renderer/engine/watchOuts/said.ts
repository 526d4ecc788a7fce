import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import type { WatchOut, WatchOutTie } from '../../../shared-types/records/watchOut.ts';

/** A watch-out as it is said at one thing, and why there: by that thing's own list of texts, or by a record tied to what it touches. */
export interface SaidWatchOut {
  text: string;
  from:
    | { kind: 'interface'; called: string }
    | { kind: 'step'; called: string }
    | { kind: 'record'; record: WatchOut; by: WatchOutTie[] };
}

/** What a step touches, beyond itself. */
export interface StepTouches {
  step: TaskStep;
  /** The interface it acts on, where it has one. */
  at: Interface | null;
  /** Its task: a code means what lies on one of the task's shelves. */
  task: Pick<Task, 'shelves'>;
  /** Codes of the parts that are planned for it: its stack and what holds against it. */
  parts?: readonly string[];
}

/**
 * The watch-outs of a step: first its interface's own, then its own, then the records that are tied to the step, to its interface, or to a
 * thing of the catalog that it names or is done with. Retired records are not said. The same words are said once, where they are met first.
 *
 * @returns them with where each comes from
 */
export function watchOutsOfStep(touches: StepTouches, records: Iterable<WatchOut>): SaidWatchOut[] {
  const { step, at } = touches;
  const codes = codesOf(touches);
  return once([
    ...(at?.watchOuts ?? []).map((text): SaidWatchOut => ({
      text,
      from: { kind: 'interface', called: at?.code ?? '' },
    })),
    ...(step.watchOuts ?? []).map((text): SaidWatchOut => ({ text, from: { kind: 'step', called: step.code } })),
    ...tied(records, (tie) => {
      if (tie.to === 'step') return tie.step === step.id;
      if (tie.to === 'interface') return tie.interface === step.interface;
      return codes.has(tie.code) && touches.task.shelves.includes(tie.shelf);
    }),
  ]);
}

/**
 * The watch-outs of an interface: its own, the records tied to it, those tied to its fastener, and those tied to steps that act on it.
 *
 * @param x.steps - of every task
 * @returns them with where each comes from
 */
export function watchOutsOfInterface(
  { at, steps }: { at: Interface; steps: Iterable<TaskStep> },
  records: Iterable<WatchOut>,
): SaidWatchOut[] {
  const acting = new Set<string>();
  for (const step of steps) if (step.interface === at.id) acting.add(step.id);
  return once([
    ...(at.watchOuts ?? []).map((text): SaidWatchOut => ({ text, from: { kind: 'interface', called: at.code } })),
    ...tied(records, (tie) => {
      if (tie.to === 'interface') return tie.interface === at.id;
      return tie.to === 'step' ? acting.has(tie.step) : tie.code === at.fastener;
    }),
  ]);
}

/**
 * The watch-outs of a thing of the catalog: the records tied to it, and what the interfaces and steps that name it say of their own.
 *
 * @param x.interfaces - those that name it
 * @param x.steps - those that name it, of any task
 * @returns them with where each comes from
 */
export function watchOutsOfItem(
  x: { item: Pick<Item, 'shelf' | 'code'>; interfaces: readonly Interface[]; steps: readonly TaskStep[] },
  records: Iterable<WatchOut>,
): SaidWatchOut[] {
  const { item } = x;
  const at = new Set(x.interfaces.map(({ id }) => id));
  const acting = new Set(x.steps.map(({ id }) => id));
  const own = (kind: 'interface' | 'step', { code, watchOuts = [] }: Interface | TaskStep): SaidWatchOut[] =>
    watchOuts.map((text) => ({ text, from: { kind, called: code } }));
  return once([
    ...tied(records, (tie) => {
      if (tie.to === 'item') return tie.code === item.code && tie.shelf === item.shelf;
      return tie.to === 'interface' ? at.has(tie.interface) : acting.has(tie.step);
    }),
    ...x.interfaces.flatMap((one) => own('interface', one)),
    ...x.steps.flatMap((one) => own('step', one)),
  ]);
}

/** Every code that a step names, that its interface names for it, or that is planned for it. */
function codesOf({ step, at, parts = [] }: StepTouches): Set<string> {
  const named = [
    step.fastener ?? at?.fastener,
    step.hold?.fastener,
    ...(step.gear ?? []).map(({ id }) => id),
    ...(step.moves ?? []).map(({ id }) => id),
    ...(step.fastenerMoves ?? []).map(({ id }) => id),
    ...parts,
  ];
  return new Set(named.filter((code) => code !== undefined));
}

function tied(records: Iterable<WatchOut>, touched: (tie: WatchOutTie) => boolean): SaidWatchOut[] {
  const found: SaidWatchOut[] = [];
  for (const record of records) {
    if (record.retired !== undefined) continue;
    const by = record.ties.filter(touched);
    if (by.length > 0) found.push({ text: record.text, from: { kind: 'record', record, by } });
  }
  // The newest first; equal days by what they say, so that the order never follows the keys.
  return found.toSorted((a, b) => later(a, b));
}

function later(a: SaidWatchOut, b: SaidWatchOut): number {
  const key = ({ text, from }: SaidWatchOut): [string, string] => [
    from.kind === 'record' ? from.record.learned.on : '',
    text,
  ];
  const [[dayA, textA], [dayB, textB]] = [key(a), key(b)];
  if (dayA !== dayB) return dayA < dayB ? 1 : -1;
  return textA < textB ? -1 : Number(textA > textB);
}

function once(said: readonly SaidWatchOut[]): SaidWatchOut[] {
  const byText = new Map<string, SaidWatchOut>();
  for (const one of said) if (!byText.has(one.text)) byText.set(one.text, one);
  return [...byText.values()];
}

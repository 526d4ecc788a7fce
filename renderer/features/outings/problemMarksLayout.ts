import type { CourseProblem } from '../../../shared-types/outing.ts';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import type { Schedule } from './schedule.ts';

/** Problems of one step, marked where they arise. */
export interface ProblemMark {
  /** Code of the step; null for the outing as a whole. */
  step: string | null;
  problems: { problem: CourseProblem; number: number }[];
  /** Where it arises. */
  x: number;
  /** Where its mark stands: beside others, never on them. */
  markX: number;
  /** A clash lasts: from where to where it runs. */
  band: { x: number; widthPx: number } | null;
}

/** Problems as they are numbered: by the step at which they arise, those of the outing as a whole first. */
export function inOrderOfTime(problems: readonly CourseProblem[], schedule: Schedule): CourseProblem[] {
  const order = [...schedule.spans.map(({ step }) => step), ...schedule.aside].map(({ code }) => code);
  return problems.toSorted((a, b) => order.indexOf(a.step ?? '') - order.indexOf(b.step ?? ''));
}

/** Its shape, its edges, and room to the next. */
const markPx = 32;

/** The numbers of its problems, as the list has them. */
export function markText({ problems }: Pick<ProblemMark, 'problems'>): string {
  return problems.map(({ number }) => number).join(', ');
}

/** Marks in the order of time; of two near each other the later one stands aside. */
export function problemMarksLayout(
  problems: readonly CourseProblem[],
  schedule: Schedule,
  x: { at: (minutes: number) => number; leftPx: number },
): ProblemMark[] {
  const spans = new Map(schedule.spans.map((span) => [span.step.code, span]));
  const byStep = new Map<string | null, ProblemMark['problems']>();
  for (const [index, problem] of problems.entries())
    byStep.set(problem.step, [...(byStep.get(problem.step) ?? []), { problem, number: index + 1 }]);
  const marks = [...byStep].map(([step, own]): ProblemMark => {
    const span = step === null ? undefined : spans.get(step);
    const atX = span === undefined ? x.leftPx : x.at(span.startMin);
    const clash = own.some(({ problem }) => problem.rule === 'used-twice') && span !== undefined;
    return {
      step,
      problems: own,
      x: atX,
      markX: atX,
      band: clash ? { x: atX, widthPx: Math.max(3, x.at(span.endMin) - atX) } : null,
    };
  });
  let freeX = Number.NEGATIVE_INFINITY;
  return marks
    .toSorted((a, b) => a.x - b.x)
    .map((mark) => {
      const markX = Math.max(mark.x, freeX);
      freeX = markX + markPx + textWidthPx(markText(mark), 12);
      return { ...mark, markX };
    });
}

import type { CourseProblem } from '../../../../shared-types/outing.ts';
import type { ResolvedStep } from '../../plan/resolved.ts';
import type { Piece } from './book.ts';
import { stepCalled, thingCalled } from './called.ts';
import { fetchMends } from './mends.ts';
import { stepsInOrder } from './stepsInOrder.ts';
import type { Run } from './run.ts';

/** What still lies about when everything is done: at a place that is not final, or loosened in its hole. */
export function problemsAtEnd(run: Run): CourseProblem[] {
  return [...leftBehind(run), ...leftLoosened(run), ...siteShort(run)];
}

function leftBehind(run: Run): CourseProblem[] {
  const finals = new Set(run.plan.source.places?.filter(({ final }) => final).map(({ id }) => id));
  return gathered(run, ({ where }) => (where.at === 'place' && !finals.has(where.place) ? where.place : null)).map(
    ({ pieces: [first, ...more], at: place, last }) => ({
      rule: 'left-behind',
      outing: last.outing,
      step: last.id,
      until: null,
      id: first.id,
      kind: first.kind,
      quantity: more.length + 1,
      place,
      role: last.role,
      mends: fetchMends(run, first.id, place, last),
    }),
  );
}

/** Where the plan tightens a fastener at all, or says that it is not captive, what it left loosened in its hole was forgotten. */
function leftLoosened(run: Run): CourseProblem[] {
  const steps = stepsInOrder(run.plan);
  const tightens = (id: string, after: ResolvedStep): boolean =>
    steps.slice(steps.indexOf(after) + 1).some((step) => turns(step, id));
  return gathered(run, ({ where }) => (where.at === 'site' && where.loosened ? 'site' : null))
    .filter(({ pieces: [first], last }) => {
      const begun = stepOf(run, first.intervals.find(({ where }) => where.at === 'site' && where.loosened)?.from.step);
      return run.plan.fasteners.get(first.id)?.captive === false || tightens(first.id, begun ?? last);
    })
    .map(({ pieces: [first, ...more], last }) => ({
      rule: 'left-loosened',
      outing: last.outing,
      step: last.id,
      until: null,
      id: first.id,
      kind: first.kind,
      quantity: more.length + 1,
      role: last.role,
      mends: [
        {
          how: 'tighten',
          outing: last.outing,
          step: last.id,
          says: `Tighten ${more.length + 1} more ${thingCalled(run.plan, first.id)}, or let ${stepCalled(last)} take them out and say where they go.`,
        },
      ],
    }));
}

/** Fasteners of one kind are one pool, so that what is missing at one of two patterns shows when they are counted together. */
function siteShort(run: Run): CourseProblem[] {
  const steps = stepsInOrder(run.plan);
  return [...run.touched].flatMap((id) =>
    (['fastener', 'washer'] as const).flatMap((kind): CourseProblem[] => {
      const last = steps.findLast((step) => turns(step, id));
      const pieces = run.book.where(kind, id, () => true);
      const there = pieces.filter(({ where }) => where.at === 'site').length;
      const short = pieces.filter(({ intervals }) => intervals[0]?.where.at === 'site').length - there;
      if (last === undefined || short <= 0) return [];
      const thing = thingCalled(run.plan, id);
      const says = `Put ${short} more ${kind === 'washer' ? `washers of ${thing}` : thing} in with ${stepCalled(last)}, or an earlier one that tightens them.`;
      const of = { outing: last.outing, step: last.id };
      return [
        {
          rule: 'site-short',
          ...of,
          id,
          kind,
          quantity: short,
          role: last.role,
          mends: [{ how: 'count', ...of, says }],
        },
      ];
    }),
  );
}

function turns(step: ResolvedStep, id: string): boolean {
  return step.action === 'tighten' && [step.fastener?.id, step.hold?.fastener.id].includes(id);
}

interface Left {
  pieces: [Piece, ...Piece[]];
  at: string;
  /** The step that last moved them. */
  last: ResolvedStep;
}

function gathered(run: Run, at: (piece: Piece) => string | null): Left[] {
  const groups = new Map<string, Left>();
  for (const piece of run.book.all()) {
    const place = at(piece);
    const last = stepOf(run, piece.intervals.at(-1)?.from.step);
    if (place === null || last === undefined) continue;
    const key = JSON.stringify([piece.kind, piece.id, place, last.id]);
    const known = groups.get(key);
    if (known) known.pieces.push(piece);
    else groups.set(key, { pieces: [piece], at: place, last });
  }
  return [...groups.values()];
}

function stepOf(run: Run, id: string | null | undefined): ResolvedStep | undefined {
  return run.plan.steps.find((step) => step.id === id);
}

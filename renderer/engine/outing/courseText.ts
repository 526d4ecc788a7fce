import type {
  Chance,
  CourseProblem,
  CourseResult,
  OrderProposal,
  OutingClock,
  OutingCourse,
  SwapProposal,
} from '../../../shared-types/outing.ts';
import { showNumber } from '../units/index.ts';

/** One thing to say of how an outing runs, for text and CSV alike. */
export interface CourseLine {
  outing: string;
  step: string | null;
  item: string | null;
  says: string;
}

/** What a course says: the clock, the chance, what is wrong with what would mend it, what is proposed. */
export function courseLines({ outings, assumptions, recount }: CourseResult): CourseLine[] {
  const assumed = assumptions.map((says): CourseLine => ({
    outing: '',
    step: null,
    item: null,
    says: `Assumed: ${says}`,
  }));
  const wrong = recount.map((says): CourseLine => ({
    outing: '',
    step: null,
    item: null,
    says: `Wrong count: ${says}`,
  }));
  return [...outings.flatMap(linesOf), ...(outings.some(isWorthSaying) ? assumed : []), ...wrong];
}

/** A plan that says nothing of its course gets no lines about it but what is wrong. */
function isWorthSaying({ problems, chance, clock, orders, swaps }: OutingCourse): boolean {
  return problems.length + orders.length + swaps.length > 0 || chance !== null || clock.turnBack !== null;
}

function linesOf(course: OutingCourse): CourseLine[] {
  const { outing, clock, chance, problems, orders, swaps, needs } = course;
  const line = (says: string): CourseLine => ({ outing, step: null, item: null, says });
  if (!isWorthSaying(course)) return [];
  return [
    line(clockText(clock)),
    ...(chance === null
      ? []
      : [
          line(
            `Chance of finishing in time: ${chanceText(chance.finish)}${chance.home === null ? '' : `; and home again: ${chanceText(chance.home)}`} (${chance.samples} draws, seed ${chance.seed}).`,
          ),
          ...chance.assumptions.map((says) => line(`Assumed: ${says}`)),
        ]),
    ...needs.flatMap(({ role, tethers, pouchPlaces }) => {
      const points =
        tethers.needed === 0 ? [] : [`${tethers.needed} tether ${tethers.needed === 1 ? 'point' : 'points'} at once`];
      const places = pouchPlaces.needed === 0 ? [] : [`${pouchPlaces.needed} pouch places`];
      const both = [...points, ...places];
      return both.length === 0 ? [] : [line(`${role} needs ${both.join(' and ')}.`)];
    }),
    ...problems.map((problem): CourseLine => {
      return { outing, step: problem.step, item: problem.id, says: courseProblemText(problem) };
    }),
    ...orders.map((order) => line(orderText(order))),
    ...swaps.map((swap) => line(swapText(swap))),
  ];
}

/** "60.32 % (59.64 to 60.99 %)", with the confidence it holds with. */
function chanceText({ probability, interval }: Chance): string {
  // What is not certain is not rounded to certainty.
  const percent = (share: number): string => {
    if (share < 1 && share > 0.9999) return '>99.99';
    return share > 0 && share < 0.0001 ? '<0.01' : showNumber(share * 100);
  };
  const { low, high, confidence } = interval;
  return `${percent(probability)} % (${percent(low)} to ${percent(high)} % with ${confidence * 100} % confidence)`;
}

function clockText({ endMin, minutesMax, turnBack, safe }: OutingClock): string {
  const limit = minutesMax === null ? '' : ` of ${showNumber(minutesMax)}`;
  const turn =
    turnBack === null
      ? ''
      : `; turn back by ${showNumber(turnBack.latestMin)} min: ${turnBack.step === null ? 'after no step' : `after ${turnBack.step}`}`;
  const left = safe.length === 0 ? '' : `; safe to leave after ${safe.map(({ step }) => step).join(', ')}`;
  return `Out ${showNumber(endMin)}${limit} min${turn}${left}.`;
}

/** One problem of a course in one line, with what would mend it. */
function courseProblemText({ rule, id, kind, quantity, step, place, mends }: CourseProblem): string {
  const what =
    kind === 'role' || kind === 'step'
      ? `${id}${rule === 'over-carry' ? `, ${showNumber(quantity)} kg over` : ''}`
      : `${quantity} × ${id}${kind === 'washer' ? ' (washers)' : ''}`;
  const where = [step && `step ${step}`, place && `at ${place}`].filter(Boolean).join(', ');
  return [`${rule}: ${what}${where === '' ? '' : ` (${where})`}.`, ...mends.map(({ says }) => says)].join(' ');
}

function orderText({ aim, order, before, after, how }: OrderProposal): string {
  const figures =
    aim === 'tool-changes'
      ? `${after.toolChanges} tool changes, not ${before.toolChanges}`
      : `${after.loosePeak} loose pieces at once, not ${before.loosePeak}`;
  const best = how === 'exact' ? 'none is better' : 'the best found';
  return `Proposed order (${figures}; ${best}): ${order.join(', ')}.`;
}

function swapText({ changes, minutes, loads, clashes, bag }: SwapProposal): string {
  const who = changes.map(({ step, from, to }) => `${step} by ${to} in place of ${from}`).join(', ');
  const serves =
    bag === null
      ? ''
      : bag.serves && clashes.length === 0
        ? '; the bag serves as planned'
        : '; the bag must be planned again';
  const gain =
    minutes.after < minutes.before
      ? `${showNumber(minutes.after)} min, not ${showNumber(minutes.before)}`
      : loads
          .filter(({ before, after }) => before !== after)
          .map(({ role, before, after }) => `${role} ${showNumber(after)} min of work, not ${showNumber(before)}`)
          .join(', ');
  return `Proposed: ${who}: ${gain}${serves}.`;
}

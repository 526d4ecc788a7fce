import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { CourseProblem, CourseRule, PieceKind, Secured, Whereabouts } from '../../../shared-types/outing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
import { itemName, placeText } from '../steps/words.ts';

/** A piece as a person calls it. */
export function pieceName(plan: ResolvedPlan, id: string, kind: PieceKind): string {
  const name = plan.fasteners.get(id)?.name;
  if (kind === 'fastener' || kind === 'washer') {
    const fastener = name === undefined || name === id ? `fastener ${id}` : name;
    return kind === 'washer' ? `washers of ${fastener}` : fastener;
  }
  return itemName(plan, id);
}

/** "3 × Flange bolt". */
function piecesText(plan: ResolvedPlan, piece: { id: string; kind: PieceKind; quantity: number }): string {
  return `${piece.quantity} × ${pieceName(plan, piece.id, piece.kind)}`;
}

function bagName(plan: ResolvedPlan, id: string): string {
  const name = plan.bags.get(id)?.name;
  return name === undefined || name === id ? `bag ${id}` : name;
}

export function whereText(plan: ResolvedPlan, where: Whereabouts): string {
  if (where.at === 'store') return 'at home';
  if (where.at === 'bag') {
    const bag = where.bag === null ? 'a bag not planned yet' : bagName(plan, where.bag);
    return where.pouch === undefined ? bag : `${itemName(plan, where.pouch)}, in ${bag}`;
  }
  if (where.at === 'hand') return `in the hands of ${where.role}`;
  if (where.at === 'place') return placeText(plan, where.place);
  if (where.at === 'site') return where.loosened ? 'in its hole, loosened' : 'in its hole';
  return where.at === 'used' ? 'used up' : 'nowhere that is said';
}

/** The row of the drawing in which a piece lies. */
export function rowText(plan: ResolvedPlan, where: Whereabouts): string {
  if (where.at === 'bag') return where.bag === null ? 'Bags, not planned' : bagName(plan, where.bag);
  if (where.at === 'hand') return `${where.role}, in hand`;
  if (where.at === 'site') return 'In their holes';
  if (where.at === 'used') return 'Used up';
  if (where.at === 'nowhere') return 'Nowhere said';
  return where.at === 'place' ? placeText(plan, where.place) : 'At home';
}

export const securedMarks: Record<Secured, MarkState> = {
  home: 'back',
  bagged: 'packed',
  held: 'held',
  tethered: 'tethered',
  'set-down': 'set-down',
  fixed: 'fixed',
  used: 'used',
  loose: 'loose',
};

export const problemMarks: Record<CourseRule, MarkState> = {
  'not-there': 'not-there',
  'left-behind': 'left-behind',
  'used-twice': 'clash',
  'not-packed': 'not-packed',
  'over-carry': 'over-carry',
  loose: 'loose',
  'no-tether-point': 'no-tether-point',
  'no-pouch-place': 'no-pouch-place',
  'hands-full': 'hands-full',
  'count-differs': 'count-differs',
  'out-of-order': 'out-of-order',
  'left-loosened': 'left-loosened',
  'site-short': 'site-short',
  'other-way': 'other-way',
};

/** In words, without its mark and without the step: that is a link beside it. */
export function courseProblemText(
  plan: ResolvedPlan,
  problem: CourseProblem,
  stepCalled: (code: string) => string,
): string {
  const { rule, id, kind, quantity, place, role } = problem;
  const what = kind === 'role' || kind === 'step' ? id : piecesText(plan, { id, kind, quantity });
  const at = place === undefined ? '' : ` at ${place === 'site' ? 'its hole' : placeText(plan, place)}`;
  const of = role === undefined ? '' : ` of ${role}`;
  const said: Record<CourseRule, string> = {
    'not-there': `${what}: looked for${at}, and not there`,
    'left-behind': `${what}: left${at}, and fetched by nobody`,
    'used-twice': `${what}: in use elsewhere at the same time`,
    'not-packed': `${what}: in no bag${role === undefined ? ' of its role' : of}`,
    'over-carry': `${role ?? id} carries ${showNumber(quantity)} kg more than said`,
    loose: `${what}: neither held, tethered, bagged, fixed nor set down at a place`,
    'no-tether-point': `${what}: out of its bag, and no tether point is free for it`,
    'no-pouch-place': `${what}: no place in a pouch${of}`,
    'hands-full': `${kind === 'role' ? `${id}: ` : `${what}: `}more than two hands hold`,
    'count-differs': `${what}: so many more or less are moved than turned`,
    'out-of-order': `${kind === 'step' ? stepCalled(id) : what} has to come first`,
    'left-loosened': `${what}: loosened, and never tightened again`,
    'site-short': `${what}: fewer in their holes when all is done than there were`,
    'other-way': `${itemName(plan, id)}: measures the other way than this thread tightens`,
  };
  return said[rule];
}

/** Whether following the pieces found again what the plan alone says. */
export const isSame = (one: PlanProblem, other: CourseProblem): boolean =>
  one.rule === other.rule && one.id === other.id && (one.step ?? null) === other.step;

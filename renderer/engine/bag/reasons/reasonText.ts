/** Reasons in words, each finding a sentence with its figures and units. */
import type { Tolerance } from '../../../../shared-types/bag.ts';
import type {
  LimitReason,
  LimitsTogether,
  MeasuredLimit,
  Outcome,
  Pieces,
  Proven,
  TolerancePoint,
  WithoutItem,
} from '../../../../shared-types/bagReasons.ts';
import { showNumber } from '../../units/index.ts';
import { exact } from './ask.ts';
import { amountText, limitName, limitText } from './faults/sentences.ts';

/** "without one of 2 × hk-5: 0.05 kg more; in: 1 × hk-6; out: 1 × hk-5". */
export function withoutText(found: WithoutItem): string {
  const { id, packed, left, cost, outcome, unit, againstWish } = found;
  const what = left === 0 ? (packed === 1 ? id : `all ${packed} × ${id}`) : `one of ${packed} × ${id}`;
  const wish = againstWish ? ' (against the wish to keep it)' : '';
  return `without ${what}${wish}: ${cost ? replacedText(found, cost, unit) : failsText(found, outcome)}`;
}

function replacedText({ outcome, comesIn, goesOut }: WithoutItem, cost: Proven, unit: string): string {
  const sure = outcome === 'proven' ? '' : ` (not proved, not below ${showNumber(cost.bound)} ${unit})`;
  return [`${moreText(cost.value, unit)}${sure}`, ...piecesText('in', comesIn), ...piecesText('out', goesOut)].join(
    '; ',
  );
}

function moreText(value: number, unit: string): string {
  if (value === 0) return `costs the same`;
  return `${showNumber(Math.abs(value))} ${unit} ${value > 0 ? 'more' : 'less'}`;
}

function piecesText(word: string, pieces: readonly Pieces[]): string[] {
  return pieces.length === 0 ? [] : [`${word}: ${pieces.map(({ id, quantity }) => `${quantity} × ${id}`).join(', ')}`];
}

function failsText({ fails, conflicts }: WithoutItem, outcome: Outcome): string {
  if (outcome === 'open') return 'not known: out of time';
  const reasons = conflicts.length > 0 ? conflicts : fails;
  return `fails; ${reasons.map(({ reason }) => reason).join('; ')}`;
}

const lost: Record<Tolerance, string> = {
  nothing: 'nothing may be lost',
  piece: 'any one piece may be lost',
  bag: 'any one bag may be lost',
};

/** "any one piece may be lost: 4.2 kg (proved)"; or why that is not possible. */
export function toleranceText({
  tolerance,
  outcome,
  total,
  unit,
  stoppedBy,
  losses,
  conflicts,
}: TolerancePoint): string {
  const said = (what: string): string => `${lost[tolerance]}: ${what}`;
  if (total) {
    const sure = outcome === 'proven' ? 'proved' : `nothing below ${showNumber(total.bound)} ${unit}`;
    return said(`${showNumber(total.value)} ${unit} (${sure})`);
  }
  if (outcome === 'open') return said('not known: out of time');
  // What the planner names is said where nothing closer was found out about that step, or about any.
  const named = new Set(losses.map(({ step }) => step));
  const closer = losses.length + conflicts.length > 0;
  const others = stoppedBy.filter(({ step }) => (step === undefined ? !closer : !named.has(step)));
  return said(`not possible; ${[...losses, ...conflicts, ...others].map(({ reason }) => reason).join('; ')}`);
}

/** "bag B-1: mass 4 kg binds: without it 3.1 kg, 0.2 kg less"; or what is left of it. */
export function limitReasonText(found: LimitReason, total: number): string {
  const { binds, relaxed, objectiveUnit } = found;
  if (binds === null) return `${limitText(found)}: not known whether it binds: out of time`;
  if (!binds || !relaxed) return `${limitText(found)} does not bind${slackText(found)}`;
  return `${limitText(found)} binds: ${insteadText(relaxed, total, objectiveUnit)}`;
}

function insteadText(relaxed: Proven, total: number, unit: string): string {
  const less = `${showNumber(exact(total - relaxed.value))} ${unit} less`;
  const sure = relaxed.bound < relaxed.value ? ` (perhaps down to ${showNumber(relaxed.bound)} ${unit})` : '';
  return `without it ${showNumber(relaxed.value)} ${unit}, ${less}${sure}`;
}

function slackText({ limit, allowed, used, unit }: MeasuredLimit): string {
  const counts = limit.kind !== 'keep' && limit.kind !== 'forbid' && limit.kind !== 'spares';
  if (!counts || allowed === null || used === null || unit === null) return '';
  return allowed === used ? '; all of it is used' : `; ${amountText(exact(allowed - used), unit)} to spare`;
}

/** Limits that bind together alone. */
export function limitsTogetherText({ limits, relaxed, objectiveUnit }: LimitsTogether, total: number): string {
  const which = limits.map(limitName).join(', ');
  return `bind only together: ${which}: ${insteadText(relaxed, total, objectiveUnit).replace('without it', 'without them')}`;
}

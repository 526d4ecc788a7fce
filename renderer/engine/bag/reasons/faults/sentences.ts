import type { ClosestFit } from '../../../../../shared-types/bag.ts';
import type { EasedLimit, MeasuredLimit, StepConflict } from '../../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../../plan/resolved.ts';
import { showNumber } from '../../../units/index.ts';
import { stepName } from '../../unplaceable.ts';
import { apart } from '../../../stack/shown.ts';

/** Steps named before the rest are counted. */
const stepsNamed = 6;

/** A conflict in one sentence: which steps, and what stands in their way with its figures. */
export function conflictSentence(
  plan: ResolvedPlan,
  { outing, steps, eased, easedTogether }: Pick<StepConflict, 'outing' | 'steps' | 'eased' | 'easedTogether'>,
): string {
  const names = plan.steps.filter(({ id }) => steps.includes(id)).map(stepName);
  const more = names.length > stepsNamed ? ` and ${names.length - stepsNamed} more` : '';
  const which = `${names.slice(0, stepsNamed).join(', ')}${more}`;
  const who =
    names.length < 2
      ? `${which === '' ? 'what is wished for' : which} cannot be packed even by itself`
      : `${which} cannot be packed together, though without any one of them the rest can`;
  const why =
    eased.length > 0
      ? eased.map(easedText).join('; or ')
      : easedTogether.length > 0
        ? `only together stand in the way: ${easedTogether.map(limitText).join(', ')}`
        : 'no stock, bag or slot would mend it';
  return `outing ${outing}: ${who}: ${why}`;
}

/** "stock of R-38: 1 piece, 2 pieces needed". */
function easedText(eased: EasedLimit): string {
  const { limit, needs, allowed, unit, least } = eased;
  if (needs === null || allowed === null || unit === null) return limitText(eased);
  const atLeast = least ? '' : 'at most ';
  const [has, wanted] = apart(allowed, needs, (value, digits) => amountText(value, unit, digits));
  if (limit.kind === 'keep' || limit.kind === 'spares') return `${limitName(eased)}: ${has} wished, ${wanted} possible`;
  return `${limitName(eased)}: ${has}, ${atLeast}${wanted} needed`;
}

/** A limit with what it allows: "bag B-1 massMax 4 kg". */
export function limitText(measured: MeasuredLimit): string {
  const { allowed, unit } = measured;
  return allowed === null || unit === null
    ? limitName(measured)
    : `${limitName(measured)} ${amountText(allowed, unit)}`;
}

const bagWords = {
  massMax: 'mass',
  volumeMax: 'volume',
  itemsMax: 'number of pieces',
  sizeMax: 'longest piece',
  tetherPoints: 'tether points',
} as const;

/** A limit by what it is of. */
export function limitName({ limit }: Pick<MeasuredLimit, 'limit'>): string {
  if (limit.kind === 'stock') return `stock of ${limit.id}`;
  if (limit.kind === 'slot') return `slot ${limit.slot}: its steps at the same time`;
  if ('bag' in limit) return `bag ${limit.bag}: ${bagWords[limit.kind]}`;
  return {
    keep: `wish to keep ${limit.id}`,
    forbid: `wish to do without ${limit.id}`,
    spares: `spares of ${limit.id}`,
  }[limit.kind];
}

/** An amount with its unit, one piece in the singular. */
export function amountText(value: number, unit: NonNullable<MeasuredLimit['unit']>, digits?: number): string {
  const one = value === 1 && { pieces: 'piece', 'tether points': 'tether point' }[unit as string];
  return `${showNumber(value, digits)} ${one || unit}`;
}

/** "the nearest has reach 1.25 in, needs 2 in"; empty where nothing is near. */
export function nearestText(closest: readonly ClosestFit[]): string {
  const [first] = closest;
  if (!first || first.fails.length === 0) return '';
  const stack = first.stack.length > 0 ? `${first.stack.join(' + ')}, ` : '';
  return `the nearest, ${stack}has ${first.fails.map(({ check, have, need }) => `${check} ${have}, needs ${need}`).join(' and ')}`;
}

import type { ResolvedPlan } from '../plan/resolved.ts';
import { amountText, isOne } from './amount.ts';
import type { ElsewhereLine, KnownBefore, KnownMissing } from './knownBefore.ts';
import { shop } from './returned.ts';

/** What a place is called: the shop, a place of the plan by its name, any other as it was written. */
export function placeName(place: string, plan: Pick<ResolvedPlan, 'source'> | null): string {
  if (place === shop) return 'the shop';
  return plan?.source.places?.find(({ id }) => id === place)?.name ?? place;
}

/** What an outing is called in the plan; its code where the plan does not know it. */
function outingName(outing: string, plan: ResolvedPlan): string {
  return plan.outings.find(({ id }) => id === outing)?.name ?? outing;
}

const called = ({ item, name }: { item: string; name: string }): string => (name === item ? item : `${item} ${name}`);

/**
 * What is known of earlier outings, in sentences, for the manifest, the cards and the packing list of the next: what is missing
 * first, then what the plan counts on and is not there, what lies where, and what is still out.
 *
 * @param known - what is known
 * @param plan - for the names of places and outings
 */
export function knownWords(known: KnownBefore, plan: ResolvedPlan): string[] {
  const { missing, notThere, lies, out } = known;
  // A letter follows each name: a number behind one that is written from right to left would be read with it.
  const some = (one: ElsewhereLine | KnownMissing): string => `${amountText(one, one.partsOfOne)} of ${called(one)}`;
  return [
    ...missing.map((one) => {
      const how = `${isOne(one) ? 'is' : 'are'} ${one.lost ? 'given up as lost' : 'missing'}`;
      return `${some(one)} ${how} since ${outingName(one.outing, plan)}, discrepancy D-${one.discrepancy}; last seen ${one.lastSeen}.`;
    }),
    ...notThere.map((one) => {
      const home = one.home === 0 ? '' : ` ${one.home} came home although planned to stay.`;
      return `The plan counts on ${one.planned} of ${called(one)} at ${placeName(one.place, plan)}; ${one.lies === 0 ? 'none lies' : `${one.lies} ${one.lies === 1 ? 'lies' : 'lie'}`} there.${home}`;
    }),
    ...lies.map((one) => {
      const [lie, be] = isOne(one) ? ['lies', 'was'] : ['lie', 'were'];
      const how = one.how === 'left' ? lie : `${be} counted in`;
      return `${some(one)} ${how} at ${placeName(one.place, plan)} since ${outingName(one.outing, plan)} (revision ${one.revision}, event ${one.event}).`;
    }),
    ...out.map(
      (one) =>
        `${some(one)} ${isOne(one) ? 'is' : 'are'} still out with ${outingName(one.outing, plan)} (revision ${one.revision}), not counted in yet.`,
    ),
  ];
}

/**
 * Why so many pieces cannot be counted into a bag, given what is elsewhere; null where they can.
 *
 * @param known - what is known of earlier outings
 * @param x.item - code of the thing
 * @param x.onHand - how many the plan's stock has
 * @param x.counted - how many are counted into bags of this outing already
 * @param x.pieces - how many are about to be counted
 * @param x.label - the label that was read, where one was
 * @param plan - for the names of places and outings
 */
export function countFault(
  known: KnownBefore,
  x: { item: string; onHand: number; counted: number; pieces: number; label?: string },
  plan: ResolvedPlan,
): string | null {
  const { item, onHand, counted, pieces, label } = x;
  const about = knownWords({ ...known, notThere: [], ...of(known, item) }, plan).join(' ');
  if (label !== undefined && known.labelsAway.has(label))
    return `The piece with label ${label} went out and was not counted in since. ${about}`.trim();
  const away = known.away.get(item) ?? 0;
  if (away === 0 || counted + pieces <= onHand - away) return null;
  return `${counted + pieces} of ${item} cannot be here: the stock has ${onHand}, and ${away} ${away === 1 ? 'is' : 'are'} elsewhere. ${about}`.trim();
}

function of(known: KnownBefore, item: string): Pick<KnownBefore, 'lies' | 'out' | 'missing'> {
  const own = <T extends { item: string }>(list: readonly T[]): T[] => list.filter((one) => one.item === item);
  return { lies: own(known.lies), out: own(known.out), missing: own(known.missing) };
}

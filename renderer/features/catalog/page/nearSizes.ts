import type { Item, ItemOf } from '../../../../shared-types/records/item.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { fitOf, openingFormsFor } from '../../../engine/socket/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { showNumber } from '../../../engine/units/index.ts';
import { alikeItems } from '../alike.ts';
import { lengthMm } from '../fits.ts';

/** An opening and a head that are near one another, and whether the one goes on the other. */
export interface NearFit {
  item: Item;
  /** Nominal opening less nominal head [mm]. */
  differenceMm: number;
  verdict: 'goes-on' | 'slips' | 'not-on' | 'not-held';
  /** The numbers, or why there are none. */
  words: string;
}

/** So far apart two nominal sizes still count as near [mm], as on the Bench. */
const nearMm = 1;

const byCode = new Intl.Collator('en').compare;

/**
 * Near sizes among what is on the shelf: for a socket the heads, for a fastener the sockets whose nominal size is within 1 mm, with the
 * verdict at the published limits of both. Hexagon openings alone: of keys and hexalobular drives no limits are held.
 *
 * @param most - so many of them are wanted
 * @returns the nearest first, of those equally near by their codes; and how many there are
 */
export function nearSizes(
  item: Item,
  items: ReadonlyMap<string, Item>,
  most = Number.POSITIVE_INFINITY,
): { nearest: NearFit[]; count: number } {
  const { all, groups } = alikeItems(items);
  const found = (groups.get(item.shelf) ?? []).flatMap(({ first, places }) => {
    const fit = verdictOf(item, first);
    return fit === null ? [] : [{ fit, places }];
  });
  const count = found.reduce((sum, { places }) => sum + places.length, 0);
  const distance = ({ fit }: (typeof found)[number]): number => Math.abs(fit.differenceMm);
  const nearest: NearFit[] = [];
  for (const away of [...new Set(found.map(distance))].toSorted((a, b) => a - b)) {
    if (nearest.length >= most) break;
    const equal = found
      .filter((one) => distance(one) === away)
      .flatMap(({ fit, places }) => places.flatMap((at) => ({ ...fit, item: all[at] ?? fit.item })));
    nearest.push(...equal.toSorted((a, b) => byCode(a.item.code, b.item.code)).slice(0, most - nearest.length));
  }
  return { nearest, count };
}

function verdictOf(item: Item, other: Item): NearFit | null {
  if (item.kind === 'socket' && other.kind === 'fastener') return judged(item, other, other);
  return item.kind === 'fastener' && other.kind === 'socket' ? judged(other, item, other) : null;
}

function judged(socket: ItemOf<'socket'>, fastener: ItemOf<'fastener'>, item: Item): NearFit | null {
  const { form } = socket.opening;
  if ((form !== 'hex6' && form !== 'hex12') || !openingFormsFor(fastener.head.form).includes(form)) return null;
  const openingMm = lengthMm(socket.opening.size);
  const acrossFlatsMm = lengthMm(fastener.head.acrossFlats);
  if (openingMm === null || acrossFlatsMm === null) return null;
  const differenceMm = openingMm - acrossFlatsMm;
  if (Math.abs(differenceMm) > nearMm * (1 + 1e-9)) return null;
  const thread = threadOf(fastener.thread);
  const { fit, reason } = fitOf({
    ...{ headForm: fastener.head.form, acrossFlatsMm, openingForm: form, openingMm },
    ...(thread === null ? {} : { thread }),
  });
  if (fit === null) return { item, differenceMm, verdict: 'not-held', words: reason };
  const clearance = `clearance ${showNumber(fit.clearanceMm, 3)} to ${showNumber(fit.clearanceMaxMm, 3)} mm`;
  const free =
    fit.freeAngleDeg === null || fit.freeAngleDeg.max === null
      ? ''
      : `, turns free by ${showNumber(fit.freeAngleDeg.max, 3)}° at most`;
  if (!fit.goesOn) return { item, differenceMm, verdict: 'not-on', words: clearance };
  return { item, differenceMm, verdict: fit.slips === true ? 'slips' : 'goes-on', words: `${clearance}${free}` };
}

function threadOf(text: string): { system: 'metric' | 'unified'; majorMm: number } | null {
  try {
    const { system, majorMm } = readThread(text);
    return { system, majorMm };
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

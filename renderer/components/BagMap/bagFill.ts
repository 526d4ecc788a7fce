import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedBag, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { convertValue, limitIn, readQuantity, roundNominal } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';

/** One thing a bag is limited in: how much of it lies in there, against the limit. */
export interface Fill {
  name: string;
  /** "2.522 of 4.000 kg (5.56 of 8.82 lb)", or without a limit what there is. */
  text: string;
  /** 0 to 1 and beyond; null where the bag has no such limit or the sum is not known. */
  share: number | null;
}

export function bagFills(plan: ResolvedPlan, bag: ResolvedBag, outing: BagOuting, units: UnitsShown): Fill[] {
  const items = outing.items.filter((item) => item.bag === bag.id);
  const sum = (each: (id: string) => number): number =>
    items.reduce((total, { id, quantity }) => total + quantity * each(id), 0);
  const piece = (id: string) => plan.carried.get(id);
  const massKg = sum((id) => piece(id)?.massKg ?? 0);
  const without = items.filter(({ id }) => (piece(id)?.volumeL ?? null) === null).length;
  const volumeL = sum((id) => piece(id)?.volumeL ?? 0);
  const pieces = sum(() => 1);
  const tethers = sum((id) => piece(id)?.tethers ?? 0);
  const source = plan.source.catalog.bags.find(({ id }) => id === bag.id);
  const fill = (
    name: string,
    value: number,
    limit: number | null,
    text: (value: number, limit: number | null) => string,
  ): Fill => ({
    name,
    text: limit === null ? `${text(value, null)}, no limit given` : text(value, limit),
    share: limit === null || limit === 0 ? null : value / limit,
  });
  const mass = amounts(['kg', 3], ['lb', 2], source?.massMax, units);
  const litres = amounts(['L', 3], ['in3', 1], source?.volumeMax, units);
  const counted = (value: number, limit: number | null): string =>
    limit === null ? String(value) : `${value} of ${limit}`;
  const volume = fill('volume', volumeL, bag.volumeMaxL, litres);
  return [
    fill('mass', massKg, bag.massMaxKg, mass),
    without === 0
      ? volume
      : {
          ...volume,
          text: `at least ${volume.text}; ${without} without a volume`,
          share: bag.volumeMaxL === null ? null : volume.share,
        },
    fill('pieces', pieces, bag.itemsMax, counted),
    fill('tether points', tethers, bag.tetherPoints, counted),
  ];
}

type Rounded = readonly [unit: Unit, decimals: number];

/** "2.522 of 4.000 kg (5.56 of 8.82 lb)": the limit's own system first. */
function amounts(metric: Rounded, inch: Rounded, written: string | undefined, units: UnitsShown) {
  const inchFirst = written !== undefined && isInch(readQuantity(written).unit);
  const [first, second] = inchFirst ? [inch, metric] : [metric, inch];
  const said = ([unit, decimals]: Rounded, value: number, limit: number | null): string => {
    const digits = roundNominal(convertValue(value, metric[0], unit), decimals);
    const printed = unit === 'in3' ? 'in³' : unit;
    if (limit === null || written === undefined) return `${digits} ${printed}`;
    return `${digits} of ${limitIn(written, 'maximum', { unit, decimals })} ${printed}`;
  };
  return (value: number, limit: number | null): string => {
    if (units === 'si') return said(metric, value, limit);
    if (units === 'inch-pound') return said(inch, value, limit);
    return units === 'both'
      ? `${said(first, value, limit)} (${said(second, value, limit)})`
      : said(first, value, limit);
  };
}

function isInch(unit: Unit): boolean {
  return unit === 'lb' || unit === 'oz' || unit === 'in3';
}
